/** A Chromium of its own for tests that kill it: with a profile that outlives it, no goodbye said. */
import { type ChildProcess, spawn } from 'node:child_process';
import type { Readable, Writable } from 'node:stream';
import { type Browser, chromium } from '@playwright/test';
import { CHROMIUM_ARGUMENTS, chromiumPath } from '../../../playwright.config.ts';

const running = new Set<ChildProcess>();

/** For `test.afterEach`: a test that fails leaves no browser behind. */
export function killAll(): void {
  for (const child of running) process.kill(-child.pid!, 'SIGKILL');
}

export interface Killable {
  readonly browser: Browser;
  /** To it and from it, with `--remote-debugging-pipe` among its arguments. */
  readonly devtools: readonly [Writable, Readable];
  /** kill -9 of the browser and all its processes. Resolves once it is gone. */
  kill(): Promise<void>;
}

/** A browser that was killed does not always answer when it is started again; so often it is tried. */
const TRIES = 3;

/** @param profile folder of the browser's data. @param more arguments for it. */
export async function startChromium(profile: string, more: readonly string[] = []): Promise<Killable> {
  for (let tried = 1; ; tried++) {
    try {
      return await startOnce(profile, more);
    } catch (error) {
      killAll();
      if (tried === TRIES) throw error;
    }
  }
}

async function startOnce(profile: string, more: readonly string[]): Promise<Killable> {
  const child = spawn(
    chromiumPath(),
    [
      ...CHROMIUM_ARGUMENTS,
      '--headless=new',
      '--autoplay-policy=no-user-gesture-required',
      '--remote-debugging-port=0',
      `--user-data-dir=${profile}`,
      ...more,
    ],
    { detached: true, stdio: ['ignore', 'ignore', 'pipe', 'pipe', 'pipe'] },
  );
  running.add(child);
  child.once('exit', () => running.delete(child));
  const browser = await chromium.connectOverCDP(await addressOf(child), { timeout: 40_000 });
  return {
    browser,
    devtools: [child.stdio[3] as Writable, child.stdio[4] as Readable],
    kill: () =>
      new Promise((resolve) => {
        child.once('exit', () => resolve());
        // The whole group: Chromium's processes for storage and pages are children.
        process.kill(-child.pid!, 'SIGKILL');
      }),
  };
}

/** Chromium says on standard error where it can be reached. */
function addressOf(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = '';
    child.stderr!.on('data', (bytes) => {
      said += String(bytes);
      const address = /DevTools listening on (ws:\S+)/.exec(said)?.[1];
      if (address) resolve(address);
    });
    child.once('exit', () => reject(new Error(`Chromium ended: ${said}`)));
  });
}
