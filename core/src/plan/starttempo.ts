/** Where work on an exercise starts, and why there. */
import type { Exercise } from '../exercise/index.ts';
import { type CarriedPair, carryOver, type Kept } from '../tempo/index.ts';
import { bpmOfBeats, equalSpeedBpm } from '../units.ts';
import { FIRST_TEMPO_SHARE, KNOWN_DAYS, REFERENCE_SHARES, SLOWEST_BPM, WANTED_SLOTS_PER_SEC, WARM_UP_TEMPO_SHARE } from './parameters.ts';
import type { PlanRequest } from './plan.ts';
import type { PlanTempoReason } from './said.ts';
import { keptOf } from './twins.ts';

/** A tempo in whole beats per minute, with its reason. */
export interface StartTempo {
  readonly tempoBpm: number;
  readonly why: PlanTempoReason;
}

type Asked = Pick<PlanRequest, 'phrase' | 'goalBpm' | 'known' | 'exercises'>;

/** The tempo a phrase is assumed to be wanted at when nobody says: sixteenths at 90, and what is as fast. */
export const assumedGoalBpm = (perBeat: number): number => wholeBpm(bpmOfBeats(WANTED_SLOTS_PER_SEC / perBeat, 1));

/** The tempo wanted of the phrase at the same speed of strokes in `exercise`. `goalOf` sixteenths at 90 is triplets at 120. */
export const goalOf = (exercise: Exercise, { phrase, goalBpm }: Asked): number => equalSpeedBpm(goalBpm, phrase.perBeat, exercise.perBeat);

/**
 * Where work on an exercise starts: where it stands by results, else below the phrase by what it keeps of it, never above the tempo wanted.
 * Tempi do not rise with the calendar: results raise them (our choice, after [Duke2009]: tempi at which most repetitions are clean).
 */
export function startTempo(exercise: Exercise, asked: Asked): StartTempo {
  const limit = goalOf(exercise, asked);
  const known = asked.known?.find(({ exerciseId }) => exerciseId === exercise.id);
  if (known && known.tempoBpm >= limit) return { tempoBpm: wholeBpm(limit), why: { code: 'plan-tempo-wanted', params: {} } };
  if (known) return { tempoBpm: wholeBpm(known.tempoBpm), why: { code: 'plan-tempo-known', params: {} } };
  if (exercise.id === asked.phrase.id) return { tempoBpm: wholeBpm(limit * FIRST_TEMPO_SHARE), why: { code: 'plan-tempo-first', params: {} } };
  const kept = keptOf(exercise, asked.phrase);
  const fromBpm = equalSpeedBpm(startTempo(asked.phrase, asked).tempoBpm, asked.phrase.perBeat, exercise.perBeat);
  const { share, pairCount } = carryOver(kept, pairsOf(asked));
  const tempoBpm = wholeBpm(Math.min(limit, fromBpm * share));
  if (pairCount === 0) return { tempoBpm, why: { code: CODE[kept.of], params: { fromBpm: wholeBpm(fromBpm) } } };
  return { tempoBpm, why: { code: 'plan-tempo-carried', params: { fromBpm: wholeBpm(fromBpm), percent: Math.round(100 * (1 - share)), pairCount } } };
}

/** What came over from the phrase to other exercises of this player so far, where both were played on some days. */
function pairsOf({ phrase, known = [], exercises }: Asked): readonly CarriedPair[] {
  const own = known.find(({ exerciseId }) => exerciseId === phrase.id);
  if (!own || own.days < KNOWN_DAYS) return [];
  return known.flatMap(({ exerciseId, tempoBpm, days }) => {
    const exercise = exercises.find(({ id }) => id === exerciseId);
    if (!exercise || exercise.id === phrase.id || days < KNOWN_DAYS) return [];
    return { kept: keptOf(exercise, phrase), share: (tempoBpm * exercise.perBeat) / (own.tempoBpm * phrase.perBeat) };
  });
}

/** Tempo of a warm-up with an exercise: slow. */
export const warmUpTempo = (exercise: Exercise, asked: Asked): StartTempo => ({
  tempoBpm: wholeBpm(startTempo(exercise, asked).tempoBpm * WARM_UP_TEMPO_SHARE),
  why: { code: 'plan-tempo-warm-up', params: {} },
});

/** Tempo of reference take `take`, from the tempo wanted alone, so that it is the same week after week. Of a single take, the one wanted. */
export const referenceTempo = (take: number, count: number, { goalBpm }: Asked): StartTempo => ({
  tempoBpm: wholeBpm(goalBpm * REFERENCE_SHARES[REFERENCE_SHARES.length - count + take]!),
  why: { code: 'plan-tempo-fixed', params: {} },
});

/** Whole beats per minute, and never slower than is planned at all. */
export const wholeBpm = (tempoBpm: number): number => Math.max(SLOWEST_BPM, Math.floor(tempoBpm));

const CODE = {
  sticking: 'plan-tempo-shares-sticking',
  rhythm: 'plan-tempo-shares-rhythm',
  nothing: 'plan-tempo-shares-nothing',
} as const satisfies Record<Kept['of'], string>;
