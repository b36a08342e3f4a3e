/** What pages are printed on: the one place for it, light enough for a settings screen. */

/** Width and height in points (72 to the inch). A4: 210 × 297 mm. @source [ISO216] Letter: 8.5 × 11 inches. @source [AsmeY14] */
export const PAPERS = { a4: { width: 595.28, height: 841.89 }, letter: { width: 612, height: 792 } } as const;

export type PaperSize = keyof typeof PAPERS;
