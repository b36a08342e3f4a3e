/** English for what a take shows: the strokes first, then how; figures wait behind a tap. */
import {
  type CauseParams,
  type CauseStatement,
  type FindingStatement,
  type FitStatement,
  type NotHeardParams,
  type PairParams,
  type PlaceParams,
  type ProbeStatement,
  type TempoZone,
  type TempoZoneStatement,
  volumeWord,
} from '../../finding/index.ts';
import type { Sentences } from '../sentences.ts';
import { causeApart, causeNoun } from './cause.ts';
import { capital, listed } from './counted.ts';
import { tempoName } from './notevalue.ts';
import { volumeNames } from './oneword.ts';

const limbNames = { R: 'right', L: 'left', K: 'kick', H: 'foot' } as const;

export const findingSentences: Sentences<FindingStatement | CauseStatement | FitStatement | ProbeStatement | TempoZoneStatement> = {
  'cause-fits': (params) => `${causeSentence(params)}${params.alone ? '; everything else is even' : ''}.`,
  'cause-named': (params) => causeApart(params),
  'pair-uneven': (params) => sentence(pairName(params), [gapClause(params), stepClause(params), pairMissingClause(params), bounceClause(params)]),
  'place-off': (params) => sentence(placeName(params), [timeClause(params), volumeClause(params), missingClause(params.missed)]),
  'nothing-stands-out': ({ cycleCount }) => `Nothing stands out over ${cycleCount} cycles: every stroke lies within what an ear can tell.`,
  'sticking-in-doubt': () =>
    'What is heard does not fit the sticking, so no stroke is judged. Check the sticking, the subdivision and where it begins.',
  'strokes-not-heard': notHeardSentence,
  'too-little-to-tell': ({ cycleCount, wishedCount }) =>
    `${cycleCount === 1 ? 'One cycle is' : `${cycleCount} cycles are`} too little to tell one stroke from another. Play it ${wishedCount} times or more.`,
  'tempo-zone': (params, noteNames) => `${causeSentence(params)}${zoneClause(params, (bpm) => tempoName(bpm, params.perBeat, noteNames))}.`,
  'probe-asked': ({ kind, sticking, tempoBpm, perBeat }, noteNames) =>
    `${PROBES[kind] ?? 'Play'}: ${sticking}, ${tempoName(Math.round(tempoBpm), perBeat, noteNames)}.`,
  'fits-bounced': () => 'That fits a second stroke that is bounced or pressed more than played.',
  'fits-beater': () => 'That fits a beater left in the head after the first.',
  'fits-dead': () => 'That fits a stroke without rebound, or a grip that closes.',
  'fits-low': () => 'That fits a second stroke that starts too low.',
  'fits-loose': () => 'That fits fingers or a foot that let go a little too long.',
  'fits-reach': () => 'That fits the way there: a long reach or a late start.',
  'fits-swing': () => 'That fits swing, and is as it should be if you meant it.',
  'ask-gear': ({ foot }) =>
    foot
      ? 'First look at the pedal: has the spring, the beater or the place of the seat changed?'
      : 'First look at the stick and the drum: another stick, another place on the head, another pad?',
};

/** Where in tempo it shows, and that it holds elsewhere. */
function zoneClause({ zone, lowBpm, highBpm }: TempoZone, tempo: (bpm: number) => string): string {
  if (zone === 'from') return ` from ${tempo(lowBpm)} on; slower it holds`;
  if (zone === 'below') return ` at ${tempo(highBpm)} and slower; faster it holds`;
  if (zone === 'between')
    return lowBpm === highBpm ? ` around ${tempo(lowBpm)} only` : ` between ${tempo(lowBpm)} and ${highBpm} only; slower and faster it holds`;
  return zone === 'everywhere' ? ' at every tempo played' : ' at some tempi and not at others';
}

/** What each probe changes. */
const PROBES: Readonly<Record<string, string>> = {
  'pair-alone': 'The pair by itself, with rests',
  'other-hand': 'The phrase with the other hand leading',
  'hands-for-feet': 'The strokes of the foot given to a hand',
  threes: 'Three in a row instead of two',
  'accent-second': 'The second stroke accented',
  'begun-elsewhere': 'The same strokes begun elsewhere',
  slow: 'The phrase very slowly',
  'other-surface': 'The phrase on a dead surface, a cushion or a cloth',
  heel: 'The phrase with the heel the other way: down if it was up',
  'click-off': 'The phrase without the click',
  'first-last': 'The phrase for forty seconds without a stop, so that its first seconds can be held against its last',
};

function notHeardSentence({ indices, limbs, heardCount, strokeCount, rest }: NotHeardParams): string {
  const names = indices.map((index, i) => `${index + 1} (${limbs[i]})`);
  const subject = names.length === 1 ? `Stroke ${names[0]}` : `Strokes ${listed(names)}`;
  const others = { even: ' Of the others nothing stands out.', told: '', unknown: ' Of the others too little is known.' }[rest];
  const what = `${subject} could not be heard well enough to be judged: ${heardCount} of ${strokeCount} heard.${others}`;
  return `${what} Bring the microphone closer, play them without the rest, or on a surface that rings less.`;
}

/** The whole sentence of a cause, without its full stop. */
function causeSentence(params: CauseParams): string {
  const [kind = '', detail = ''] = params.what.split(':');
  const special = SPECIAL[kind];
  if (special) return special(params, detail);
  return clauses(capital(causeNoun(params)), [
    doubleTime(params),
    params.volume === 'even' ? '' : `comes ${volumeNames[volumeWord(params.effectDb)]}`,
    missingClause(params.missed),
  ]);
}

/** Causes that are no stroke that comes somehow, but something that happens. */
const SPECIAL: Readonly<Record<string, (params: CauseParams, detail: string) => string>> = {
  together: ({ time }) => `Strokes meant together come apart${time === 'early' ? ', one of them too early' : ''}`,
  bounce: (params) => `One bounce too many often follows ${causeNoun({ ...params, what: params.what.slice('bounce:'.length) })}`,
  fill: ({ time }) => (time === 'early' ? 'The fill runs ahead of the time around it' : 'The fill falls behind the time around it'),
  rushing: ({ time }) => `Against the click, the tempo ${time === 'early' ? 'runs ahead' : 'falls behind'} as the take goes on`,
  tiring: (params, detail) => {
    const who = detail === 'all' ? 'All strokes get' : `${capital(causeNoun({ ...params, what: `limb:${detail}` }))} gets`;
    const ways = [params.time === 'even' ? '' : `${params.time === 'early' ? 'earlier' : 'later'}`, params.volume === 'even' ? '' : params.volume];
    return `${who} ${ways.filter((way) => way !== '').join(' and ')} as the take goes on`;
  },
};

/** In a double, time is told as the space inside it. */
function doubleTime(params: CauseParams): string {
  if (params.time === 'even') return '';
  const inside = spaceInDouble(params);
  if (!inside) return `comes ${params.time}`;
  return `comes too ${inside.space === 'close' ? 'close to' : 'far from'} the ${inside.which === 'second' ? 'first' : 'second'}`;
}

/** Which stroke of a double moved, and what that does to the space inside it; null where it is no double, or where not one stroke but a limb moved. */
export function spaceInDouble({
  time,
  ofDouble,
  what,
  index,
}: CauseParams): { readonly which: 'first' | 'second'; readonly space: 'close' | 'far' } | null {
  const [kind] = what.split(':');
  const which = kind === 'second-of-double' || ofDouble === 'second' ? 'second' : kind === 'first-of-double' || ofDouble === 'first' ? 'first' : null;
  if (!which || (index < 0 && !kind?.endsWith('-of-double'))) return null;
  return { which, space: (which === 'second') === (time === 'early') ? 'close' : 'far' };
}

const clauses = (subject: string, parts: readonly string[]): string => sentence(subject, parts).replace(/\.$/, '');

/** "The second kick comes too close to the first, and clearly softer." */
function sentence(subject: string, parts: readonly string[]): string {
  const [first, ...rest] = parts.filter((clause) => clause !== '');
  return `${subject} ${first ?? 'is uneven'}${rest.map((clause) => `, and ${clause.replace(/^comes /, '')}`).join('')}.`;
}

/** Which of the two is the subject: the one that moved in time, or the second where only volume differs. */
export const subjectOf = ({ gap, moved }: PairParams): 'first' | 'second' => (gap === 'even' ? 'second' : moved);

function pairName(params: PairParams): string {
  const { first, second, limb, only } = params;
  if (only) return `The ${subjectOf(params)} ${limbNames[limb]}`;
  return `Of strokes ${first + 1} and ${second + 1} (${limb} ${limb}), the ${subjectOf(params)}`;
}

function gapClause(params: PairParams): string {
  const other = subjectOf(params) === 'first' ? 'second' : 'first';
  if (params.gap === 'close') return `comes too close to the ${other}`;
  return params.gap === 'wide' ? `comes too far from the ${other}` : '';
}

/** Volume is always told of the second stroke. */
function stepClause(params: PairParams): string {
  if (params.step === 'even') return '';
  return subjectOf(params) === 'second' ? `comes clearly ${params.step}` : `the second is clearly ${params.step}`;
}

function pairMissingClause({ firstMissed, secondMissed, ...params }: PairParams): string {
  const subject = subjectOf(params as PairParams);
  const [own, other] = subject === 'first' ? [firstMissed, secondMissed] : [secondMissed, firstMissed];
  if (own > 0) return missingClause(own);
  return other > 0 ? `the ${subject === 'first' ? 'second' : 'first'} is ${times(other)} missing` : '';
}

const bounceClause = ({ bounces }: PairParams): string => (bounces > 0 ? 'is often followed by one bounce too many' : '');

const placeName = ({ index, limb, only }: PlaceParams): string => (only ? `The ${limbNames[limb]}` : `Stroke ${index + 1} (${limb})`);

const timeClause = ({ time }: PlaceParams): string => (time === 'even' ? '' : `comes ${time}`);

const volumeClause = ({ volume }: PlaceParams): string => (volume === 'even' ? '' : `comes clearly ${volume} than the others like it`);

const missingClause = (missed: number): string => (missed > 0 ? `is ${times(missed)} missing` : '');

const times = (count: number): string => (count < 4 ? 'sometimes' : 'often');
