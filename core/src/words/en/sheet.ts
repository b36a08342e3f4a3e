/** English for a sheet read aloud, and for what stands on a printed one. */
import type { PaperStatement, SpokenSheet } from '../../sheet/index.ts';
import type { Sentences } from '../sentences.ts';
import { limbNoun } from './limbs.ts';
import { noteValue, tempoName } from './notevalue.ts';

const DAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

export const sheetSentences: Sentences<SpokenSheet | PaperStatement> = {
  'paper-page': ({ title, page }) => `${title}, page ${page}`,
  'paper-tempo': ({ perBeat }, noteNames) => `Tempo, ${noteValue(perBeat, noteNames)}`,
  'paper-start': ({ perBeat, startBpm }, noteNames) => `From ${tempoName(startBpm, perBeat, noteNames)}`,
  'paper-weekday': ({ day }) => DAYS[day] ?? '',
  'sheet-spoken': ({ events, perBeat }) => {
    const said = sentence(events);
    return `${said[0]!.toUpperCase()}${said.slice(1)}; ${perBeat} to the beat.`;
  },
};

const GRACES: Readonly<Record<number, string>> = { 1: 'flam ', 2: 'drag ', 3: 'ruff ' };

const sentence = (events: readonly string[]): string => events.map(event).join(', ').replaceAll(':,', ':');

function event(written: string): string {
  const group = /^(\d+):(\d+)$/.exec(written);
  if (group) return `${group[1]} in the time of ${group[2]}:`;
  if (written === '}') return 'end of the group';
  if (written === '-') return 'rest';
  const strokes = written.split('+').map(stroke);
  return strokes.length === 1 ? strokes[0]! : `${strokes.join(' and ')} together`;
}

function stroke(written: string): string {
  const limb = limbNoun(/[RLKH]/.exec(written)?.[0] ?? '') ?? '';
  const graceCount = /^[rl]*/.exec(written)![0].length;
  const graces = graceCount === 0 ? '' : (GRACES[graceCount] ?? 'ruff ');
  const accent = written.includes('>') ? 'accented ' : '';
  const ghost = written.includes('(') ? 'ghost ' : '';
  const roll = written.endsWith('/') ? ' diddle' : written.endsWith('z') ? ' buzz' : '';
  return `${accent}${ghost}${graces}${limb}${roll}`;
}
