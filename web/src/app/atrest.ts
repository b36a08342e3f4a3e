/** Does something once the page has nothing else to do. */

/** Where a browser does not tell when it rests. Assumption: a first screen is drawn and read by then. */
const SOON_MS = 1000;

export function atRest(work: () => void): void {
  if ('requestIdleCallback' in window) requestIdleCallback(work);
  else setTimeout(work, SOON_MS);
}
