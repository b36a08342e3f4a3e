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
