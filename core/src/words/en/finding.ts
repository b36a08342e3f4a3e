/** English for what a take shows: the stroke first, then how; figures wait behind a tap. */
import type { FindingStatement, PairParams, PlaceParams } from '../../finding/index.ts';
import type { Sentences } from '../sentences.ts';

const limbNames = { R: 'right', L: 'left', K: 'kick', H: 'foot' } as const;

export const findingSentences: Sentences<FindingStatement> = {
  'pair-uneven': (params) => sentence(pairName(params), [gapClause(params), stepClause(params), pairMissingClause(params), bounceClause(params)]),
  'place-off': (params) => sentence(placeName(params), [timeClause(params), volumeClause(params), missingClause(params.missed)]),
  'nothing-stands-out': ({ cycleCount }) => `Nothing stands out over ${cycleCount} cycles: every stroke lies within what an ear can tell.`,
  'sticking-in-doubt': () =>
    'What is heard does not fit the sticking, so no stroke is judged. Check the sticking, the subdivision and where it begins.',
  'too-little-to-tell': ({ cycleCount, wishedCount }) =>
    `${cycleCount === 1 ? 'One cycle is' : `${cycleCount} cycles are`} too little to tell one stroke from another. Play it ${wishedCount} times or more.`,
};

/** "The second kick comes too close to the first, and clearly softer." */
function sentence(subject: string, clauses: readonly string[]): string {
  const [first, ...rest] = clauses.filter((clause) => clause !== '');
  return `${subject} ${first ?? 'is uneven'}${rest.map((clause) => `, and ${clause.replace(/^comes /, '')}`).join('')}.`;
}

/** Which of the two is the subject: the one that moved in time, or the second where only volume differs. */
const subjectOf = ({ gap, moved }: PairParams): 'first' | 'second' => (gap === 'even' ? 'second' : moved);

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
