/** When a page was out of sight, written down by the page itself, and what a page in sight does that one out of sight does not. */
import type { Page } from '@playwright/test';

export interface Sight {
  /** Each change, on the page's clock: `document.visibilityState` from then on. */
  readonly changes: readonly { readonly atMs: number; readonly seen: string }[];
  /** Pictures asked for that were drawn while out of sight: none, where it is true. */
  readonly drawn: number;
  /** Steps of a timer of 200 ms while out of sight. */
  readonly ticks: number;
  /** The lock that keeps the screen on: asked for, given and taken, in order. */
  readonly lock: readonly string[];
}

declare global {
  interface Window {
    sight: { changes: { atMs: number; seen: string }[]; drawn: number; ticks: number; lock: string[] };
  }
}

/** From now on the page writes down when it is out of sight. */
export async function watchSight(page: Page): Promise<void> {
  await page.addInitScript(writeSight);
}

/** In the page. */
export function writeSight(): void {
  const sight = { changes: [] as { atMs: number; seen: string }[], drawn: 0, ticks: 0, lock: [] as string[] };
  window.sight = sight;
  const note = () => void sight.changes.push({ atMs: performance.now(), seen: document.visibilityState });
  note();
  document.addEventListener('visibilitychange', note);
  const draw = () => {
    if (document.visibilityState === 'hidden') sight.drawn++;
    requestAnimationFrame(draw);
  };
  requestAnimationFrame(draw);
  setInterval(() => {
    if (document.visibilityState === 'hidden') sight.ticks++;
  }, 200);
  if (!navigator.wakeLock) return;
  const ask = navigator.wakeLock.request.bind(navigator.wakeLock);
  navigator.wakeLock.request = async (type) => {
    sight.lock.push('asked');
    const lock = await ask(type);
    sight.lock.push('given');
    lock.addEventListener('release', () => sight.lock.push('taken'));
    return lock;
  };
}

/** The one time out of sight, in seconds; fails where there were others, or where it is not over. */
export function hiddenSec({ changes }: Pick<Sight, 'changes'>, endMs?: number): number {
  const seen = changes.map((change) => change.seen).join(' ');
  const from = changes.find((change) => change.seen === 'hidden');
  const to = endMs ?? changes.at(-1)?.atMs;
  if (!from || to === undefined || !/^(visible )+hidden( visible)?$/.test(seen)) throw new Error(`not once out of sight: ${seen}`);
  return (to - from.atMs) / 1000;
}
