/** Order statistics of plain lists of numbers: quantiles, the middle, and the spread around it. Everything in the house that takes a median takes this one. */

/**
 * The value below which a share of the values lies, linear between neighbours: definition 7 of nine, as NumPy's and R's default.
 * @param values in any order; nothing is changed in them.
 * @param share 0 (the least) to 1 (the greatest).
 * @returns NaN of nothing.
 * @source [HyndmanFan1996] definition 7
 * @example quantile([10, 20, 30, 40], 0.25) // 17.5
 */
export const quantile = (values: ArrayLike<number>, share: number): number => quantileOfSorted(Float64Array.from(values).sort(), share);

/** As `quantile`, for values that rise already: a long list is sorted once for several shares. */
export function quantileOfSorted(sorted: ArrayLike<number>, share: number): number {
  if (sorted.length === 0) return Number.NaN;
  const at = share * (sorted.length - 1);
  const low = Math.floor(at);
  const high = Math.min(sorted.length - 1, low + 1);
  return sorted[low]! + (at - low) * (sorted[high]! - sorted[low]!);
}

/** Middle value, the mean of the two middle ones when their number is even: `quantile(values, 0.5)` to the last bit but one. NaN of nothing. */
export function median(values: ArrayLike<number>): number {
  const sorted = Float64Array.from(values).sort();
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

/** Median distance from the median; NaN of nothing. */
export function medianAbsoluteDeviation(values: readonly number[]): number {
  const centre = median(values);
  return median(values.map((value) => Math.abs(value - centre)));
}

/** 1.4826·MAD: what the standard deviation would be if the middle half were normal. @source 1/Φ⁻¹(.75) = 1.482602 */
export const robustSpread = (values: readonly number[]): number => 1.482602 * medianAbsoluteDeviation(values);
