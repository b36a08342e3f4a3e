/** The reference takes as this bench needs them: truth, sound, and the cycle that was asked for. */
import { fileURLToPath } from 'node:url';
import type { ExpectedCycle } from '../../core/src/exercise/index.ts';
import { rational } from '../../core/src/rational.ts';
import type { Limb } from '../../core/src/sticking/index.ts';
import type { Take } from '../../core/src/take/index.ts';
import type { Truth as EarTruth, TrueStroke } from '../ear/scorer.ts';
import { readAnnotatedTakes } from '../ear/takes.ts';

interface TruePlace {
  readonly index: number;
  readonly limb: Limb;
  readonly surface: string;
  readonly level: string;
  readonly positionInCycle: number;
  readonly graceMs: number;
}

/** The truth file of a take, as far as it is used here. */
export interface Truth extends EarTruth {
  readonly durationSec: number;
  readonly tempoBpm: number;
  readonly pattern: { readonly cycleLengthInSubdivisions: number; readonly subdivisionsPerBeat: number };
  readonly perStroke: readonly TruePlace[];
  readonly strokes: readonly (TrueStroke & { readonly timingErrorMs: number })[];
}

/** A take with its truth. */
export interface ListenTake {
  readonly truth: Truth;
  readonly take: Take;
}

/** All takes of the folder, by default the reference takes beside the repository; null when it is absent. */
export function readListenTakes(folder = fileURLToPath(new URL('../../../shared/reference/takes', import.meta.url))): ListenTake[] | null {
  return readAnnotatedTakes(folder)?.map(({ truth, take }) => ({ truth: truth as Truth, take })) ?? null;
}

/** Per index of the truth, where graces count, the index among the main strokes; null for graces. */
export function mainIndices(truth: Truth): (number | null)[] {
  let next = 0;
  return truth.perStroke.map((place) => (place.graceMs > 0 ? null : next++));
}

/** The cycle that was asked for, from the truth's own places. */
export function cycleOfTruth(truth: Truth): ExpectedCycle {
  const { subdivisionsPerBeat, cycleLengthInSubdivisions } = truth.pattern;
  const indices = mainIndices(truth);
  const strokes = truth.perStroke.flatMap((place, i) => {
    const index = indices[i] ?? null;
    if (index === null) return [];
    const graceCount = truth.perStroke.filter((other) => other.graceMs > 0 && other.positionInCycle === place.positionInCycle).length;
    const beat = rational(Math.round(place.positionInCycle * 48), 48 * subdivisionsPerBeat);
    return [{ index, limb: place.limb, surface: place.surface, beat, accent: place.level === 'accent', ghost: false, buzz: false, graceCount }];
  });
  return { lengthBeats: rational(Math.round(cycleLengthInSubdivisions), subdivisionsPerBeat), strokes };
}
