/** From an input event to the paint that follows it, measured inside the page. */
import type { CDPSession, Page } from '@playwright/test';

/** What ends an interaction besides the next paint. */
export interface Awaited {
  /** CSS selector of something that is on the page only afterwards, and what it holds. */
  readonly selector: string;
  readonly text?: string;
}

export interface Timed {
  /** From the input event to the next paint. */
  readonly paintMs: number;
  /** From the input event to the paint that shows what was asked for. */
  readonly shownMs: number;
  /** The browser's own figure (Event Timing), in steps of 8 ms; 0 when it saw nothing of 16 ms or more. */
  readonly eventMs: number;
  /** Processor time of the page's thread from before the input until all is shown: what no other program on the machine can swell much. */
  readonly threadMs: number;
}

/** A page and the session that asks its browser for processor time. */
export interface Timing {
  readonly page: Page;
  readonly browser: CDPSession;
}

/** Nothing is waited for longer. Assumption: what takes longer on a busy machine is broken. */
const LONGEST_MS = 10_000;

export async function openTiming(page: Page): Promise<Timing> {
  const browser = await page.context().newCDPSession(page);
  await browser.send('Performance.enable', { timeDomain: 'threadTicks' });
  return { page, browser };
}

/**
 * Times one interaction with real input: `act` presses a key or the mouse.
 * @param kind the input event that counts: `click` (a key on a button clicks too), `input` while typing.
 */
export async function time({ page, browser }: Timing, awaited: Awaited, kind: 'click' | 'input', act: () => Promise<void>): Promise<Timed> {
  // The page rests before, so that nothing earlier is timed.
  await page.evaluate(() => new Promise((resolve) => requestIdleCallback(resolve, { timeout: 500 })));
  await page.evaluate(watch, { kind, awaited, longestMs: LONGEST_MS });
  const beforeMs = await threadMs(browser);
  await act();
  const timed = await page.evaluate(() => (window as unknown as { timed: Promise<InPage> }).timed);
  return { ...timed, threadMs: (await threadMs(browser)) - beforeMs };
}

type InPage = Omit<Timed, 'threadMs'>;

async function threadMs(browser: CDPSession): Promise<number> {
  const { metrics } = await browser.send('Performance.getMetrics');
  return 1000 * metrics.find(({ name }) => name === 'TaskDuration')!.value;
}

/** Runs in the page: two paints are told apart from the moment the event was made, waiting in the queue included. */
function watch({ kind, awaited, longestMs }: { readonly kind: string; readonly awaited: Awaited; readonly longestMs: number }): void {
  let eventMs = 0;
  const witness = new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) eventMs = Math.max(eventMs, duration);
  });
  const isShown = () => [...document.querySelectorAll(awaited.selector)].some((found) => !awaited.text || found.textContent?.includes(awaited.text));
  // A task that is queued in a frame's callback runs when that frame is painted.
  const painted = () =>
    new Promise<void>((resolve) => {
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => resolve();
        port2.postMessage(null);
      });
    });
  const measured = async (event: Event): Promise<InPage> => {
    await painted();
    const paintMs = performance.now() - event.timeStamp;
    let shownMs = paintMs;
    while (!isShown()) {
      if (shownMs > longestMs) throw new Error(`not shown after ${longestMs} ms: ${awaited.selector} ${awaited.text ?? ''}`);
      await painted();
      shownMs = performance.now() - event.timeStamp;
    }
    // The witness speaks a frame or two later.
    await painted();
    await painted();
    witness.disconnect();
    return { paintMs, shownMs, eventMs };
  };
  const place = window as unknown as { timed: Promise<InPage> };
  place.timed = new Promise((resolve, reject) => {
    setTimeout(() => reject(new Error(`no ${kind} came within ${longestMs} ms, or nothing was painted after it`)), longestMs);
    addEventListener(kind, (event) => void measured(event).then(resolve, reject), { once: true, capture: true });
  });
  witness.observe({ type: 'event', durationThreshold: 16 } as PerformanceObserverInit);
}
