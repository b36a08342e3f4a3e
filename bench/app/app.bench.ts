/** Bench: what the first visit fetches, and how soon the screens answer. Writes bench/app/results.md. */
import { writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { join } from 'node:path';
import { type Browser, expect, test } from '@playwright/test';
import { plantedFile } from '../../web/e2e/planted.ts';
import { type Times, walkOnce } from './interactions.ts';
import { type AppServer, type Fetched, serveApp } from './server.ts';
import { openTiming } from './stopwatch.ts';

/** Walks; the variable is for a quick look. */
const RUNS = Number(process.env.EVENHAND_RUNS ?? 12);
/** What the first load may weigh, and how soon a screen must answer. */
const FIRST_LOAD_KB = 200;
const ANSWER_MS = 100;

const RECORDING = plantedFile('bench-app.wav', {
  sticking: 'RLRLKK',
  perBeat: 4,
  tempoBpm: 96,
  cycles: 14,
  faults: [{ index: 5, earlyMs: 18, softDb: 6 }],
});

let app: AppServer;
test.beforeAll(async () => {
  app = await serveApp(join(import.meta.dirname, '../../web/dist'));
});
test.afterAll(() => app.close());

test('first load and answers of the built app', async ({ browser }) => {
  test.setTimeout(300_000);
  const first = await firstLoad(browser);
  const times = await answers(browser);
  const text = [...heading(browser.version()), ...loadLines(first), ...answerLines(times)].join('\n');
  writeFileSync(join(import.meta.dirname, 'results.md'), `${text}\n`);
  console.log(text);
  expect(sumKb(first.page)).toBeLessThan(FIRST_LOAD_KB);
});

interface FirstLoad {
  /** What the page itself asked for, from the address to a phrase that is typed. */
  readonly page: readonly Fetched[];
  /** What it asked for further until the first sheet was drawn: the ear for a recording, the engraver for the sheet. */
  readonly later: readonly Fetched[];
  /** What the service worker fetched behind a page that already stood. */
  readonly kept: readonly Fetched[];
}

/** Two first visits by strangers: one without a service worker, so that what is left is the page's; one with it. */
async function firstLoad(browser: Browser): Promise<FirstLoad> {
  const alone = await browser.newContext({ serviceWorkers: 'block' });
  const visitor = await alone.newPage();
  app.take();
  await visitor.goto(app.address, { waitUntil: 'networkidle' });
  await expect(visitor.getByRole('heading', { level: 1 })).toBeVisible();
  await visitor.getByRole('button', { name: 'Type your phrase' }).click();
  await visitor.getByLabel('Sticking, one cycle').fill('RLRLKK');
  await visitor.waitForLoadState('networkidle');
  const page = app.take();
  await visitor.locator('input[type=file]').setInputFiles(RECORDING);
  await visitor.getByRole('button', { name: 'Lay out exercises' }).click();
  await expect(visitor.locator('article svg').first()).toBeVisible();
  const later = app.take();
  await alone.close();
  const usual = await browser.newContext();
  const second = await usual.newPage();
  await second.goto(app.address, { waitUntil: 'networkidle' });
  await second.evaluate(async () => void (await navigator.serviceWorker.ready));
  const all = [...app.take()];
  await usual.close();
  for (const { path } of page)
    all.splice(
      all.findIndex((fetched) => fetched.path === path),
      1,
    );
  return { page, later, kept: all };
}

async function answers(browser: Browser): Promise<Times> {
  const times: Times = new Map();
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, permissions: ['microphone'] });
  const page = await context.newPage();
  // The demo is made and the app kept once before: no interaction is timed while either is going on.
  await page.goto(`${app.address}?demo=read`);
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Today’s session', { timeout: 60_000 });
  await page.evaluate(async () => void (await navigator.serviceWorker.ready));
  const timing = await openTiming(page);
  for (let run = 0; run < RUNS; run++) await walkOnce(timing, app.address, times);
  await context.close();
  return times;
}

const sumKb = (files: readonly Fetched[]): number => files.reduce((sum, { gzipBytes }) => sum + gzipBytes, 0) / 1000;

const listed = (files: readonly Fetched[]): string =>
  [...files]
    .sort((a, b) => b.gzipBytes - a.gzipBytes)
    .map(({ path, gzipBytes }) => `${path} ${(gzipBytes / 1000).toFixed(1)}`)
    .join(', ');

const heading = (version: string): string[] => [
  '# First load and answers of the app',
  '',
  `\`npm run bench:app\`, ${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model ?? 'unknown processor'} (${cpus().length} cores), headless Chromium ${version}, Node ${process.versions.node}. The machine was shared while this ran: load ${loadavg()[0]!.toFixed(1)}.`,
  '',
];

function loadLines({ page, later, kept }: FirstLoad): string[] {
  return [
    '## First load',
    '',
    `Bytes of the bodies that a browser which was never here fetches, packed with gzip as a static host packs them. Limit: under ${FIRST_LOAD_KB} kB before the engraver.`,
    '',
    '| what | files | kB |',
    '| --- | --- | --- |',
    `| the page, until a phrase is typed | ${page.length} | ${sumKb(page).toFixed(1)} |`,
    `| from there to the first sheet: the ear, when a recording is opened, and the engraver | ${later.length} | ${sumKb(later).toFixed(1)} |`,
    `| kept for later by the service worker, behind the page (all files once, so that the app opens without a network) | ${kept.length} | ${sumKb(kept).toFixed(1)} |`,
    '',
    `The page's files, kB: ${listed(page)}.`,
    '',
    `Those after them: ${listed(later)}.`,
    '',
  ];
}

function answerLines(times: Times): string[] {
  return [
    '## Answers',
    '',
    `The demo's diary (eleven sessions), ${RUNS} walks, the app opened anew for each; real input. *Next paint*: from the moment the input event was made to the task after the next painted frame. *Shown*: to the frame in which what was asked for stands (first sheet, plot, "Get ready"). *Event Timing*: the browser's own figure, in steps of 8 ms, worst. *Thread*: processor time of the page's thread until shown, which a busy machine swells little. Limit: next paint under ${ANSWER_MS} ms.`,
    '',
    '| interaction | times | next paint, median / worst, ms | shown, median / worst, ms | Event Timing, worst, ms | thread, median / worst, ms |',
    '| --- | --- | --- | --- | --- | --- |',
    ...[...times].map(([name, timed]) => {
      const row = [spread(timed.map(({ paintMs }) => paintMs)), spread(timed.map(({ shownMs }) => shownMs))];
      return `| ${name} | ${timed.length} | ${row.join(' | ')} | ${Math.max(...timed.map(({ eventMs }) => eventMs))} | ${spread(timed.map(({ threadMs }) => threadMs))} |`;
    }),
    '',
  ];
}

function spread(values: readonly number[]): string {
  const ordered = [...values].sort((a, b) => a - b);
  const middle = (ordered[Math.floor((ordered.length - 1) / 2)]! + ordered[Math.ceil((ordered.length - 1) / 2)]!) / 2;
  return `${middle.toFixed(0)} / ${ordered.at(-1)!.toFixed(0)}`;
}
