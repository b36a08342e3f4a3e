/** Numbers that decide when a recording is called faulty. */

/** A run of this many exact zeros inside sound is a hole that software left, never a microphone. @source [Evenhand stack trials] */
export const GAP_ZERO_FRAMES = 64;
/** Within this of the loudest value a sample counts as clipped, when that value is also near full scale. Assumption. */
export const CLIP_NEAR_PEAK = 0.9995;
export const CLIP_FULL_SCALE = 0.985;
/** So many samples in a row at the peak make one clipped place: a single one may be chance. Assumption. */
export const CLIP_RUN_FRAMES = 3;
/** Clipped samples nearer than this belong to one stroke. Assumption: the loud part of a stroke is shorter. */
export const CLIP_PLACE_SEC = 0.02;
/** A take that never gets louder is silent: 16-bit noise lies near −90 dB. Assumption. */
export const SILENT_DB = -72;
/** Shorter than this no cycle can be heard. Assumption. */
export const SHORTEST_SEC = 0.5;
/** Sample rates outside are refused. @source [RIFF] allows more; no microphone gives it. */
export const LOWEST_RATE_HZ = 8000;
export const HIGHEST_RATE_HZ = 192000;
/** Longest way of a click that is looked for: over a wireless loudspeaker a third of a second was seen. Assumption. */
export const LATENCY_MOST_SEC = 0.45;
/** Clicks needed to tell their way. Assumption: one bar of count-in, in which nobody plays. */
export const LATENCY_CLICKS_NEEDED = 4;
/** How far the likeness must stand out over its RMS at all other lags. Noise and drums alone reach 6, see latency.test.ts. Assumption. */
export const LATENCY_STANDS_OUT = 8;
/** How far single clicks may lie from where all are, and how like the click each must be. Assumption. */
export const LATENCY_NEAR_SEC = 0.004;
export const LATENCY_LIKE = 0.5;
/** Length over which a click's volume is taken, as a stroke's is. @source docs/ear.md, definitions */
export const LEVEL_SEC = 0.02;
/** A loopback whose clicks scatter more is refused. @source [Evenhand stack trials] */
export const LOOPBACK_SPREAD_MOST_SEC = 0.001;
