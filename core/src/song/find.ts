/** Finds the beats of a recording by listening to it. */
import type { Reading } from '../problem.ts';
import { type BeatCurve, beatCurve } from './beatcurve.ts';
import { evenBeats, followedBeats, oneOf, phaseOf } from './beats.ts';
import { type CurveTempo, exactTempo, tempoOf } from './beattempo.ts';
import { HOP_SEC, LEAST_STRENGTH, LOW_SHARE, MOVES_SHARE, SHORTEST_SEC, STEADY_SHARE, STRETCH_SEC } from './parameters.ts';
import type { FoundBeats, SongProblem } from './song.ts';

/** What may be told. */
export interface FindOptions {
  /** Beats of a bar; default 4. */
  readonly beatsPerBar?: number;
}

/**
 * The tempo and beats of a recording. Never throws. The tempo is the one that most people would count; half and double of it fit as well, and a
 * drummer can say so (`inTempo`).
 * @param samples one channel, full scale 1.
 * @returns null with a refused problem where it is too short or nothing repeats; a doubtful one where the tempo moves.
 */
export function findBeats(samples: Float32Array, sampleRateHz: number, { beatsPerBar = 4 }: FindOptions = {}): Reading<FoundBeats, SongProblem> {
  const durationSec = samples.length / sampleRateHz;
  if (durationSec < SHORTEST_SEC) {
    return { value: null, problems: [{ code: 'song-short', severity: 'refused', params: { durationSec, leastSec: SHORTEST_SEC } }] };
  }
  const curve = beatCurve(samples, sampleRateHz);
  const whole = tempoOf(curve.all);
  const found = whole && whole.strength >= LEAST_STRENGTH ? whole : usualTempo(curve.all);
  if (!found) return { value: null, problems: [{ code: 'song-no-beat', severity: 'refused', params: {} }] };
  const { tempoBpm, strength } = found;
  const { low: lowBpm, high: highBpm } = stretches(curve, tempoBpm);
  const steady = highBpm <= tempoBpm * (1 + STEADY_SHARE) && lowBpm >= tempoBpm * (1 - STEADY_SHARE);
  const beatsSec = steady ? evenBeats(tempoBpm, phaseOf(mixed(curve), tempoBpm), durationSec) : followedBeats(curve.all, tempoBpm);
  const firstOne = oneOf(curve.low, beatsSec, beatsPerBar);
  const moves: SongProblem = { code: 'song-tempo-moves', severity: 'doubtful', params: { lowBpm, highBpm } };
  return { value: { tempoBpm, beatsSec, firstOne, strength, steady }, problems: steady ? [] : [moves] };
}

/** Where the tempo moves so much that the whole does not repeat itself: the middle one of its stretches; null where those do not either. */
function usualTempo(curve: Float64Array): CurveTempo | null {
  const length = Math.round((2 * STRETCH_SEC) / HOP_SEC);
  const found = Array.from({ length: Math.floor(curve.length / length) }, (_, i) => tempoOf(curve.subarray(i * length, (i + 1) * length)))
    .filter((each) => each !== null)
    .sort((a, b) => a.tempoBpm - b.tempoBpm);
  const clear = found.filter(({ strength }) => strength >= LEAST_STRENGTH);
  return 2 * clear.length > found.length ? clear[Math.floor(clear.length / 2)]! : null;
}

/** The slowest and the fastest stretch. */
function stretches({ all }: BeatCurve, tempoBpm: number): { readonly low: number; readonly high: number } {
  const length = Math.round(STRETCH_SEC / HOP_SEC);
  const tempi: number[] = [];
  for (let from = 0; from + length <= all.length; from += length) {
    tempi.push(exactTempo(all.subarray(from, from + length), tempoBpm, MOVES_SHARE));
  }
  return { low: Math.min(...tempi), high: Math.max(...tempi) };
}

/** Both curves as one, each by its own size: on the beat it is the low drums that come up more often. */
function mixed({ all, low }: BeatCurve): Float64Array {
  const sizeOf = (curve: Float64Array) => Math.sqrt(curve.reduce((sum, value) => sum + value * value, 0)) || 1;
  const [a, b] = [1 / sizeOf(all), LOW_SHARE / sizeOf(low)];
  return all.map((value, n) => a * value + b * low[n]!);
}
