/** How strongly numbers speak for an effect: closed-form marginal likelihoods of linear models and of rates. */

/**
 * A column in units of its noise: what differs between places, and what differs within them (null: nothing does).
 * A place's own natural offset belongs to the first part only, which is why the two are kept apart.
 */
export interface Column {
  readonly between: Float64Array;
  readonly within: Float64Array | null;
}

/** Sum of products over both parts. */
export function dot(a: Column, b: Column): number {
  let sum = 0;
  for (let i = 0; i < a.between.length; i++) sum += a.between[i]! * b.between[i]!;
  if (a.within && b.within) for (let i = 0; i < a.within.length; i++) sum += a.within[i]! * b.within[i]!;
  return sum;
}

/** `a + share·b`. */
function plus(a: Column, b: Column, share: number): Column {
  const between = a.between.map((value, i) => value + share * b.between[i]!);
  if (!b.within) return { between, within: a.within };
  const within = a.within ? a.within.map((value, i) => value + share * b.within![i]!) : b.within.map((value) => share * value);
  return { between, within };
}

/** What is left of a column when everything that an orthonormal basis can tell is taken away. */
export const beside = (column: Column, basis: readonly Column[]): Column => basis.reduce((left, axis) => plus(left, axis, -dot(left, axis)), column);

/** The basis with the direction of one more column; unchanged when the column holds nothing new. */
export function grown(basis: readonly Column[], column: Column): readonly Column[] {
  const left = beside(beside(column, basis), basis);
  const length = Math.sqrt(dot(left, left));
  if (length < 1e-6 * Math.sqrt(dot(column, column)) || length === 0) return basis;
  return [...basis, plus({ between: new Float64Array(left.between.length), within: null }, left, 1 / length)];
}

/** An effect, how sure it is, and how much likelier the data are with it than without. */
export interface Effect {
  readonly size: number;
  /** Standard error of `size`. */
  readonly error: number;
  /** Natural logarithm of the Bayes factor against no effect. */
  readonly logOdds: number;
}

/**
 * The effect of a column on numbers, both less what a basis tells, in units of the noise.
 * The effect has a normal prior about 0, so that the marginal likelihood has a closed form: with precision a = x·x and
 * estimate d = x·y / a, log BF = ½ d²a · s²a/(1 + s²a) − ½ log(1 + s²a).
 * @param column and numbers, already beside the basis.
 * @param priorSize s, the deviation of the prior.
 * @param inflation how much larger the variance is than the columns say (serial correlation); default 1.
 * @returns null when the numbers cannot tell.
 * @source [KassRaftery1995]
 */
export function effectOf(column: Column, numbers: Column, { priorSize, inflation = 1 }: { priorSize: number; inflation?: number }): Effect | null {
  const precision = dot(column, column) / inflation;
  if (precision < 1e-9) return null;
  const size = dot(column, numbers) / inflation / precision;
  const gain = priorSize ** 2 * precision;
  return { size, error: 1 / Math.sqrt(precision), logOdds: 0.5 * size ** 2 * precision * (gain / (1 + gain)) - 0.5 * Math.log(1 + gain) };
}

/** A beta prior of a rate. */
export interface RatePrior {
  readonly hits: number;
  readonly others: number;
}

/** Logarithm of the chance of a row of hits and others under a beta prior of their rate. */
export const logRow = (hits: number, others: number, prior: RatePrior): number =>
  logBeta(prior.hits + hits, prior.others + others) - logBeta(prior.hits, prior.others);

const logBeta = (a: number, b: number): number => logGamma(a) + logGamma(b) - logGamma(a + b);

/**
 * Logarithm of the gamma function for x > 0, good to 1e-10.
 * @source [AbramowitzStegun1964] 6.1.41, after the recurrence has carried x above 8
 */
export function logGamma(x: number): number {
  let [at, shift] = [x, 0];
  while (at < 8) {
    shift += Math.log(at);
    at += 1;
  }
  const r = 1 / (at * at);
  const series = (1 / 12 - r * (1 / 360 - r * (1 / 1260 - r * (1 / 1680)))) / at;
  return (at - 0.5) * Math.log(at) - at + 0.5 * Math.log(2 * Math.PI) + series - shift;
}

/** Logarithm of a sum of exponentials; −Infinity of nothing. */
export function logSum(logs: readonly number[]): number {
  const most = Math.max(...logs, Number.NEGATIVE_INFINITY);
  return most === Number.NEGATIVE_INFINITY ? most : most + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - most), 0));
}
