/** The only place where one unit becomes another. */

/** Decibels of an amplitude ratio; 0 or less gives -Infinity. `dbOfAmplitude(2)` is 6.0206. */
export const dbOfAmplitude = (ratio: number): number => (ratio > 0 ? 20 * Math.log10(ratio) : Number.NEGATIVE_INFINITY);

/** Decibels of a power ratio; 0 or less gives -Infinity. `dbOfPower(2)` is 3.0103. */
export const dbOfPower = (ratio: number): number => (ratio > 0 ? 10 * Math.log10(ratio) : Number.NEGATIVE_INFINITY);

/** Amplitude ratio of a level in dB. `amplitudeOfDb(6)` is 1.995262. */
export const amplitudeOfDb = (db: number): number => 10 ** (db / 20);

/** Seconds to milliseconds. */
export const msOfSec = (sec: number): number => sec * 1000;

/** Milliseconds to seconds. */
export const secOfMs = (ms: number): number => ms / 1000;

/** Minutes to seconds. */
export const secOfMinutes = (minutes: number): number => minutes * 60;

/** Seconds to minutes. */
export const minutesOfSec = (sec: number): number => sec / 60;

/** Minutes to milliseconds. */
export const msOfMinutes = (minutes: number): number => minutes * 60_000;

/** Days of 24 hours to milliseconds; civil days, which may be longer or shorter, are counted in day.ts. */
export const msOfDays = (days: number): number => days * 86_400_000;

/** Seconds to the nearest whole frame at `sampleRateHz`. */
export const frameOfSec = (sec: number, sampleRateHz: number): number => Math.round(sec * sampleRateHz);

/** Frames to seconds at `sampleRateHz`. */
export const secOfFrames = (frames: number, sampleRateHz: number): number => frames / sampleRateHz;

/** Length of one beat in seconds at `tempoBpm`. */
export const beatSec = (tempoBpm: number): number => 60 / tempoBpm;

/** The tempo whose beats last `sec` seconds each. */
export const bpmOfBeatSec = (sec: number): number => 60 / sec;

/** How long `beats` last at `tempoBpm`, in seconds. `secOfBeats(4, 120)` is 2. */
export const secOfBeats = (beats: number, tempoBpm: number): number => (beats * 60) / tempoBpm;

/** How many beats pass in `sec` seconds at `tempoBpm`. */
export const beatsOfSec = (sec: number, tempoBpm: number): number => (sec * tempoBpm) / 60;

/** How many frames `beats` last at `tempoBpm`, not rounded: the sum with what comes before is. */
export const framesOfBeats = (beats: number, tempoBpm: number, sampleRateHz: number): number => (beats * 60 * sampleRateHz) / tempoBpm;

/** The tempo at which `beats` last `sec` seconds. */
export const bpmOfBeats = (beats: number, sec: number): number => (60 * beats) / sec;

/** Length of one slot in seconds: sixteenths (4 per beat) at 120 bpm last 0.125 s. */
export const slotSec = (tempoBpm: number, perBeat: number): number => 60 / (tempoBpm * perBeat);

/** Length of one slot in milliseconds: sixteenths (4 per beat) at 120 bpm last 125 ms. */
export const slotMs = (tempoBpm: number, perBeat: number): number => 60000 / (tempoBpm * perBeat);

/** The tempo at which `toPerBeat` slots pass as fast as `fromPerBeat` slots at `tempoBpm`: 16ths at 90 are triplets at 120. */
export const equalSpeedBpm = (tempoBpm: number, fromPerBeat: number, toPerBeat: number): number => (tempoBpm * fromPerBeat) / toPerBeat;
