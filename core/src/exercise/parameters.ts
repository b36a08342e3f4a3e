/** Numbers that decide about exercises. */

/** Most slots a beat can hold. Assumption: 64 is past every written subdivision (hundred-twenty-eighths start at 32). */
export const PER_BEAT_LIMIT = 64;

/** Bits kept of the hash that names an exercise. @source [DESIGN] records: "id 128 random bits", the same width here. */
export const ID_BITS = 128;
