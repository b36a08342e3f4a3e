/** Where work on an exercise stands after all its results: a slow day takes nothing back, and a step too far goes back to what held. */
import type { Statement } from '../problem.ts';
import { type NextTempo, nextTempo, type TempoReason, type TempoResult } from './nexttempo.ts';
import { LARGEST_FALL_SHARE, SAME_TEMPO_SHARE, TOO_HARD_SHARE } from './parameters.ts';

/** Why it stands there, where that does not follow from the last tempo alone. */
export type StandingReason =
  | TempoReason
  /** Played slower by choice, and nothing fell apart. */
  | Statement<'tempo-kept', { readonly tempoBpm: number; readonly standsBpm: number }>
  /** `toBpm` held before. */
  | Statement<
      'tempo-back',
      { readonly tempoBpm: number; readonly runs: number; readonly clean: number; readonly words: number; readonly toBpm: number }
    >
  /** It came apart from `fromBpm` down to `tempoBpm`, and falls no further. */
  | Statement<'tempo-too-hard', { readonly tempoBpm: number; readonly runs: number; readonly clean: number; readonly fromBpm: number }>;

export interface Standing {
  readonly nextTempoBpm: number;
  readonly reason: StandingReason;
}

/**
 * Where work goes on, from all results of an exercise.
 *
 * The tempo follows from the results since it was last changed. But tempi below where it stood (tired hands, a slow day, the first day back) are
 * slow by choice: unless runs fell apart there too, it stands where it stood. And after a step that was too far it goes back to the last tempo
 * that held, when that is not far. It never falls below half of where it was begun, or of what surely held since: there it is too hard for now.
 * @param results in order of time, at least one.
 * @param options `capBpm` a teacher's word: never faster than this.
 */
export function standsAt(results: readonly TempoResult[], options: { readonly capBpm?: number | undefined } = {}): Standing {
  let stood: number | null = null;
  let held: number | null = null;
  let fromBpm = results[0]!.tempoBpm;
  let standing: Standing = nextTempo([], results[0]!.tempoBpm);
  for (const stretch of stretches(results)) {
    const { tempoBpm } = stretch[0]!;
    const atFloor = tempoBpm <= Math.ceil(fromBpm * TOO_HARD_SHARE);
    const verdict = nextTempo(atFloor ? sinceFall(stretch) : stretch, tempoBpm, options);
    const fell = verdict.nextTempoBpm < tempoBpm;
    standing = noLower(afterStretch(verdict, { tempoBpm, stood, held }), { tempoBpm, fromBpm });
    if (verdict.reason.code === 'tempo-up') fromBpm = Math.max(fromBpm, tempoBpm);
    if (!fell && (held === null || stood === null || tempoBpm >= stood * (1 - SAME_TEMPO_SHARE) || tempoBpm > held)) held = tempoBpm;
    // What held is forgotten once it fell apart itself.
    if (fell && held !== null && tempoBpm <= held) held = null;
    stood = standing.nextTempoBpm;
  }
  return standing;
}

function afterStretch(
  verdict: NextTempo,
  { tempoBpm, stood, held }: { readonly tempoBpm: number; readonly stood: number | null; readonly held: number | null },
): Standing {
  const fell = verdict.nextTempoBpm < tempoBpm;
  if (!fell && stood !== null && tempoBpm < stood * (1 - SAME_TEMPO_SHARE) && verdict.nextTempoBpm < stood)
    return { nextTempoBpm: stood, reason: { code: 'tempo-kept', params: { tempoBpm, standsBpm: stood } } };
  const near = held !== null && held < tempoBpm && held > verdict.nextTempoBpm && held >= tempoBpm * (1 - LARGEST_FALL_SHARE);
  if (!fell || !near || verdict.reason.code !== 'tempo-down') return verdict;
  const { runs, clean, words } = verdict.reason.params;
  return { nextTempoBpm: held, reason: { code: 'tempo-back', params: { tempoBpm, runs, clean, words, toBpm: held } } };
}

/** A fall that ends at the floor; one who plays below it by choice is sent no lower. */
function noLower(standing: Standing, { tempoBpm, fromBpm }: { readonly tempoBpm: number; readonly fromBpm: number }): Standing {
  const leastBpm = Math.min(tempoBpm, Math.ceil(fromBpm * TOO_HARD_SHARE));
  const { reason } = standing;
  if (reason.code !== 'tempo-down' || standing.nextTempoBpm > leastBpm) return standing;
  const { runs, clean } = reason.params;
  return { nextTempoBpm: leastBpm, reason: { code: 'tempo-too-hard', params: { tempoBpm, runs, clean, fromBpm } } };
}

/** At the floor nothing slower comes after a fall, so what is played there later counts anew. */
function sinceFall(stretch: readonly TempoResult[]): readonly TempoResult[] {
  let since: TempoResult[] = [];
  for (const result of stretch) {
    const fell = since.length > 0 && nextTempo(since, result.tempoBpm).reason.code === 'tempo-down';
    since = fell ? [result] : [...since, result];
  }
  return since;
}

/** Results at one tempo after each other. */
function stretches(results: readonly TempoResult[]): readonly (readonly TempoResult[])[] {
  const all: TempoResult[][] = [];
  for (const result of results) {
    const last = all.at(-1);
    if (last !== undefined && last[0]!.tempoBpm === result.tempoBpm) last.push(result);
    else all.push([result]);
  }
  return all;
}
