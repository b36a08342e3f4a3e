/** Some weeks of practice on one exercise, steered by our next tempo: what is told at the end of a day and after days away. */
import { addDays } from '../../core/src/day.ts';
import { drawLearner, type Learner, playRuns, sleep } from '../../core/src/player/index.ts';
import { normal, type Random, seededRandom } from '../../core/src/random.ts';
import { cleanTempo, nextTempo, type WeighedResult } from '../../core/src/tempo/index.ts';
import { PARTS, PER_BEAT, truthBpm } from './sitting.ts';

/** What the player is told on a day, against the truth of that day. */
export interface ToldLater {
  readonly error: number;
  readonly held: boolean;
  readonly width: number;
}

export interface Weeks {
  /** At the end of the last day of practice. */
  readonly after: ToldLater | null;
  /** Days later, before anything was played. */
  readonly away: ToldLater | null;
  readonly clean: number;
  readonly runs: number;
}

const FIRST_DAY = '2026-01-05';
/** Practice days drawn, and the most days between two of them. */
const DAYS = { least: 5, most: 15 } as const;
const GAP_DAYS = 3;
/** Runs of a block, and blocks a day. */
const RUNS = { least: 8, most: 40 } as const;
const BLOCKS = 2;
/** Work begins below what the player says holds. */
const BEGIN_SHARE = 0.9;

export function weeks(seed: number): Weeks {
  const random = seededRandom(seed);
  let learner = drawLearner(random);
  const days = whole(random, DAYS);
  let tempoBpm = Math.round(truthBpm(learner)! * BEGIN_SHARE * Math.exp(0.08 * normal(random)));
  let day = FIRST_DAY;
  const results: (WeighedResult & { day: string })[] = [];
  for (let k = 0; k < days; k++) {
    for (let block = 0; block < BLOCKS; block++) {
      const runs = whole(random, RUNS);
      const practised = playRuns(learner, PARTS, { speedHz: (tempoBpm * PER_BEAT) / 60, runs, random });
      learner = practised.learner;
      results.push({ day, tempoBpm, runs, clean: practised.clean });
      tempoBpm = nextTempo(sinceLastChange(results), tempoBpm).nextTempoBpm;
    }
    if (k === days - 1) break;
    const gap = whole(random, { least: 1, most: GAP_DAYS });
    learner = sleep(learner, { days: gap, twins: () => false, random });
    day = addDays(day, gap);
  }
  const after = told(results, day, learner);
  const gap = whole(random, { least: 1, most: 21 });
  const away = told(results, addDays(day, gap), sleep(learner, { days: gap, twins: () => false, random }));
  const sum = (of: (result: WeighedResult) => number) => results.reduce((total, result) => total + of(result), 0);
  return { after, away, clean: sum(({ clean }) => clean), runs: sum(({ runs }) => runs) };
}

function told(results: readonly WeighedResult[], day: string, learner: Learner): ToldLater | null {
  const truth = truthBpm(learner);
  const estimate = cleanTempo(results, day);
  if (!estimate.known || truth === null) return null;
  const { median, low90, high90 } = estimate;
  return { error: median / truth - 1, held: low90 <= truth && truth <= high90, width: high90 / low90 - 1 };
}

export function sinceLastChange(results: readonly WeighedResult[]): readonly WeighedResult[] {
  const changed = results.map(({ tempoBpm }) => tempoBpm === results.at(-1)!.tempoBpm).lastIndexOf(false);
  return results.slice(changed + 1);
}

export const whole = (random: Random, { least, most }: { readonly least: number; readonly most: number }): number =>
  least + Math.floor((most - least + 1) * random());
