/** One clock for the wall, the page and its sound, which a test can move on: minutes of practice pass in a moment. */
import type { BrowserContext, Page } from '@playwright/test';
import { CLICK_PROCESSOR } from '../src/audio/click.ts';

/** What a player sees of a running session. */
export interface Seen {
  /** The heading: the tempo of the block, or that it is done. */
  readonly heading: string;
  readonly title: string;
  /** "Get ready", "Count-in", "Plain time", or nothing while the exercise is to be played. */
  readonly part: string;
  /** Seconds to wait, or the beat. */
  readonly number: number;
  readonly bar: number;
  readonly bars: number;
  /** Seconds left in the block. */
  readonly leftSec: number;
  /** "Block 2 of 6" */
  readonly block: string;
  readonly note: string;
}

interface MovedClock {
  move(sec: number): void;
  /** When the microphone was opened, on the page's clock. */
  microphoneAtMs: number;
}

declare global {
  interface Window {
    clock: MovedClock;
  }
}

/**
 * From now on every page of the context has the clock. Wall and sound run at their own speed and are moved together; what waits for time in the
 * page, or is told of it by the click's worklet, is woken after each move, once. Sound that was to be heard in the time passed over is not heard.
 * @param firstMs moment at which the first page opens; `openAt` and `setMoment` say it for the pages after.
 */
export async function takeClock(context: BrowserContext, firstMs: number): Promise<void> {
  await setMoment(context, firstMs);
  await context.addInitScript(haveClock, { cookie: COOKIE, clickProcessor: CLICK_PROCESSOR });
}

/** Opens the app at a moment. */
export async function openAt(page: Page, atMs: number, address = './'): Promise<void> {
  await setMoment(page.context(), atMs);
  await page.goto(address);
}

/** Pages begin at this moment from now on. */
export const setMoment = (context: BrowserContext, atMs: number): Promise<void> =>
  context.addCookies([{ name: COOKIE, value: String(atMs), domain: 'localhost', path: '/' }]);

/** Lets time pass and gives what is on the screen of the session then. */
export const pass = (page: Page, sec: number): Promise<Seen> =>
  page.evaluate(async (by) => {
    window.clock.move(by);
    await new Promise((resolve) => setTimeout(resolve));
    const text = (selector: string): string => document.querySelector(selector)?.textContent?.trim() ?? '';
    const [min = 0, sec = 0] = text('.count .time').split(':').map(Number);
    const [, bar = '0', bars = '0'] = /bar (\d+) of (\d+)/.exec(text('.where .bar')) ?? [];
    return {
      ...{ heading: text('h1'), title: text('.music .title'), part: text('.where .what'), number: Number.parseInt(text('.where .number'), 10) },
      ...{ bar: Number(bar), bars: Number(bars), leftSec: 60 * min + sec, block: /Block .*/.exec(text('.count'))?.[0] ?? '', note: text('.note') },
    };
  }, sec);

/** Presses a key at an exact time after the microphone was opened, as a pedal with a good timer would; before it, others as soon as a session runs. */
export const pressAfterMicrophone = (
  page: Page,
  keysBefore: readonly string[],
  { key, sec }: { readonly key: string; readonly sec: number },
): Promise<void> =>
  page.evaluate(
    async ([first, last, afterSec]) => {
      const soon = () => new Promise((resolve) => setTimeout(resolve));
      const press = async (which: string) => {
        document.body.dispatchEvent(new KeyboardEvent('keydown', { key: which, bubbles: true }));
        await soon();
      };
      while (!document.querySelector('.where')) await soon();
      for (const each of first) await press(each);
      const dueMs = window.clock.microphoneAtMs + 1000 * afterSec;
      if (performance.now() > dueMs) throw new Error(`${performance.now() - dueMs} ms too late to press`);
      while (performance.now() < dueMs) await soon();
      await press(last);
    },
    [keysBefore, key, sec] as const,
  );

/** Tells a page the moment it begins at. */
const COOKIE = 'moment-of-the-test';

/** Runs in the page, before anything of the app. */
function haveClock({ cookie, clickProcessor }: { readonly cookie: string; readonly clickProcessor: string }): void {
  let movedSec = 0;
  const startMs = Number(new RegExp(`${cookie}=(\\d+)`).exec(document.cookie)?.[1]);
  if (!startMs) return;
  const realNow = performance.now.bind(performance);
  const beganMs = realNow();
  const wallMs = () => Math.round(startMs + realNow() - beganMs + 1000 * movedSec);
  const RealDate = Date;
  window.Date = class extends RealDate {
    constructor(...given: [] | [number | string]) {
      super(...((given.length === 0 ? [wallMs()] : given) as [number]));
    }
    static override now = wallMs;
  } as DateConstructor;
  performance.now = () => realNow() + 1000 * movedSec;

  const soundSec = Object.getOwnPropertyDescriptor(BaseAudioContext.prototype, 'currentTime')!.get!;
  Object.defineProperty(AudioContext.prototype, 'currentTime', {
    get(this: AudioContext) {
      return (soundSec.call(this) as number) + movedSec;
    },
  });
  AudioContext.prototype.getOutputTimestamp = function () {
    return { contextTime: this.currentTime, performanceTime: performance.now() };
  };

  const repeated = new Map<number, () => void>();
  const [setReal, clearReal] = [window.setInterval.bind(window), window.clearInterval.bind(window)] as [typeof setInterval, typeof clearInterval];
  window.setInterval = ((work: () => void, ms: number) => {
    const id = setReal(work, ms) as unknown as number;
    repeated.set(id, work);
    return id;
  }) as typeof window.setInterval;
  window.clearInterval = (id) => {
    repeated.delete(id as number);
    clearReal(id as number);
  };
  const clicking = new Set<AudioWorkletNode>();
  const RealNode = window.AudioWorkletNode;
  window.AudioWorkletNode = class extends RealNode {
    constructor(context: BaseAudioContext, name: string, options?: AudioWorkletNodeOptions) {
      super(context, name, options);
      if (name === clickProcessor) clicking.add(this);
    }
  };
  const drawn = new Map<number, FrameRequestCallback>();
  const [drawReal, leaveReal] = [window.requestAnimationFrame.bind(window), window.cancelAnimationFrame.bind(window)];
  window.requestAnimationFrame = (draw) => {
    const id = drawReal((ms) => {
      drawn.delete(id);
      draw(ms + 1000 * movedSec);
    });
    drawn.set(id, draw);
    return id;
  };
  window.cancelAnimationFrame = (id) => {
    drawn.delete(id);
    leaveReal(id);
  };

  window.clock = {
    microphoneAtMs: 0,
    move(sec) {
      movedSec += sec;
      for (const work of [...repeated.values()]) work();
      // No click has sounded, but time went on.
      for (const { port } of clicking) port.onmessage?.(new MessageEvent('message', { data: [] }));
      for (const [id, draw] of [...drawn]) {
        window.cancelAnimationFrame(id);
        draw(performance.now());
      }
    },
  };
  const devices = navigator.mediaDevices;
  const open = devices?.getUserMedia.bind(devices);
  if (!open) return;
  devices.getUserMedia = async (asked) => {
    const stream = await open(asked);
    window.clock.microphoneAtMs = performance.now();
    return stream;
  };
}
