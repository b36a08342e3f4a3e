/** Numbers that decide about exercises. */

/** Most slots a beat can hold. Assumption: 64 is past every written subdivision (hundred-twenty-eighths start at 32). */
export const PER_BEAT_LIMIT = 64;

/** Bits kept of the hash that names an exercise: as many as a record's id has. Decided in docs/decisions/0011. */
export const ID_BITS = 128;
