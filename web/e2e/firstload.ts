/** What a browser that was never here fetches until a phrase is typed. */
import { gzipSync } from 'node:zlib';
import { type Browser, expect, type Response } from '@playwright/test';
import { arrive, typePhrase } from './way.ts';

/** One answer: the file, and its body as a static host packs it. */
export interface Fetched {
  readonly path: string;
  readonly gzipBytes: number;
}

/**
 * What all that may weigh, in kB of gzip. Assumption: half as much again as it was when it was set (59, November 2026), well under the 200 that are
 * allowed at most; whatever is not needed for typing a phrase is fetched when it is used.
 */
export const FIRST_LOAD_KB = 90;

/** Without the service worker, which fetches everything behind a page that stands already. */
export async function firstLoad(browser: Browser, address: string): Promise<readonly Fetched[]> {
  const context = await browser.newContext({ serviceWorkers: 'block' });
  const page = await context.newPage();
  const answers: Response[] = [];
  page.on('response', (answer) => answers.push(answer));
  await arrive(page, address);
  await typePhrase(page, 'RLRLKK');
  await expect(page.getByRole('button', { name: 'Record', exact: true })).toBeEnabled();
  await page.waitForLoadState('networkidle');
  const fetched = await Promise.all(
    answers.map(async (answer) => ({ path: new URL(answer.url()).pathname, gzipBytes: gzipSync(await answer.body()).length })),
  );
  await context.close();
  return fetched;
}

/** In kB of a thousand bytes. */
export const sumKb = (files: readonly Fetched[]): number => files.reduce((sum, { gzipBytes }) => sum + gzipBytes, 0) / 1000;
