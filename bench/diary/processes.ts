/** What a work takes of Chromium's processes: memory and processor time, those of pages and all others. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';

/** Memory of Chromium's processes of a profile, MB: those of pages with their Workers, and all others, which hold the database and the files. */
export interface Memory {
  readonly pages: number;
  readonly others: number;
}

function memoryMb(profile: string): Memory {
  const own = processesOf(profile);
  const sum = (some: typeof own) => some.reduce((total, { rssKb }) => total + rssKb, 0) / 1024;
  return { pages: sum(own.filter(({ isPage }) => isPage)), others: sum(own.filter(({ isPage }) => !isPage)) };
}

function processesOf(profile: string): readonly { readonly pid: number; readonly rssKb: number; readonly isPage: boolean }[] {
  const { stdout } = spawnSync('ps', ['-eo', 'pid,rss,args'], { encoding: 'utf8', maxBuffer: 1 << 26 });
  const lines = stdout.split('\n').filter((line) => line.includes(profile));
  return lines.map((line) => {
    const [pid, rssKb] = line.trim().split(/\s+/).map(Number) as [number, number];
    return { pid, rssKb, isPage: line.includes('--type=renderer') };
  });
}

/** Ticks of a processor a second, as Linux counts them for every program. */
const TICKS = 100;

/** A browser that rests takes less than this in a second. Assumption. */
const RESTING_SEC = 0.1;

/** Processor seconds that Chromium's processes of a profile have taken so far; those that are over are not among them. */
export const processorSec = (profile: string): number =>
  processesOf(profile).reduce((sum, { pid }) => {
    try {
      const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1]!.split(' ');
      return sum + (Number(fields[11]) + Number(fields[12])) / TICKS;
    } catch {
      return sum;
    }
  }, 0);

/** What a long work took. */
export interface Took {
  readonly processorSec: number;
  /** Memory before, at most meanwhile, and afterwards; before and afterwards what is garbage was collected. */
  readonly memory: Readonly<Record<keyof Memory, readonly [before: number, most: number, after: number]>>;
}

/** Watches memory and processor while something is done with a page. */
export async function watch(page: Page, profile: string): Promise<() => Promise<Took>> {
  await collectGarbage(page);
  const before = memoryMb(profile);
  const beforeSec = processorSec(profile);
  const most = { ...before };
  const look = () => {
    const now = memoryMb(profile);
    most.pages = Math.max(most.pages, now.pages);
    most.others = Math.max(most.others, now.others);
    return now;
  };
  const timer = setInterval(look, 250);
  return async () => {
    clearInterval(timer);
    look();
    const tookSec = processorSec(profile) - beforeSec;
    await collectGarbage(page);
    const after = memoryMb(profile);
    const of = (name: keyof Memory) => [before[name], most[name], after[name]] as const;
    return { processorSec: tookSec, memory: { pages: of('pages'), others: of('others') } };
  };
}

/** What is worked out at rest after opening is no part of what is measured. */
export async function rested(profile: string): Promise<void> {
  for (let before = processorSec(profile); ; ) {
    await new Promise((resolve) => setTimeout(resolve, 1000));
    const now = processorSec(profile);
    if (now - before < RESTING_SEC) return;
    before = now;
  }
}

async function collectGarbage(page: Page): Promise<void> {
  const browser = await page.context().newCDPSession(page);
  await browser.send('HeapProfiler.enable');
  for (let k = 0; k < 2; k++) await browser.send('HeapProfiler.collectGarbage');
  await browser.detach();
}

export const saidOf = ({ processorSec: sec, memory: { pages, others } }: Took): string => {
  const mb = ([before, most, after]: readonly number[]) => `${before!.toFixed(0)} → at most ${most!.toFixed(0)} → ${after!.toFixed(0)} MB`;
  return `${sec.toFixed(1)} s of processor time; memory of the pages ${mb(pages)}, of all other processes ${mb(others)}`;
};
