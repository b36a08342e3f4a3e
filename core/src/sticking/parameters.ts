/** Numbers that decide in the sticking language. */

/**
 * Longest sticking, in slots. Decided with the language: docs/formats/sticking.md.
 */
export const SLOT_LIMIT = 256;

/** Most grace strokes before one stroke: a four-stroke ruff has three. Assumption: nobody means more. */
export const GRACE_LIMIT = 3;
