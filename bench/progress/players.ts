/** Simulated players over weeks whose true course is known: the same all along, rising, standing for a while, learning and forgetting, and with a jump. */
import { addDays, daysBetween } from '../../core/src/day.ts';
import { drawLearner, type Learner, limitHz, playRuns, sleep } from '../../core/src/player/index.ts';
import type { ExerciseResult } from '../../core/src/progress/index.ts';
import { normal, type Random, seededRandom } from '../../core/src/random.ts';
import { nextTempo } from '../../core/src/tempo/index.ts';
import { PARTS, PER_BEAT, truthBpm } from '../tempo/sitting.ts';
import { sinceLastChange, whole } from '../tempo/weeks.ts';

/** `still` and `rising` do not learn: their speed is as it is told. `learning` learns and forgets by the simulated player's laws. */
export type Kind = 'still' | 'rising' | 'learning';

export interface PlayerAsked {
  readonly kind: Kind;
  readonly practiceDays: number;
  /** Rise a week of those that rise, log tempo. */
  readonly perWeek?: number;
  /** Those that rise stand from this share of the practice days to that one, or rise by this much a week. */
  readonly stands?: { readonly from: number; readonly to: number; readonly perWeek?: number };
  /** Jump in the middle third of the days, log tempo; 0 for none. */
  readonly jump?: number;
}

export interface LivedCourse {
  readonly results: readonly ExerciseResult[];
  /** Days with results, ascending, and the true clean tempo of each, between what it was before and after playing, the day's form left out; it moves with the speed at which errors have doubled. */
  readonly days: readonly string[];
  readonly trueBpm: readonly number[];
  /** First day after the jump; null without one. */
  readonly jumpDay: string | null;
  /** First and last day of standing; null without. */
  readonly stood: readonly [from: string, to: string] | null;
}

export const EXERCISE = 'exercise';
const FIRST_DAY = '2026-01-05';
const RUNS = { least: 8, most: 30 } as const;
const BLOCKS = 2;
const BEGIN_SHARE = 0.9;
/** One day in so many is followed by days away, and how many. */
const AWAY = { oneIn: 12, least: 4, most: 12 } as const;
/** Every so many practice days the phrase is played at its fixed tempo too. */
const REFERENCE_EVERY = 5;

type Result = ExerciseResult & { readonly reference: boolean };

export function liveCourse(seed: number, { kind, practiceDays, perWeek = 0, jump = 0, stands }: PlayerAsked): LivedCourse {
  const random = seededRandom(seed);
  const drawn = drawLearner(random);
  const [beginsBpm, beginsHz] = [truthBpm(drawn)!, limitHz(drawn, PARTS)];
  const jumpAt = jump === 0 ? null : Math.floor(practiceDays * (1 / 3 + random() / 3));
  const steering = { referenceBpm: Math.round(beginsBpm * 0.95), tempoBpm: Math.round(beginsBpm * BEGIN_SHARE * Math.exp(0.08 * normal(random))) };
  let [learner, day] = [drawn, FIRST_DAY];
  const results: Result[] = [];
  const [days, trueBpm]: [string[], number[]] = [[], []];
  const [standsAt, movesAt] = stands ? [Math.round(stands.from * practiceDays), Math.round(stands.to * practiceDays)] : [practiceDays, practiceDays];
  let [risen, before] = [0, FIRST_DAY];
  for (let k = 0; k < practiceDays; k++) {
    // From the last day of standing on it moves again.
    risen += (k <= standsAt || k > movesAt ? perWeek : (stands?.perWeek ?? 0)) * (daysBetween(before, day) / 7);
    before = day;
    const moved = risen + (jumpAt !== null && k >= jumpAt ? jump : 0);
    const came = faster(learner, moved);
    const after = liveDay(came, { kind, day, number: k, steering, results, random });
    days.push(day);
    trueBpm.push((beginsBpm * Math.sqrt(limitHz({ ...came, form: 0 }, PARTS) * limitHz({ ...after, form: 0 }, PARTS))) / beginsHz);
    const gap = random() < 1 / AWAY.oneIn ? whole(random, AWAY) : whole(random, { least: 1, most: 2 });
    learner = nextDay(kind === 'learning' ? faster(after, -moved) : learner, { kind, gap, random });
    day = addDays(day, gap);
  }
  return {
    results,
    days,
    trueBpm,
    jumpDay: jumpAt === null ? null : days[jumpAt]!,
    stood: stands && !stands.perWeek ? [days[standsAt]!, days[Math.min(movesAt, practiceDays - 1)]!] : null,
  };
}

interface Day {
  readonly kind: Kind;
  readonly day: string;
  readonly number: number;
  /** Moved by what came of the day. */
  readonly steering: { readonly referenceBpm: number; tempoBpm: number };
  /** Added to. */
  readonly results: Result[];
  readonly random: Random;
}

/** The blocks of a day; gives the player after them. */
function liveDay(learner: Learner, { kind, day, number, steering, results, random }: Day): Learner {
  let today = learner;
  for (let block = 0; block < BLOCKS; block++) {
    const reference = block === 0 && number % REFERENCE_EVERY === 0;
    const tempoBpm = reference ? steering.referenceBpm : steering.tempoBpm;
    const runs = whole(random, RUNS);
    const played = playRuns(today, PARTS, { speedHz: (tempoBpm * PER_BEAT) / 60, runs, random });
    if (kind === 'learning') today = played.learner;
    results.push({ exerciseId: EXERCISE, day, tempoBpm, runs, clean: played.clean, reference });
    if (!reference) steering.tempoBpm = nextTempo(sinceLastChange(results.filter((one) => !one.reference)), tempoBpm).nextTempoBpm;
  }
  return today;
}

const faster = (learner: Learner, by: number): Learner => ({ ...learner, traits: { ...learner.traits, topHz: learner.traits.topHz * Math.exp(by) } });

/** Those who do not learn only have another form. */
const nextDay = (learner: Learner, { kind, gap, random }: { readonly kind: Kind; readonly gap: number; readonly random: Random }): Learner =>
  kind === 'learning' ? sleep(learner, { days: gap, twins: () => false, random }) : { ...learner, form: learner.traits.formSd * normal(random) };
