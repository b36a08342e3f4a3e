/** One sitting: how near the clean tempo is known after some runs, by our search, by a weighted staircase, and with tempi at random. */
import { cleanRangesHz, drawLearner, type Learner, type Parts, playRuns } from '../../core/src/player/index.ts';
import { normal, type Random, seededRandom } from '../../core/src/random.ts';
import {
  believe,
  type ExpectedTempo,
  stepRatio,
  type TempoBelief,
  tempoBelow,
  tempoThatTellsMost,
  type WeighedResult,
} from '../../core/src/tempo/index.ts';

/** Sixteenths. */
export const PER_BEAT = 4;
export const PARTS: Parts = { sticking: 's', rhythm: 'r', drums: 'd', own: 'o' };
const SHARE = 0.85;

/** How far a player's own guess is off, deviation in log tempo. */
const GUESS_SD = 0.12;
/** Runs at a tempo before the search moves: one bar of sixteenths in 4/4. */
const RUNS_PER_STEP = 2;

/** Told after some runs. */
export interface Told {
  readonly runs: number;
  /** Estimate over truth, less 1. */
  readonly error: number;
  /** Whether the 90 % range holds the truth; null for a method without one. */
  readonly held: boolean | null;
  /** Upper over lower end, less 1. */
  readonly width: number | null;
}

export type Method = 'ours' | 'staircase' | 'staircaseBelief' | 'random';

export const bpmOf = (hz: number): number => (hz * 60) / PER_BEAT;
const hzOf = (bpm: number): number => (bpm * PER_BEAT) / 60;

/** Tempo up to which the lowest range is clean; null for a player who is clean nowhere. */
export const truthBpm = (learner: Learner, parts: Parts = PARTS): number | null => {
  const top = cleanRangesHz(learner, parts, SHARE)[0]?.toHz;
  return top === undefined ? null : bpmOf(top);
};

/** What each method tells of one player after each number of runs. */
export function sitting(
  seed: number,
  marks: readonly number[],
  { holeShare }: { readonly holeShare: number },
): Record<Method, readonly Told[]> | null {
  const random = seededRandom(seed);
  const learner = drawLearner(random, { holeShare });
  const truth = truthBpm(learner);
  if (truth === null) return null;
  const guess = truth * Math.exp(GUESS_SD * normal(random));
  const most = Math.max(...marks);
  return {
    ours: playOurs(learner, { guess, truth, marks, most, random }),
    ...playStaircase(learner, { guess, truth, marks, most, random }),
    random: playRandom(learner, { guess, truth, marks, most, random }),
  };
}

interface Sitting {
  readonly guess: number;
  readonly truth: number;
  readonly marks: readonly number[];
  readonly most: number;
  readonly random: Random;
}

const expectedOf = (guess: number): ExpectedTempo => ({ tempoBpm: guess });

function playOurs(learner: Learner, { guess, truth, marks, most, random }: Sitting): readonly Told[] {
  const results: WeighedResult[] = [];
  const told: Told[] = [];
  for (let runs = 0; runs < most; runs += RUNS_PER_STEP) {
    const belief = believe(results.length > 0 ? results : [], { expected: expectedOf(guess) });
    const tempoBpm = runs === 0 ? Math.round(guess) : tempoThatTellsMost(belief);
    const { clean } = playRuns(learner, PARTS, { speedHz: hzOf(tempoBpm), runs: RUNS_PER_STEP, random });
    results.push({ tempoBpm, runs: RUNS_PER_STEP, clean });
    if (marks.includes(runs + RUNS_PER_STEP)) told.push(toldOf(believe(results, { expected: expectedOf(guess) }), truth, runs + RUNS_PER_STEP));
  }
  return told;
}

function toldOf(belief: TempoBelief, truth: number, runs: number): Told {
  const [low, median, high] = [0.05, 0.5, 0.95].map((share) => tempoBelow(belief, share)) as [number, number, number];
  return { runs, error: median / truth - 1, held: low <= truth && truth <= high, width: high / low - 1 };
}

/** Up after each clean run, down 5.67 times as far after one that is not; large steps until the first that is not. */
function playStaircase(learner: Learner, { guess, truth, marks, most, random }: Sitting): Record<'staircase' | 'staircaseBelief', readonly Told[]> {
  const results: WeighedResult[] = [];
  const logs: number[] = [];
  const [staircase, staircaseBelief]: [Told[], Told[]] = [[], []];
  let log = Math.log(guess);
  let step: number = STAIRCASE_STEP.first;
  for (let runs = 1; runs <= most; runs++) {
    const tempoBpm = Math.exp(log);
    const { clean } = playRuns(learner, PARTS, { speedHz: hzOf(tempoBpm), runs: 1, random });
    results.push({ tempoBpm, runs: 1, clean });
    logs.push(log);
    log += clean ? step : -step * stepRatio(SHARE);
    if (!clean) step = Math.max(STAIRCASE_STEP.last, step / 2);
    if (!marks.includes(runs)) continue;
    // The tempi of the second half, where it has settled.
    const settled = logs.slice(Math.floor(logs.length / 2));
    const mean = Math.exp(settled.reduce((a, b) => a + b) / settled.length);
    staircase.push({ runs, error: mean / truth - 1, held: null, width: null });
    staircaseBelief.push(toldOf(believe(results, { expected: expectedOf(guess) }), truth, runs));
  }
  return { staircase, staircaseBelief };
}

/** Best of those tried on the tuning seeds: .005 to .04 first, .0025 to .01 last. */
const STAIRCASE_STEP = { first: 0.02, last: 0.005 } as const;

/** Tempi spread evenly over a quarter either side of the guess, told by the same belief. */
function playRandom(learner: Learner, { guess, truth, marks, most, random }: Sitting): readonly Told[] {
  const results: WeighedResult[] = [];
  const told: Told[] = [];
  for (let runs = RUNS_PER_STEP; runs <= most; runs += RUNS_PER_STEP) {
    const tempoBpm = Math.round(guess * (0.75 + 0.5 * random()));
    const { clean } = playRuns(learner, PARTS, { speedHz: hzOf(tempoBpm), runs: RUNS_PER_STEP, random });
    results.push({ tempoBpm, runs: RUNS_PER_STEP, clean });
    if (marks.includes(runs)) told.push(toldOf(believe(results, { expected: expectedOf(guess) }), truth, runs));
  }
  return told;
}
