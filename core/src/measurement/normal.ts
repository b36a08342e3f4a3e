/** The normal distribution, where a share is needed from a distance. */

/**
 * Share of a standard normal distribution below `z`, good to 1.5e-7.
 * @source [AbramowitzStegun1964] 7.1.26
 */
export function normalShare(z: number): number {
  const x = Math.abs(z) / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const tail = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429)))) * Math.exp(-x * x);
  return z < 0 ? tail / 2 : 1 - tail / 2;
}
