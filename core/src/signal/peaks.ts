/** Peaks of sampled curves, and where they lie between samples. */

/** Position (in samples from the middle one) and height of the parabola through three neighbouring values; a flat top gives the middle. */
export const parabolaPeak = (before: number, middle: number, after: number): { offset: number; height: number } => {
  const bend = before - 2 * middle + after;
  if (bend === 0) return { offset: 0, height: middle };
  const offset = (0.5 * (before - after)) / bend;
  return { offset, height: middle - 0.25 * (before - after) * offset };
};

/** Indices of local maxima at or above `floor` that no value within `reach` samples exceeds (the first of equals wins), in order. */
export const localMaxima = (curve: ArrayLike<number>, floor: number, reach: number): number[] => {
  const found: number[] = [];
  for (let i = 0; i < curve.length; i++) {
    if (curve[i]! >= floor && isHighest(curve, i, reach)) found.push(i);
  }
  return found;
};

const isHighest = (curve: ArrayLike<number>, i: number, reach: number): boolean => {
  const value = curve[i]!;
  for (let j = Math.max(0, i - reach); j < i; j++) if (curve[j]! >= value) return false;
  const end = Math.min(curve.length - 1, i + reach);
  for (let j = i + 1; j <= end; j++) if (curve[j]! > value) return false;
  return true;
};
