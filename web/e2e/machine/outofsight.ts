/** Clicks sounded by a page that is out of sight for real, as long as wanted. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Click } from '../../src/audio/click.ts';
import { ANY_MICROPHONE } from '../planted.ts';
import { type LoosePage, startHideable } from './hideable.ts';

declare global {
  interface Window {
    /** What was begun before the page was let go. */
    begun: Promise<unknown>;
    /** Each change of the page's sight: what it is from then on, and the frame after the first click that was computed next. */
    sightChanges: { seen: string; frame: number }[];
  }
}

/** What was heard, in frames from the first click. */
export interface HeardOutOfSight {
  readonly heard: readonly number[];
  readonly changes: readonly { readonly seen: string; readonly frame: number }[];
}

export interface OutOfSight {
  /** Of the rig. */
  readonly address: string;
  /** Clicks from frame 0 on, for the rate of the device. */
  readonly clicksAt: (rateHz: number) => readonly Click[];
  /** Hides the page, and shows it again if that is wanted; begun before the first click. */
  readonly away: (page: LoosePage) => Promise<void>;
  /** It is over so long after the page was hidden, or with the last click. Default the latter. */
  readonly enoughSec?: number;
}

export async function clicksOutOfSight({ address, clicksAt, away, enoughSec = 1e6 }: OutOfSight): Promise<HeardOutOfSight> {
  const profile = mkdtempSync(join(tmpdir(), 'evenhand-hidden-'));
  const browser = await startHideable(profile, ANY_MICROPHONE);
  await browser.page.goto(address);
  const rateHz = await browser.page.evaluate(async () => {
    const context = new AudioContext();
    await context.close();
    return context.sampleRate;
  });
  let tell: () => void = () => {};
  const clicking = new Promise<void>((resolve) => (tell = resolve));
  await browser.page.exposeFunction('tell', () => tell());
  await browser.page.evaluate(begin, { clicks: clicksAt(rateHz), enoughSec });
  await clicking;
  const page = await browser.letGo();
  await away(page);
  const heard = (await page.evaluate(() => window.begun)) as readonly number[];
  const changes = await page.evaluate(() => window.sightChanges);
  await browser.kill();
  rmSync(profile, { recursive: true, force: true });
  return { heard, changes };
}

/** In the page. */
function begin({ clicks, enoughSec }: { readonly clicks: readonly Click[]; readonly enoughSec: number }): void {
  window.sightChanges = [];
  window.begun = window.rig.soundedLive(clicks, async (engine, firstFrame) => {
    let over = firstFrame + clicks.at(-1)!.frame + engine.sampleRateHz / 2;
    document.addEventListener('visibilitychange', () => {
      const frame = engine.nextFrame();
      window.sightChanges.push({ seen: document.visibilityState, frame: frame - firstFrame });
      over = Math.min(over, Math.max(frame, firstFrame) + enoughSec * engine.sampleRateHz);
    });
    window.tell!('clicking');
    while (engine.nextFrame() < over) await new Promise((resolve) => setTimeout(resolve, 100));
  });
}
