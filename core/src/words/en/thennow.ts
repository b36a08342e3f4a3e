/** English for the page of then and now: words first, the figure in parentheses. */
import type { ThenNowStatement } from '../compared.ts';
import type { Sentences } from '../sentences.ts';
import { capital, counted } from './counted.ts';
import { setupName } from './setupname.ts';
import { shortDay } from './shortday.ts';
import { signed } from './signed.ts';

const HEADINGS = { changed: 'What changed', hear: 'To hear', strokes: 'Stroke by stroke' } as const;

/** What the earlier and the later take are called. */
const EARLIER = { days: 'then', week: 'a week before', drums: 'on the pad' } as const;
const LATER = { days: 'now', week: 'this week', drums: 'on the kit' } as const;
const sideName = (of: keyof typeof LATER, side: 'then' | 'now'): string => (side === 'then' ? EARLIER : LATER)[of];

const COLUMNS = { stroke: 'Stroke', comes: 'Comes', by: 'Changed by', varies: 'Varies by' } as const;

/** So much of what a player wrote is shown, in letters. Assumption: it is recognised. */
const MOST_LETTERS = 60;

function written(value: string): string {
  const letters = [...value];
  if (letters.length === 0) return 'not written down';
  return `“${letters.length > MOST_LETTERS ? `${letters.slice(0, MOST_LETTERS).join('').trimEnd()} …` : value}”`;
}

export const thenNowSentences: Sentences<ThenNowStatement> = {
  'then-now-title': () => 'Then and now',
  'then-now-side': ({ of, side, day }) => `${capital(sideName(of, side))}, ${shortDay(day, true)}`,
  'then-now-heading': ({ of }) => HEADINGS[of],
  'then-now-setup': ({ name, was, is }) => `${capital(setupName(name))}: ${written(was)} then, ${written(is)} now.`,
  'then-now-column': ({ of, between, side }) => (side === '' ? COLUMNS[of] : `${COLUMNS[of]}, ${sideName(between, side)}`),
  'then-now-by': ({ value, low, high, sure }) => `${signed(value)} (${signed(low)} to ${signed(high)}) ms${sure ? ', for sure' : ''}`,
  'then-now-varies': ({ value, low, high, change }) =>
    `± ${value.toFixed(0)} (${low.toFixed(0)} to ${high.toFixed(0)}) ms${change === '' ? '' : change === 'less' ? ', less steady' : ', steadier'}`,
  'then-now-range': () =>
    'A range in parentheses holds the true figure 95 times in 100; minus is early. “For sure” is more than chance, with all strokes that are compared in mind.',
  'then-now-rest': ({ count }) =>
    `${capital(counted(count))} more ${count === 1 ? 'stroke is' : 'strokes are'} left out here, so that it stays one page; the app has them all.`,
  'then-now-sound': ({ cycles }) => `The same ${counted(cycles)} cycles of both, one after the other and once more, equally loud.`,
};
