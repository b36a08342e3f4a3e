/** Whether two looks at a running session would draw the same. */
import type { Present } from '@evenhand/core/session';

/** True when nothing on the screen would change; while waiting, only whole seconds are shown. */
export function samePresent(a: Present, b: Present): boolean {
  if (a.part === 'waiting' && b.part === 'waiting') return Math.ceil(a.secLeft) === Math.ceil(b.secLeft);
  return JSON.stringify(a) === JSON.stringify(b);
}
