/** Does something once the page has nothing else to do. */

/** Where a browser does not tell when it rests. Assumption: a first screen is drawn and read by then. */
const SOON_MS = 1000;

/** Does some things one after another, each only while the page rests, so that whoever touches it is answered in between. @param isWanted asked before each. */
export function atRestInTurn(works: readonly (() => void)[], isWanted: () => boolean): void {
  const [first, ...others] = works;
  if (!first) return;
  atRest(() => {
    if (!isWanted()) return;
    first();
    atRestInTurn(others, isWanted);
  });
}

export function atRest(work: () => void): void {
  if ('requestIdleCallback' in window) requestIdleCallback(work);
  else setTimeout(work, SOON_MS);
}
