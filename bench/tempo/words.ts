/** Some weeks of practice without a microphone: how near to the clean tempo "had it" and "again" lead, beside what the ear would have led to. */
import { addDays } from '../../core/src/day.ts';
import { drawLearner, playRuns, sleep } from '../../core/src/player/index.ts';
import { normal, type Random, seededRandom } from '../../core/src/random.ts';
import { standsAt, type TempoResult } from '../../core/src/tempo/index.ts';
import { PARTS, PER_BEAT, truthBpm } from './sitting.ts';
import { whole } from './weeks.ts';

/** Who judges: the ear each run of a round; or the player each round, counted as core/tempo counts words, or as one run as it did before. */
export type Judge = 'ear' | 'word' | 'wordAsRun';

/** What came of one player's weeks. */
export interface Led {
  /** Tempo of the last round over the clean tempo of that day, less 1. */
  readonly off: number;
  readonly clean: number;
  readonly runs: number;
  /** Rounds until the tempo first rose; null when it never did. */
  readonly roundsToRise: number | null;
}

/** Four bars of sixteenths. */
const RUNS_OF_ROUND = 8;
/** Rounds of a block of two to three minutes, and blocks a day. */
const ROUNDS = { least: 5, most: 9 } as const;
const BLOCKS = 2;
const DAYS = { least: 5, most: 15 } as const;
const GAP_DAYS = 3;
/** A player has it when so many of a round's runs are clean: each player is strict in another way, and slips now and then. Assumptions. */
const STRICT = { least: 0.6, most: 0.95 } as const;
const SLIP_SHARE = 0.05;
/** Down within a block only on so much (core/session FOLLOW). */
const FEWEST = { ear: 8, word: 2, wordAsRun: 2 } as const;
/** Work begins below what the player says holds, as in weeks.ts. */
const BEGIN_SHARE = 0.9;

export function byWords(seed: number, judge: Judge): Led {
  const random = seededRandom(seed);
  let learner = drawLearner(random);
  const strict = STRICT.least + (STRICT.most - STRICT.least) * random();
  const days = whole(random, DAYS);
  const results: TempoResult[] = [];
  const sum = { clean: 0, runs: 0, rounds: 0 };
  let roundsToRise: number | null = null;
  let tempoBpm = Math.round(truthBpm(learner)! * BEGIN_SHARE * Math.exp(0.08 * normal(random)));
  for (let day = addDays('2026-01-05', 0), k = 0; k < days; k++) {
    for (let block = 0; block < BLOCKS; block++) {
      let fellFrom = Number.POSITIVE_INFINITY;
      const rounds = whole(random, ROUNDS);
      for (let round = 0; round < rounds; round++) {
        const practised = playRuns(learner, PARTS, { speedHz: (tempoBpm * PER_BEAT) / 60, runs: RUNS_OF_ROUND, random });
        learner = practised.learner;
        results.push({ tempoBpm, ...judged(practised.clean, { judge, strict, random }) });
        Object.assign(sum, { clean: sum.clean + practised.clean, runs: sum.runs + RUNS_OF_ROUND, rounds: sum.rounds + 1 });
        const next = following(results, { judge, fellFrom });
        if (next < tempoBpm) fellFrom = Math.min(fellFrom, tempoBpm);
        if (next > tempoBpm) roundsToRise ??= sum.rounds;
        tempoBpm = next;
      }
      tempoBpm = standsAt(results).nextTempoBpm;
    }
    if (k === days - 1) break;
    const gap = whole(random, { least: 1, most: GAP_DAYS });
    learner = sleep(learner, { days: gap, twins: () => false, random });
    day = addDays(day, gap);
  }
  return { off: results.at(-1)!.tempoBpm / truthBpm(learner)! - 1, clean: sum.clean, runs: sum.runs, roundsToRise };
}

function judged(clean: number, { judge, strict, random }: { judge: Judge; strict: number; random: Random }): Omit<TempoResult, 'tempoBpm'> {
  const had = clean / RUNS_OF_ROUND >= strict !== random() < SLIP_SHARE;
  if (judge === 'ear') return { clean, runs: RUNS_OF_ROUND };
  return { clean: Number(had), runs: 1, ...(judge === 'word' ? { byEar: false } : {}) };
}

/** The tempo that a round leads to within its block (core/session: never again where it fell before, down only on enough). */
function following(results: readonly TempoResult[], { judge, fellFrom }: { judge: Judge; fellFrom: number }): number {
  const { tempoBpm } = results.at(-1)!;
  const here = results.slice(results.map((one) => one.tempoBpm === tempoBpm).lastIndexOf(false) + 1).reduce((sum, { runs }) => sum + runs, 0);
  const { nextTempoBpm, reason } = standsAt(results);
  const wished = reason.code === 'tempo-kept' ? tempoBpm : nextTempoBpm;
  if (wished > tempoBpm) return wished >= fellFrom ? tempoBpm : wished;
  return here >= FEWEST[judge] ? wished : tempoBpm;
}
