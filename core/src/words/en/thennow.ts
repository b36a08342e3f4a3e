/** English for the page of then and now: words first, the figure in parentheses. */
import type { ThenNowStatement } from '../compared.ts';
import type { Sentences } from '../sentences.ts';
import { capital, counted } from './counted.ts';
import { setupName } from './setupname.ts';
import { shortDay } from './shortday.ts';
import { sideName } from './sides.ts';
import { signed } from './signed.ts';

const HEADINGS = { changed: 'What changed', hear: 'To hear', strokes: 'Stroke by stroke' } as const;

const COLUMNS = { stroke: 'Stroke', comes: 'Comes', by: 'Changed by', varies: 'Varies by' } as const;

/** So much of what a player wrote is shown, in letters. Assumption: it is recognised. */
const MOST_LETTERS = 60;

function written(value: string): string {
  const letters = [...value];
  if (letters.length === 0) return 'not written down';
  return `“${letters.length > MOST_LETTERS ? `${letters.slice(0, MOST_LETTERS).join('').trimEnd()} …` : value}”`;
}

export const thenNowSentences: Sentences<ThenNowStatement> = {
  'then-now-title': ({ of }) => (of === 'drums' ? 'Pad and kit' : 'Then and now'),
  'then-now-side': ({ of, side, day }) => `${capital(sideName(of, side))}, ${shortDay(day, true)}`,
  'then-now-heading': ({ of }) => HEADINGS[of],
  'then-now-setup': ({ of, name, was, is }) =>
    `${capital(setupName(name))}: ${written(was)} ${sideName(of, 'then')}, ${written(is)} ${sideName(of, 'now')}.`,
  'then-now-column': ({ of, between, side }) => (side === '' ? COLUMNS[of] : `${COLUMNS[of]}, ${sideName(between, side)}`),
  'then-now-by': ({ value, low, high, sure }) => `${signed(value)} (${signed(low)} to ${signed(high)}) ms${sure ? ', for sure' : ''}`,
  'then-now-varies': ({ value, low, high, change }) =>
    `± ${value.toFixed(0)} (${low.toFixed(0)} to ${high.toFixed(0)}) ms${change === '' ? '' : change === 'less' ? ', less steady' : ', steadier'}`,
  'then-now-range': () =>
    'A range in parentheses holds the true figure 95 times in 100; minus is early. “For sure” is more than chance, with all strokes that are compared in mind.',
  'then-now-rest': ({ count }) =>
    `${capital(counted(count))} more ${count === 1 ? 'stroke is' : 'strokes are'} left out here, so that it stays one page; the app has them all.`,
  'then-now-sound': ({ cycles, as }) =>
    `The same ${counted(cycles)} cycles of both, ${as === 'inTurn' ? 'one after the other and once more' : 'the first on the left and the other on the right'}, equally loud.`,
  'then-now-slowed': ({ share }) => `Slowed to ${Math.round(100 * share)} % of its speed, at its own pitch.`,
};
