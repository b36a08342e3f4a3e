/**
 * While much of a diary goes by, little of it lies about. What IndexedDB gives lies outside the heap by which a browser tells when to look for garbage: of
 * one year it leaves 10 MB there, of ten years 66. Memory that is asked for and never touched costs nothing, and has it look (decision 0088).
 */

/** It is asked for each time so much went by. @tuned bench/diary */
const OFTEN_BYTES = 2_000_000;
/** Chromium looks for garbage after 64 MB outside its heap. @tuned bench/diary */
const ASKED_BYTES = 40_000_000;

/** A record as JSON, in the middle. */
const RECORD_BYTES = 2000;

let byteCount = 0;

export const recordsGoneBy = (count: number): void => bytesGoneBy(count * RECORD_BYTES);

export function bytesGoneBy(more: number): void {
  byteCount += more;
  if (byteCount < OFTEN_BYTES) return;
  byteCount = 0;
  try {
    // Looked at, or whoever packs the program leaves it out.
    byteCount = new ArrayBuffer(ASKED_BYTES).byteLength - ASKED_BYTES;
  } catch {
    // A device that has no such room looks by itself.
  }
}
