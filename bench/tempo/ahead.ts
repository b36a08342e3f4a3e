/** Whether the days that the forecast tells hold the day on which a simulated player gets there, practising on as before. */
import { addDays, daysBetween } from '../../core/src/day.ts';
import { drawLearner, type Learner, playRuns, runOdds, sleep } from '../../core/src/player/index.ts';
import { normal, type Random, seededRandom } from '../../core/src/random.ts';
import { cleanTempo, type Forecast, forecast, nextTempo, TARGET_SHARE, type ToldTempo, type WeighedResult } from '../../core/src/tempo/index.ts';
import { PARTS, PER_BEAT, truthBpm } from './sitting.ts';
import { sinceLastChange, whole } from './weeks.ts';

/** What was told, and what came. */
export interface Ahead {
  readonly code: Forecast['code'];
  /** Days from the telling until the player was there; null when not within the horizon. */
  readonly days: number | null;
  /** The range told, in days from the telling; `to` null where it is open. */
  readonly from: number | null;
  readonly to: number | null;
}

const FIRST_DAY = '2026-01-05';
/** Practice days before the telling. */
const DAYS = { least: 6, most: 20 } as const;
const GAP_DAYS = 3;
const RUNS = { least: 8, most: 40 } as const;
const BLOCKS = 2;
const BEGIN_SHARE = 0.9;
/** The tempo wanted lies so far above the clean tempo told, as a share. */
const ABOVE = { least: 0.03, most: 0.25 } as const;
/** As far as the forecast looks, core/src/tempo/parameters.ts. */
const HORIZON_DAYS = 7 * 26;

interface Life {
  learner: Learner;
  day: string;
  tempoBpm: number;
  results: (WeighedResult & { day: string })[];
}

/** Null where no tempo could be told at the end. */
export function ahead(seed: number): Ahead | null {
  const random = seededRandom(seed);
  const learner = drawLearner(random);
  const life: Life = {
    learner,
    day: FIRST_DAY,
    tempoBpm: Math.round(truthBpm(learner)! * BEGIN_SHARE * Math.exp(0.08 * normal(random))),
    results: [],
  };
  const told: ToldTempo[] = [];
  const days = whole(random, DAYS);
  for (let k = 0; k < days; k++) {
    if (k > 0) rest(life, random);
    practise(life, random);
    const estimate = cleanTempo(life.results, life.day);
    if (estimate.known) told.push({ day: life.day, ...estimate });
  }
  const last = told.at(-1);
  if (!last) return null;
  const goalShare = 1 + ABOVE.least + (ABOVE.most - ABOVE.least) * random();
  const goalBpm = Math.round(last.median * goalShare);
  const today = life.day;
  const said = forecast(told, goalBpm, today);
  const daysTo = (day: string) => daysBetween(today, day);
  const from = 'from' in said.params ? daysTo(said.params.from as string) : null;
  const to = 'to' in said.params ? daysTo(said.params.to as string) : null;
  return { code: said.code, days: daysUntil(life, goalBpm, random), from, to };
}

/** Practises on as before until the player is there, the form of the day left out. */
function daysUntil(life: Life, goalBpm: number, random: Random): number | null {
  const today = life.day;
  while (daysBetween(today, life.day) <= HORIZON_DAYS) {
    if (runOdds({ ...life.learner, form: 0 }, PARTS, (goalBpm * PER_BEAT) / 60) >= TARGET_SHARE) return daysBetween(today, life.day);
    rest(life, random);
    practise(life, random);
  }
  return null;
}

function practise(life: Life, random: Random): void {
  for (let block = 0; block < BLOCKS; block++) {
    const runs = whole(random, RUNS);
    const practised = playRuns(life.learner, PARTS, { speedHz: (life.tempoBpm * PER_BEAT) / 60, runs, random });
    life.learner = practised.learner;
    life.results.push({ day: life.day, tempoBpm: life.tempoBpm, runs, clean: practised.clean });
    life.tempoBpm = nextTempo(sinceLastChange(life.results), life.tempoBpm).nextTempoBpm;
  }
}

function rest(life: Life, random: Random): void {
  const gap = whole(random, { least: 1, most: GAP_DAYS });
  life.learner = sleep(life.learner, { days: gap, twins: () => false, random });
  life.day = addDays(life.day, gap);
}
