/** What the simulated drummers of this bench play, and the one thing each does wrong: written down here apart from what the finding knows. */
import { type ExerciseContent, type ExpectedCycle, expectedCycle, readContent } from '../../core/src/exercise/index.ts';
import type { Fault } from '../../core/src/player/index.ts';
import { readSticking } from '../../core/src/sticking/index.ts';

/** A phrase to play. */
export interface Phrase {
  readonly sticking: string;
  readonly perBeat: number;
  readonly surfaces?: string;
}

/** One cause, on one phrase: which strokes it touches, written by hand. */
export interface Play {
  readonly cause: string;
  readonly phrase: Phrase;
  /** Main strokes touched, from 0. */
  readonly touched: readonly number[];
  /** Main strokes that a finding should name, when they are not those that are moved. */
  readonly named?: readonly number[];
  /** What kinds of fault this cause is tried with. */
  readonly kinds: readonly Kind[];
  /** How the fault is shared out; all of it at every touched stroke unless said. */
  readonly share?: (position: number, count: number) => number;
  readonly amountIn?: (cycle: number, index: number, cycles: number) => number;
  /** Early only, late only, or either. */
  readonly sign?: 1 | -1;
}

export type Kind = 'time' | 'volume' | 'both' | 'bounce';

/** One tolerance unit: what is heard, and what counts in volume; of bounces, one in ten cycles (assumption). */
export const UNIT = { ms: 6, db: 3, bounceShare: 0.1 } as const;

const HANDS: Phrase = { sticking: 'RLRRLRLLRRLL', perBeat: 4 };
const FEET: Phrase = { sticking: 'RLRKLRKKLRLK', perBeat: 4 };
const ACCENTS: Phrase = { sticking: '>RLRL>RLLRRLRL', perBeat: 4 };
const FLAMS: Phrase = { sticking: 'lRLRRrLRLLRLRL', perBeat: 4 };
const TOGETHER: Phrase = { sticking: 'R+KLRLRR+KLLRLKL', perBeat: 4 };
const FILL: Phrase = {
  sticking: 'RLRRLRLLRLRLRL',
  perBeat: 4,
  surfaces: 'snare snare snare snare snare snare snare snare snare high-tom high-tom floor-tom floor-tom snare',
};
const MOVES: Phrase = {
  sticking: 'RLRLRRLRLLRL',
  perBeat: 4,
  surfaces: 'snare snare floor-tom snare floor-tom floor-tom snare snare snare high-tom snare snare',
};
const BARS: Phrase = { sticking: 'RLRRLRLLRLRL', perBeat: 4 };

const ALL: readonly number[] = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11];
const TIMED: readonly Kind[] = ['time', 'volume', 'both'];

/** Twelve causes, each on phrases on which no other touches the same strokes. */
export const PLAYS: readonly Play[] = [
  { cause: 'place', phrase: HANDS, touched: [5], kinds: TIMED },
  { cause: 'place', phrase: FEET, touched: [5], kinds: TIMED },
  { cause: 'second-of-double', phrase: HANDS, touched: [3, 9], kinds: TIMED },
  { cause: 'first-of-double', phrase: HANDS, touched: [6, 10], kinds: TIMED },
  { cause: 'limb', phrase: HANDS, touched: [1, 4, 6, 7, 10, 11], kinds: TIMED },
  { cause: 'limb', phrase: FEET, touched: [3, 6, 7, 11], kinds: ['time'] },
  { cause: 'after-limb', phrase: FEET, touched: [0, 4, 8], kinds: TIMED },
  { cause: 'after-move', phrase: MOVES, touched: [2, 7, 9, 11], kinds: ['time'] },
  { cause: 'into-accent', phrase: ACCENTS, touched: [3, 11], kinds: TIMED },
  { cause: 'out-of-accent', phrase: ACCENTS, touched: [1, 5], kinds: TIMED },
  { cause: 'grace', phrase: FLAMS, touched: [0, 4], kinds: ['time'] },
  { cause: 'together', phrase: TOGETHER, touched: [1, 7], named: [0, 1, 6, 7], kinds: ['time'], sign: 1 },
  { cause: 'bounce', phrase: HANDS, touched: [7, 11], kinds: ['bounce'] },
  {
    cause: 'bar-place',
    phrase: BARS,
    touched: ALL,
    kinds: TIMED,
    amountIn: (cycle, index) => ((3 * cycle + Math.floor(index / 4)) % 4 === 2 ? 1 : 0),
  },
  { cause: 'bar-place', phrase: BARS, touched: [1, 5, 9], kinds: TIMED },
  { cause: 'fill', phrase: FILL, touched: [9, 10, 11, 12], kinds: ['time'], sign: 1, share: (position, count) => (2 * position) / (count - 1) },
  { cause: 'tiring', phrase: HANDS, touched: ALL, kinds: ['volume'], amountIn: (cycle, _, cycles) => cycle / cycles },
  { cause: 'rushing', phrase: HANDS, touched: ALL, kinds: ['time'], amountIn: (cycle, _, cycles) => cycle / cycles },
];

/** A phrase as the exercise stage has it. */
export function contentOf({ sticking, perBeat, surfaces = '' }: Phrase): ExerciseContent {
  const read = readSticking(sticking).value;
  const content = read && readContent(read, { perBeat, surfaces }).value;
  if (!content) throw new Error(`the bench's own phrase does not read: ${sticking}`);
  return content;
}

/** A phrase as strokes in time. */
export const cycleOf = (phrase: Phrase): ExpectedCycle => expectedCycle(contentOf(phrase));

/**
 * The fault of a play at a size.
 * @param units how many tolerance units.
 * @param sign 1 is early and soft, −1 late and loud.
 */
export function faultsOf(play: Play, { kind, units, sign, cycles }: { kind: Kind; units: number; sign: 1 | -1; cycles: number }): Fault[] {
  const { touched, share = () => 1, amountIn } = play;
  return touched.map((index, position) => {
    const amount = units * share(position, touched.length);
    return {
      index,
      ...(kind === 'time' || kind === 'both' ? { earlyMs: (play.sign ?? sign) * amount * UNIT.ms } : {}),
      ...(kind === 'volume' || kind === 'both' ? { softDb: amount * UNIT.db } : {}),
      ...(kind === 'bounce' ? { bounceShare: amount * UNIT.bounceShare } : {}),
      ...(amountIn ? { amountIn: (cycle: number) => amountIn(cycle, index, cycles) } : {}),
    };
  });
}
