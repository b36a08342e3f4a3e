/** What a file begins with, which tells its format better than its name does. */

/** Whether the first bytes are these ASCII letters. */
export const startsWith = (bytes: Uint8Array, letters: string): boolean => letters === String.fromCharCode(...bytes.subarray(0, letters.length));
