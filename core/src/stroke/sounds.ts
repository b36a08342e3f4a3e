/**
 * The few sounds of a take, learnt from the take itself: what rings on after a stroke is then known, and a candidate is judged by what it
 * explains that the strokes before it do not. A sparse convolutive factorisation under the Itakura-Saito distance.
 * @source [Fevotte2009] the distance and its multiplicative updates, [Smaragdis2004] convolution; @departs activations only at candidates
 */
import { sameInEngines } from '../signal/index.ts';
import { groupByShape } from './groups.ts';
import type { Spectra } from './novelty.ts';
import * as P from './parameters.ts';
import { addRinging } from './ringing.ts';

/** A candidate as the model needs it. */
export interface Event {
  /** Onset in frames of the spectra (fractions allowed). */
  readonly frame: number;
  /** Height of the novelty there: the high ones teach the sounds. */
  readonly height: number;
}

/** What a candidate explains. */
export interface Evidence {
  /** How much nearer the log energies of its first 12 ms come to what is heard, summed over time and averaged over bands (nats², may be negative). */
  readonly fit: number;
  /** How far its own sound stands above all else in its first 12 ms: mean over time and bands of ln(1 + own/rest). */
  readonly rise: number;
  /** How far what sounded 3–12 ms before stands above the noise: mean of ln(1 + heard). */
  readonly tail: number;
}

interface Model {
  readonly bands: number;
  readonly frames: number;
  /** Heard energies over the noise, rows of `bands`; row r is model frame r − PRE. */
  readonly heard: Float32Array;
  readonly fitted: Float32Array;
  /** 1/fitted and heard/fitted², the two terms of every update. */
  readonly inverse: Float32Array;
  readonly weighted: Float32Array;
  /** Three templates of `P.SOUND_ROWS` rows each, energy 1 over the first 20 ms; one of zeros where the take has fewer sounds. */
  readonly sounds: Sounds;
  /** First row of every event, and its gains, one per sound. */
  readonly rows: Int32Array;
  readonly gains: Float32Array;
}

/** Exactly three, so that every loop over them is written out: one pass over the energies instead of three. */
type Sounds = readonly [Float32Array, Float32Array, Float32Array];
const SOUND_COUNT = 3;

/** Evidence per event, in order. No events give none. */
export const explain = (spectra: Spectra, floors: Float64Array, events: readonly Event[]): Evidence[] => {
  if (events.length === 0) return [];
  const model = startModel(spectra, floors, events);
  for (let round = 0; round < P.SOUND_ROUNDS; round++) {
    fitModel(model);
    updateGains(model);
    if (round === 0 || round >= P.SOUND_ROUNDS - 2) continue;
    fitModel(model);
    updateSounds(model);
  }
  fitModel(model);
  addRinging(model.fitted, model);
  return events.map((_, e) => evidenceOf(model, e));
};

const startModel = (spectra: Spectra, floors: Float64Array, events: readonly Event[]): Model => {
  const bands = spectra.bandCount / P.SOUND_BAND_MERGE;
  const frames = Math.ceil(spectra.frameCount / P.SOUND_HOP_FRAMES);
  const size = (frames + 2 * P.SOUND_ROWS) * bands;
  const heard = heardEnergies(spectra, floors, { bands, size });
  const rows = Int32Array.from(events, ({ frame }) => Math.min(frames - 1, Math.max(0, Math.round((frame - 0.5) / P.SOUND_HOP_FRAMES))));
  const found = firstSounds(heard, bands, teachers(events, rows));
  const gains = new Float32Array(events.length * SOUND_COUNT);
  for (let e = 0; e < events.length; e++)
    gains.fill(attackEnergy(heard, bands, rows[e]!) / found.length, e * SOUND_COUNT, e * SOUND_COUNT + found.length);
  const silent = () => new Float32Array(P.SOUND_ROWS * bands);
  const sounds: Sounds = [found[0] ?? silent(), found[1] ?? silent(), found[2] ?? silent()];
  const zeros = () => new Float32Array(size);
  return { bands, frames, heard, fitted: zeros(), inverse: zeros(), weighted: zeros(), sounds, rows, gains };
};

const heardEnergies = (
  { powers, frameCount, bandCount }: Spectra,
  floors: Float64Array,
  { bands, size }: { bands: number; size: number },
): Float32Array => {
  const heard = new Float32Array(size);
  const share = 1 / (P.SOUND_HOP_FRAMES * P.SOUND_BAND_MERGE);
  for (let n = 0; n < frameCount; n++) {
    const row = (Math.floor(n / P.SOUND_HOP_FRAMES) + P.SOUND_ROWS_BEFORE) * bands;
    for (let b = 0; b < bandCount; b++) {
      const at = row + Math.floor(b / P.SOUND_BAND_MERGE);
      heard[at] = heard[at]! + (share * powers[n * bandCount + b]!) / floors[b]!;
    }
  }
  return heard;
};

/** Energy over the 30 ms after an onset; `row` is the event's first row, `P.SOUND_ROWS_BEFORE` ahead of the onset. */
const attackEnergy = (heard: Float32Array, bands: number, row: number): number => {
  let energy = 1e-9;
  const from = (row + P.SOUND_ROWS_BEFORE) * bands;
  for (let i = from; i < from + P.SOUND_ATTACK_ROWS * bands; i++) energy += heard[i]!;
  return energy;
};

/** First rows of the events that stand out most; never fewer than a handful, so that a take of soft strokes teaches too. */
const teachers = (events: readonly Event[], rows: Int32Array): number[] => {
  const heights = Float64Array.from(events, ({ height }) => height).sort();
  const top = heights[Math.floor(0.98 * (heights.length - 1))]!;
  const handful = heights[Math.max(0, heights.length - P.TEACHERS_LEAST)]!;
  const limit = Math.min(Math.max(P.TEACHER_HEIGHT, P.TEACHER_SHARE * top), handful);
  return events.flatMap(({ height }, e) => (height >= limit ? [rows[e]!] : []));
};

/** Groups the teachers by the shape of their attack and averages each group, its far tail faded since other strokes lie in it. */
const firstSounds = (heard: Float32Array, bands: number, rows: readonly number[]): Float32Array[] => {
  const groups = groupByShape(
    rows.map((row) => attackShape(heard, bands, row)),
    SOUND_COUNT,
  );
  return groups.map((members) => {
    const sound = new Float32Array(P.SOUND_ROWS * bands);
    for (const member of members) {
      const row = rows[member]!;
      const scale = 1 / (attackEnergy(heard, bands, row) * members.length);
      for (let i = 0; i < sound.length; i++) sound[i] = sound[i]! + scale * heard[row * bands + i]!;
    }
    for (let i = 0; i < sound.length; i++) sound[i] = sound[i]! * fade(Math.floor(i / bands));
    dieAway(sound, bands);
    normalise(sound, bands);
    return sound;
  });
};

const fade = (row: number): number => {
  const after = row - P.SOUND_ROWS_BEFORE;
  return after < 0 ? 0.02 : sameInEngines(Math.exp(-Math.max(0, after - 8) / 15));
};

/** Log energies just after the onset and a little later, their mean removed so that loudness does not count. */
const attackShape = (heard: Float32Array, bands: number, row: number): Float64Array => {
  const shape = new Float64Array(2 * bands);
  const mean = (b: number, from: number, to: number) => {
    let sum = 0;
    for (let r = from; r < to; r++) sum += heard[(row + P.SOUND_ROWS_BEFORE + r) * bands + b]!;
    return Math.log(1 + sum / (to - from));
  };
  for (let b = 0; b < bands; b++) {
    shape[b] = mean(b, 1, 4);
    shape[bands + b] = mean(b, 4, 10);
  }
  const middle = shape.reduce((sum, v) => sum + v, 0) / shape.length;
  return shape.map((v) => v - middle);
};

const normalise = (sound: Float32Array, bands: number): void => {
  let energy = 1e-12;
  for (let r = 0; r < P.SOUND_NORM_ROWS * bands; r++) energy += sound[P.SOUND_ROWS_BEFORE * bands + r]!;
  for (let i = 0; i < sound.length; i++) sound[i] = sound[i]! / energy;
};

/** Gain of an event's sound, 0 where it is too small to count. */
const gainOver = (limit: number, gains: Float32Array, at: number): number => (gains[at]! < limit ? 0 : gains[at]!);

/** Sums all events over the noise (the same in every band), and readies the two terms of the updates. */
const fitModel = ({ fitted, inverse, weighted, heard, sounds, rows, gains, bands }: Model): void => {
  const [a, b, c] = sounds;
  fitted.fill(P.SOUND_NOISE);
  const length = a.length;
  for (let e = 0; e < rows.length; e++) {
    const from = rows[e]! * bands;
    const gainA = gainOver(P.SOUND_GAIN_FLOOR, gains, e * SOUND_COUNT);
    const gainB = gainOver(P.SOUND_GAIN_FLOOR, gains, e * SOUND_COUNT + 1);
    const gainC = gainOver(P.SOUND_GAIN_FLOOR, gains, e * SOUND_COUNT + 2);
    if (gainA + gainB + gainC === 0) continue;
    for (let i = 0; i < length; i++) fitted[from + i] = fitted[from + i]! + gainA * a[i]! + gainB * b[i]! + gainC * c[i]!;
  }
  for (let i = 0; i < fitted.length; i++) {
    const v = 1 / fitted[i]!;
    inverse[i] = v;
    weighted[i] = heard[i]! * v * v;
  }
};

const updateGains = ({ inverse, weighted, sounds: [a, b, c], rows, gains, bands }: Model): void => {
  const length = a.length;
  for (let e = 0; e < rows.length; e++) {
    const from = rows[e]! * bands;
    if (Math.max(gains[e * SOUND_COUNT]!, gains[e * SOUND_COUNT + 1]!, gains[e * SOUND_COUNT + 2]!) < P.SOUND_GAIN_FLOOR) continue;
    let [upA, upB, upC] = [0, 0, 0];
    let [downA, downB, downC] = [1e-12, 1e-12, 1e-12];
    for (let i = 0; i < length; i++) {
      const w = weighted[from + i]!;
      const v = inverse[from + i]!;
      upA += a[i]! * w;
      downA += a[i]! * v;
      upB += b[i]! * w;
      downB += b[i]! * v;
      upC += c[i]! * w;
      downC += c[i]! * v;
    }
    changeGain(gains, e * SOUND_COUNT, upA / downA);
    changeGain(gains, e * SOUND_COUNT + 1, upB / downB);
    changeGain(gains, e * SOUND_COUNT + 2, upC / downC);
  }
};

/** Half a step further than the plain update goes, so that fewer rounds reach as far. @tuned bench/ear */
const changeGain = (gains: Float32Array, at: number, factor: number): void => {
  if (gains[at]! >= P.SOUND_GAIN_FLOOR) gains[at] = gains[at]! * factor * Math.sqrt(factor);
};

const updateSounds = ({ inverse, weighted, sounds, rows, gains, bands }: Model): void => {
  const length = sounds[0].length;
  const sums = () => sounds.map(() => new Float64Array(length).fill(1e-9)) as unknown as readonly [Float64Array, Float64Array, Float64Array];
  const [up, down] = [sums(), sums()];
  const [upA, upB, upC] = up;
  const [downA, downB, downC] = down;
  for (let e = 0; e < rows.length; e++) {
    const from = rows[e]! * bands;
    const gainA = gainOver(P.SOUND_TEACH_GAIN, gains, e * SOUND_COUNT);
    const gainB = gainOver(P.SOUND_TEACH_GAIN, gains, e * SOUND_COUNT + 1);
    const gainC = gainOver(P.SOUND_TEACH_GAIN, gains, e * SOUND_COUNT + 2);
    if (gainA + gainB + gainC === 0) continue;
    for (let i = 0; i < length; i++) {
      const w = weighted[from + i]!;
      const v = inverse[from + i]!;
      upA[i] = upA[i]! + gainA * w;
      downA[i] = downA[i]! + gainA * v;
      upB[i] = upB[i]! + gainB * w;
      downB[i] = downB[i]! + gainB * v;
      upC[i] = upC[i]! + gainC * w;
      downC[i] = downC[i]! + gainC * v;
    }
  }
  sounds.forEach((sound, s) => {
    for (let i = 0; i < length; i++) sound[i] = (sound[i]! * up[s]![i]!) / down[s]![i]!;
    dieAway(sound, bands);
    normalise(sound, bands);
  });
};

/**
 * Past its attack a sound only dies away: no band may stand over its mean of the 10 ms before. Without this a sound learns to hold the
 * next stroke too, when strokes come at even gaps.
 */
const dieAway = (sound: Float32Array, bands: number): void => {
  for (let b = 0; b < bands; b++) {
    let peak = 0;
    for (let r = 0; r < P.SOUND_ROWS_BEFORE + P.SOUND_ATTACK_ROWS; r++) peak = Math.max(peak, sound[r * bands + b]!);
    for (let r = P.SOUND_ROWS_BEFORE + P.SOUND_ATTACK_ROWS; r < P.SOUND_ROWS; r++) {
      let sum = 0;
      for (let k = 1; k <= 5; k++) sum += sound[(r - k) * bands + b]!;
      const echo = peak * P.ECHO_SHARE * sameInEngines(Math.exp((P.SOUND_ROWS_BEFORE + P.SOUND_ATTACK_ROWS - r) / P.ECHO_ROWS));
      sound[r * bands + b] = Math.min(sound[r * bands + b]!, Math.max(echo, sum / 5));
    }
  }
};

const LOG_GUARD = 0.1;
const LOG_CAP = 4;

const evidenceOf = ({ fitted, heard, sounds, rows, gains, bands }: Model, e: number): Evidence => {
  const from = rows[e]! * bands;
  let fit = 0;
  let rise = 0;
  for (let i = 0; i < (P.SOUND_ROWS_BEFORE + P.SOUND_EVIDENCE_ROWS) * bands; i++) {
    let own = 0;
    for (let s = 0; s < SOUND_COUNT; s++) own += gains[e * SOUND_COUNT + s]! * sounds[s]![i]!;
    const all = fitted[from + i]!;
    const rest = Math.max(LOG_GUARD, all - own);
    const log = Math.log(heard[from + i]! + LOG_GUARD);
    fit += Math.min(LOG_CAP, (log - Math.log(rest + LOG_GUARD)) ** 2) - Math.min(LOG_CAP, (log - Math.log(all + LOG_GUARD)) ** 2);
    if (i >= P.SOUND_ROWS_BEFORE * bands) rise += Math.log(1 + own / rest);
  }
  return { fit: (fit * P.SOUND_HOP_FRAMES) / bands, rise: rise / (bands * P.SOUND_EVIDENCE_ROWS), tail: tailLevel(heard, bands, rows[e]!) };
};

/** Mean of ln(1 + heard) over the 4–12 ms before the onset. */
const tailLevel = (heard: Float32Array, bands: number, row: number): number => {
  let sum = 0;
  const to = Math.max(1, row + P.SOUND_ROWS_BEFORE - 1);
  const from = Math.max(0, to - 5);
  for (let i = from * bands; i < to * bands; i++) sum += Math.log(1 + heard[i]!);
  return sum / ((to - from) * bands);
};
