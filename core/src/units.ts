/** The only place where one unit becomes another. */

/** Decibels of an amplitude ratio; 0 or less gives -Infinity. `dbOfAmplitude(2)` is 6.0206. */
export const dbOfAmplitude = (ratio: number): number => (ratio > 0 ? 20 * Math.log10(ratio) : Number.NEGATIVE_INFINITY);

/** Amplitude ratio of a level in dB. `amplitudeOfDb(6)` is 1.995262. */
export const amplitudeOfDb = (db: number): number => 10 ** (db / 20);

/** Seconds to milliseconds. */
export const msOfSec = (sec: number): number => sec * 1000;

/** Milliseconds to seconds. */
export const secOfMs = (ms: number): number => ms / 1000;

/** Seconds to the nearest whole frame at `sampleRateHz`. */
export const frameOfSec = (sec: number, sampleRateHz: number): number => Math.round(sec * sampleRateHz);

/** Frames to seconds at `sampleRateHz`. */
export const secOfFrames = (frames: number, sampleRateHz: number): number => frames / sampleRateHz;

/** Length of one beat in seconds at `tempoBpm`. */
export const beatSec = (tempoBpm: number): number => 60 / tempoBpm;

/** Length of one slot in milliseconds: sixteenths (4 per beat) at 120 bpm last 125 ms. */
export const slotMs = (tempoBpm: number, perBeat: number): number => 60000 / (tempoBpm * perBeat);

/** The tempo at which `toPerBeat` slots pass as fast as `fromPerBeat` slots at `tempoBpm`: 16ths at 90 are triplets at 120. */
export const equalSpeedBpm = (tempoBpm: number, fromPerBeat: number, toPerBeat: number): number => (tempoBpm * fromPerBeat) / toPerBeat;
