/** English for what is read at a glance from two metres, sticks in hand: a word or two, the head of the sentence that is said beside it. */
import type { CauseName, CauseParams, FindingStatement, PairParams, PlaceParams } from '../../finding/index.ts';
import type { SessionStatement } from '../../session/index.ts';
import type { Sentences } from '../sentences.ts';
import { spaceInDouble, subjectOf } from './finding.ts';

/** What may be heard of a round or a block. */
export type Glanced =
  | FindingStatement
  | Extract<SessionStatement, { readonly code: 'block-not-heard' | 'block-too-short' | 'block-of-else' | 'block-by-word' | 'block-without-word' }>;

export const notHeard = 'not heard';

export const glances: Sentences<Glanced> = {
  'nothing-stands-out': () => 'together',
  'cause-fits': causeGlance,
  'pair-uneven': pairGlance,
  'place-off': placeGlance,
  'sticking-in-doubt': () => 'sticking in doubt',
  'strokes-not-heard': () => 'not all heard',
  'too-little-to-tell': () => 'too little',
  'block-not-heard': () => notHeard,
  'block-too-short': () => 'too short',
  'block-of-else': () => 'other strokes',
  'block-by-word': ({ hadIt, again }) => (again === 0 ? 'had it' : `had it ${hadIt} of ${hadIt + again}`),
  'block-without-word': () => 'played',
};

const LIMBS: Readonly<Record<string, string>> = { R: 'right', L: 'left', K: 'kick', H: 'foot', foot: 'foot', hand: 'hand' };

/** Like the sentence, it tells of time before volume, and of volume before what is missing. */
function causeGlance(params: CauseParams): string {
  const { what, time, volume } = params;
  const [kind = ''] = what.split(':');
  if (kind === 'together') return 'apart';
  if (kind === 'bounce') return 'one bounce too many';
  if (kind === 'rushing') return time === 'early' ? 'running ahead' : 'falling behind';
  if (kind === 'tiring') return `getting ${time === 'even' ? volume : time === 'early' ? 'earlier' : 'later'}`;
  const way = time !== 'even' ? (inDouble(params) ?? time) : volume !== 'even' ? volume : params.missed > 0 ? 'missing' : 'uneven';
  return `${subject(params)} ${way}`;
}

function inDouble(params: CauseParams): string | null {
  const inside = spaceInDouble(params);
  return inside && `too ${inside.space}`;
}

function subject({ what, index, limb, ofDouble, only }: CauseName): string {
  const [kind = '', ...rest] = what.split(':');
  if (index >= 0 && ofDouble !== '') return ofDouble;
  if (index >= 0 && kind === 'place') return only ? (LIMBS[limb] ?? 'stroke') : `stroke ${index + 1}`;
  return SUBJECTS[kind]?.(rest.join(':')) ?? 'strokes';
}

const SUBJECTS: Readonly<Record<string, (detail: string) => string>> = {
  'second-of-double': () => 'second',
  'first-of-double': () => 'first',
  limb: (limb) => LIMBS[limb] ?? 'strokes',
  after: (change) => (change === 'hand>hand' ? 'hand change' : `after ${LIMBS[change.split('>')[0]!] ?? 'change'}`),
  'after-move': () => 'new drum',
  'into-accent': () => 'before accent',
  'out-of-accent': () => 'after accent',
  accent: () => 'accent',
  grace: () => 'grace',
  'bar-place': barSubject,
  fill: () => 'fill',
};

const IN_BEAT: Readonly<Record<string, string>> = { 0: 'on the beat', 25: 'the e', 50: 'the &', 75: 'the a', 33: '2nd triplet', 67: '3rd triplet' };

function barSubject(detail: string): string {
  const [kind = '', value = ''] = detail.split(':');
  if (kind === 'beat') return `beat ${value}`;
  return kind === 'bar' ? 'the 1' : (IN_BEAT[Math.round(100 * Number(value))] ?? 'one place');
}

function pairGlance(params: PairParams): string {
  const { gap, step } = params;
  return `${subjectOf(params)} ${gap === 'close' ? 'too close' : gap === 'wide' ? 'too far' : step !== 'even' ? step : 'uneven'}`;
}

function placeGlance({ index, limb, only, time, volume, missed }: PlaceParams): string {
  const way = time !== 'even' ? time : volume !== 'even' ? volume : missed > 0 ? 'missing' : 'uneven';
  return `${only ? LIMBS[limb] : `stroke ${index + 1}`} ${way}`;
}
