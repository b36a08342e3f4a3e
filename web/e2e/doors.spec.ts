import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { expect, test } from '@playwright/test';
import { preview } from 'vite';
import { FIRST_LOAD_KB, firstLoad, sumKb } from './firstload.ts';
import { silentFile } from './planted.ts';
import { arrive, openFile, toSession, typePhrase } from './way.ts';

/** A name that is not this machine's own, so that the page is no secure context. */
const RULE = '--host-resolver-rules=MAP desk.example 127.0.0.1';

test.use({ launchOptions: async ({ launchOptions }, use) => use({ ...launchOptions, args: [...(launchOptions.args ?? []), RULE] }) });

test('a typo in a sticking is pointed at, and one key mends it', async ({ page }) => {
  await arrive(page);
  await typePhrase(page, 'RLVKK');
  await expect(page.locator('#sticking-problem')).toContainText('V is not part of a sticking');
  await expect(page.locator('.caret')).toHaveText(/^ {2}\^$/, { useInnerText: false });
  await expect(page.getByRole('button', { name: 'Record', exact: true })).toBeDisabled();
  await typePhrase(page, 'RllR');
  await page.getByLabel('Sticking, one cycle').press('Enter');
  await expect(page.getByLabel('Sticking, one cycle')).toHaveValue('>RLL>R');
  await expect(page.getByRole('button', { name: 'Record', exact: true })).toBeEnabled();
});

test('a text file called .wav is told apart from sound', async ({ page }) => {
  await arrive(page);
  await typePhrase(page, 'RLRLKK');
  await openFile(page, { name: 'notes.wav', bytes: Buffer.from('Set list for Friday: ballad first, then the shuffle.\n'.repeat(20)) });
  await expect(page.getByRole('alert')).toContainText('This is not a sound file; it looks like');
  await expect(page.getByRole('alert')).toContainText('WAV');
});

test('an empty file is told as empty', async ({ page }) => {
  await arrive(page);
  await typePhrase(page, 'RLRLKK');
  await openFile(page, { name: 'empty.wav', bytes: Buffer.alloc(0) });
  await expect(page.getByRole('alert')).toContainText(/no sound|not a sound file/);
});

test('a silent file says so and what to do', async ({ page }) => {
  await arrive(page);
  await typePhrase(page, 'RLRLKK');
  await openFile(page, { name: 'silent.wav', bytes: readFileSync(silentFile('doors-silence.wav')) });
  await expect(page.getByRole('alert')).toContainText('Nothing is heard in this take');
  await expect(page.getByLabel('Open a recording')).toBeEnabled();
});

test('without permission for the microphone: what to do, and on without a recording to a session by the click alone', async ({ page, context }) => {
  await context.clearPermissions();
  await arrive(page);
  await typePhrase(page, 'RLRLKK');
  await page.getByRole('button', { name: 'Record', exact: true }).click();
  await expect(page.getByRole('alert')).toContainText(/microphone/i);
  await page.getByRole('button', { name: 'Go on without a recording' }).click();
  await page.getByRole('combobox', { name: 'from stroke' }).selectOption('4');
  await page.getByRole('button', { name: 'Lay out exercises' }).click();
  await toSession(page, 0.1);
  await page.getByRole('checkbox', { name: /Listen/ }).uncheck();
  await page.getByRole('button', { name: 'Start', exact: true }).click();
  await expect(page.getByRole('heading', { name: 'Done for today' })).toBeVisible({ timeout: 40_000 });
  await page.getByRole('button', { name: 'To the diary' }).click();
  await expect(page.getByRole('region', { name: /^Today/ }).getByRole('listitem')).toHaveCount(3);
});

test('storage that is full is told, and the line that was typed stays on the screen', async ({ page }) => {
  await arrive(page);
  await page.getByRole('link', { name: 'Diary' }).click();
  await page.evaluate(() => {
    // What Chromium does when the disk is full: every write is refused with this error.
    const full = () => {
      throw new DOMException('no room', 'QuotaExceededError');
    };
    IDBObjectStore.prototype.add = full;
    IDBObjectStore.prototype.put = full;
  });
  await page.getByLabel('A line about today').fill('Left hand leads now.');
  await page.getByRole('button', { name: 'Save the line' }).click();
  await expect(page.getByRole('alert')).toContainText(/full|room/i);
  await expect(page.getByLabel('A line about today')).toHaveValue('Left hand leads now.');
});

test('no secure context: why recording is not possible here, and a file can still be opened', async ({ page }) => {
  const server = await preview({ root: resolve(import.meta.dirname, '..'), preview: { port: 0, host: '127.0.0.1', allowedHosts: true } });
  const port = new URL(server.resolvedUrls!.local[0]!).port;
  await arrive(page, `http://desk.example:${port}/`);
  expect(await page.evaluate(() => isSecureContext)).toBe(false);
  await typePhrase(page, 'RLRLKK');
  await page.getByRole('button', { name: 'Record', exact: true }).click();
  await expect(page.getByRole('alert')).toContainText(/https|secure/i);
  await expect(page.getByLabel('Open a recording')).toBeEnabled();
  await server.close();
});

test('says: issue 3, the first load: what a stranger fetches until a phrase is typed is light, and holds neither the ear nor a screen that comes later', async ({
  browser,
  baseURL,
}) => {
  const fetched = await firstLoad(browser, baseURL!);
  const listed = fetched.map(({ path, gzipBytes }) => `${path} ${gzipBytes}`).join('\n');
  expect(sumKb(fetched), listed).toBeLessThan(FIRST_LOAD_KB);
  expect(listed).not.toMatch(/ear\.worker|Shelf|Session|sheet/);
});

test('a screen that cannot be fetched says so, and comes when it is tried again with a network', async ({ browser, baseURL }) => {
  const context = await browser.newContext({ serviceWorkers: 'block', baseURL: baseURL! });
  const page = await context.newPage();
  await arrive(page);
  await typePhrase(page, 'RLRLKK');
  await context.setOffline(true);
  await page.getByRole('button', { name: 'Record', exact: true }).click();
  await expect(page.getByRole('alert')).toContainText('could not be fetched');
  await page.getByRole('link', { name: 'Diary' }).click();
  await expect(page.getByRole('alert')).toContainText('could not be fetched');
  await context.setOffline(false);
  await page.getByRole('button', { name: 'Try again' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Diary');
  await page.getByRole('link', { name: 'Phrase' }).click();
  await expect(page.getByLabel('Sticking, one cycle')).toHaveValue('RLRLKK');
  await expect(page.getByRole('button', { name: 'Record', exact: true })).toBeEnabled();
  await context.close();
});
