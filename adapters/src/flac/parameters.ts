/** Numbers that decide how a take is written as FLAC. They are part of the backup's format: the same take gives the same bytes. */

/** libFLAC's default. Assumption: level 8 gains a percent or two on drums and takes twice as long. */
export const COMPRESSION_LEVEL = 5;

/** Samples in a FLAC frame; what libFLAC takes at level 5 for rates above 22.05 kHz, said so that no other version may decide otherwise. */
export const BLOCK_SAMPLES = 4096;

/** Samples handed to the encoder at once, a whole number of frames; small, because the library copies them into a heap of 16 MB. */
export const FED_SAMPLES = 16 * BLOCK_SAMPLES;

/** Highest rate a FLAC header holds in its 20 bits, less what libFLAC refuses. @source [RFC9639] section 8.2 */
export const HIGHEST_RATE_HZ = 655_350;
