/** A Chromium of its own for tests that kill it: with a profile that outlives it, no goodbye said. */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { rmSync } from 'node:fs';
import { join } from 'node:path';
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

/** On a machine that does much else a browser does not always answer in time; so often it is tried. */
const TRIES = 3;

/** @param profile folder of the browser's data. @param more arguments for it. */
export async function startChromium(profile: string, more: readonly string[] = []): Promise<Killable> {
  for (let tried = 1; ; tried++) {
    try {
      return await startOnce(profile, more);
    } catch (error) {
      const groups = [...running].map(({ pid }) => pid!);
      killAll();
      await Promise.all(groups.map(untilGone));
      if (tried === TRIES) throw error;
    }
  }
}

/** What a browser that was killed leaves: with it the next one takes the profile for in use, where the number of its process was given again. */
const LEFT = ['SingletonLock', 'SingletonCookie', 'SingletonSocket'];

async function startOnce(profile: string, more: readonly string[]): Promise<Killable> {
  for (const name of LEFT) rmSync(join(profile, name), { force: true });
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
    async kill() {
      const isOver = new Promise((resolve) => child.once('exit', resolve));
      // The whole group: Chromium's processes for storage and pages are children.
      process.kill(-child.pid!, 'SIGKILL');
      await isOver;
      await untilGone(child.pid!);
    },
  };
}

/** So long is waited for the last process of a group that was killed: one that waits for a busy disk goes only when that has answered. Assumption. */
const GONE_MS = 10_000;

/** Until the last process of a group that was killed has let go of its files. */
async function untilGone(group: number): Promise<void> {
  for (const began = Date.now(); Date.now() - began < GONE_MS && holdsFiles(group); ) await new Promise((resolve) => setTimeout(resolve, 10));
}

/** Where nobody clears away what is over, it stays in the list for ever, without a file (`Z`; says: proc(5)). */
function holdsFiles(group: number): boolean {
  const { stdout } = spawnSync('ps', ['-eo', 'pgid=,stat='], { encoding: 'utf8' });
  return stdout.split('\n').some((line) => {
    const [pgid, state] = line.trim().split(/\s+/);
    return Number(pgid) === group && !state!.startsWith('Z');
  });
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
