/** Quantiles of plain lists of numbers. */

/** The value below which the share `q` (0 … 1) of `values` lies, between neighbours linearly; an empty list gives NaN. */
export const quantile = (values: ArrayLike<number>, q: number): number => quantileOfSorted(Float64Array.from(values).sort(), q);

/** As `quantile`, for values already in rising order. */
export const quantileOfSorted = (sorted: ArrayLike<number>, q: number): number => {
  const n = sorted.length;
  if (n === 0) return Number.NaN;
  const at = q * (n - 1);
  const low = Math.floor(at);
  const high = Math.min(n - 1, low + 1);
  return sorted[low]! + (at - low) * (sorted[high]! - sorted[low]!);
};

/** The middle value; an empty list gives NaN. */
export const median = (values: ArrayLike<number>): number => quantile(values, 0.5);
