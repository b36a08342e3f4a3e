/** Numbers that decide in the sticking language. */

/**
 * Longest sticking, in slots.
 * @source [DESIGN] the sticking language: "At most 256 slots".
 */
export const SLOT_LIMIT = 256;

/** Most grace strokes before one stroke: a four-stroke ruff has three. Assumption: nobody means more. */
export const GRACE_LIMIT = 3;
