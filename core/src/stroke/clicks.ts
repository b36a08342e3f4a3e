/** Takes the click's bleed out of a recording: its sound is the same every time, what the drummer plays at it is not. */
import * as P from './parameters.ts';

/** One of the click's sounds: when it is heard, and what was learnt of it. `withoutClicks` changes it in place. */
export interface ClickVoice {
  /** Rising, seconds from the start of the take. */
  readonly timesSec: readonly number[];
  /** How much of the take from each click on is looked at and taken out: as far as the next click of any voice, within bounds. */
  readonly lastsSec: number;
  /** The take around those clicks at which the least else was heard, the quietest first. */
  quietest: readonly Heard[];
  /** How many clicks have been looked at. */
  seen: number;
}

interface Heard {
  readonly samples: Float32Array;
  readonly energy: number;
}

/** Click times by voice, nothing learnt yet. @param voices which sound it was each time; without it they are taken to sound alike. */
export const clickVoicesOf = (clickTimesSec: readonly number[], voices: readonly string[]): ClickVoice[] => {
  const times = new Map<string, number[]>();
  clickTimesSec.forEach((sec, i) => {
    const voice = voices[i] ?? '';
    times.set(voice, [...(times.get(voice) ?? []), sec]);
  });
  const lastsSec = Math.min(P.CLICK_SEC.most, Math.max(P.CLICK_SEC.least, shortestGap(clickTimesSec)));
  return [...times.values()].map((secs) => ({ timesSec: secs.sort((a, b) => a - b), lastsSec, quietest: [], seen: 0 }));
};

const shortestGap = (timesSec: readonly number[]): number => {
  const sorted = [...timesSec].sort((a, b) => a - b);
  return sorted.slice(1).reduce((least, sec, i) => Math.min(least, sec - sorted[i]!), Number.POSITIVE_INFINITY);
};

/** A stretch of a take. */
export interface ClickedSound {
  readonly samples: Float32Array;
  readonly sampleRateHz: number;
  /** Frame of the take at which it begins. Later stretches come later, and may overlap. */
  readonly startFrame: number;
}

/**
 * The samples without the clicks. The sound of each voice is what its quietest clicks (the count-in, rests) have in common; where they have nothing in
 * common, nothing is taken out. Fewer than three clicks of a voice change nothing; when nothing changes, the samples come back as they are.
 */
export const withoutClicks = ({ samples, sampleRateHz, startFrame }: ClickedSound, voices: readonly ClickVoice[]): Float32Array => {
  const before = Math.round(P.CLICK_BEFORE_SEC * sampleRateHz);
  const startOf = (sec: number) => Math.round(sec * sampleRateHz) - before - startFrame;
  let clean = samples;
  for (const voice of voices) {
    const length = Math.round(voice.lastsSec * sampleRateHz);
    learn(voice, samples, { startOf, length });
    if (voice.quietest.length < P.CLICKS_NEEDED) continue;
    const click = faded(commonSound(voice.quietest, Math.round(P.CLICK_SMOOTH_SEC * sampleRateHz)));
    if (clean === samples) clean = samples.slice();
    for (const sec of voice.timesSec) subtract(clean, click, startOf(sec));
  }
  return clean;
};

const learn = (
  voice: ClickVoice,
  samples: Float32Array,
  { startOf, length }: { readonly startOf: (sec: number) => number; readonly length: number },
): void => {
  const fresh: Heard[] = [];
  for (; voice.seen < voice.timesSec.length; voice.seen++) {
    const start = startOf(voice.timesSec[voice.seen]!);
    if (start + length > samples.length) break;
    if (start < 0) continue;
    const heard = samples.slice(start, start + length);
    fresh.push({ samples: heard, energy: heard.reduce((sum, value) => sum + value * value, 0) });
  }
  voice.quietest = [...voice.quietest, ...fresh].sort((a, b) => a.energy - b.energy).slice(0, P.CLICKS_KEPT);
};

/** A mean that trusts each click as far as it agrees with the others at that moment; less of it the less they agree. */
const commonSound = (heard: readonly Heard[], reach: number): Float32Array => {
  const length = heard[0]!.samples.length;
  let mean = new Float32Array(length);
  let doubt = new Float32Array(length);
  // The first round trusts the quiet ones; each that follows those that lie nearest to the mean of the round before.
  for (let round = 0; round < P.CLICK_ROUNDS; round++) {
    const off = heard.map(({ samples }) =>
      smoothed(
        samples.map((value, t) => (value - mean[t]!) ** 2),
        reach,
      ),
    );
    ({ mean, doubt } = weightedMean(heard, off));
  }
  const sure = smoothed(
    mean.map((value) => value * value),
    reach,
  );
  const unsure = smoothed(doubt, reach);
  return mean.map((value, t) => {
    const trust = Math.max(0, 1 - unsure[t]! / (sure[t]! + 1e-15));
    // What is nearly sure is taken out whole, or a thousandth of a loud click would stay and be heard in a quiet room.
    return trust > P.CLICK_SURE ? value : value * trust;
  });
};

/** The mean with weights that fall with what each is off, and its variance, as far as those that count differ. */
const weightedMean = (
  heard: readonly Heard[],
  off: readonly Float64Array[],
): { mean: Float32Array<ArrayBuffer>; doubt: Float32Array<ArrayBuffer> } => {
  const mean = new Float32Array(heard[0]!.samples.length);
  const doubt = new Float32Array(mean.length);
  for (let t = 0; t < mean.length; t++) {
    const weights = cappedWeights(off.map((power) => 1 / (power[t]! + 1e-12) ** 2));
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    const counted = total ** 2 / weights.reduce((sum, weight) => sum + weight ** 2, 0);
    mean[t] = heard.reduce((sum, { samples }, i) => sum + weights[i]! * samples[t]!, 0) / total;
    const squares = heard.reduce((sum, { samples }, i) => sum + (weights[i]! * (samples[t]! - mean[t]!)) ** 2, 0);
    doubt[t] = ((squares / total ** 2) * counted) / Math.max(1e-3, counted - 1);
  }
  return { mean, doubt };
};

/** No click alone decides: the greatest weight counts as much as the next. */
const cappedWeights = (weights: readonly number[]): readonly number[] => {
  const [, second = 0] = [...weights].sort((a, b) => b - a);
  return weights.map((weight) => Math.min(weight, second));
};

/** Mean of the values up to `reach` around each. */
const smoothed = (values: Float32Array, reach: number): Float64Array => {
  const sums = new Float64Array(values.length + 1);
  values.forEach((value, i) => {
    sums[i + 1] = sums[i]! + value;
  });
  return Float64Array.from(values, (_, i) => {
    const from = Math.max(0, i - reach);
    const to = Math.min(values.length, i + reach + 1);
    return (sums[to]! - sums[from]!) / (to - from);
  });
};

/** What of a click rings on past the stretch that is taken out comes up again slowly: at once it would be heard as a stroke. */
const faded = (click: Float32Array): Float32Array =>
  click.map((value, i) => value * Math.min(1, (click.length - i) / (P.CLICK_FADE_SHARE * click.length)));

const subtract = (samples: Float32Array, click: Float32Array, start: number): void => {
  for (let i = Math.max(0, -start); i < click.length && start + i < samples.length; i++) samples[start + i] = samples[start + i]! - click[i]!;
};
