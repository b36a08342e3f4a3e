/** Waits until what was changed stands on the screen, so that an answer is seen before something long begins. */

/** A page that nobody looks at paints no frame; it is not waited for longer than this. Assumption: three frames of a slow screen. */
const HIDDEN_MS = 100;

/** Resolves after the next painted frame, or soon in a hidden page. */
export function painted(): Promise<void> {
  return new Promise((resolve) => {
    setTimeout(resolve, HIDDEN_MS);
    requestAnimationFrame(() => setTimeout(resolve));
  });
}
