/** Bench: what the first visit fetches, and how soon the screens answer. Writes bench/app/results.md. */
import { writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { join } from 'node:path';
import { type Browser, expect, test } from '@playwright/test';
import { type Fetched, FIRST_LOAD_KB, firstLoad, sumKb } from '../../web/e2e/firstload.ts';
import { plantedFile } from '../../web/e2e/planted.ts';
import { arrive, typePhrase } from '../../web/e2e/way.ts';
import { type Times, walkOnce } from './interactions.ts';
import { type AppServer, serveApp } from './server.ts';
import { openTiming } from './stopwatch.ts';

/** Walks; the variable is for a quick look. */
const RUNS = Number(process.env.EVENHAND_RUNS ?? 12);
/** How soon a screen must answer. */
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
  test.setTimeout(900_000);
  const first = await loads(browser);
  const times = await answers(browser);
  const text = [...heading(browser.version()), ...loadLines(first), ...answerLines(times)].join('\n');
  writeFileSync(join(import.meta.dirname, 'results.md'), `${text}\n`);
  console.log(text);
  expect(sumKb(first.page)).toBeLessThan(FIRST_LOAD_KB);
});

interface Loads {
  /** What the page itself asked for, from the address to a phrase that is typed. */
  readonly page: readonly Fetched[];
  /** What it asked for further until the first sheet was drawn: the ear for a recording, the engraver for the sheet. */
  readonly later: readonly Fetched[];
  /** What the service worker fetched behind a page that already stood. */
  readonly kept: readonly Fetched[];
}

/** Three first visits by strangers: to a typed phrase and to the first sheet without a service worker, and one that it fetches everything behind. */
async function loads(browser: Browser): Promise<Loads> {
  const page = await firstLoad(browser, app.address);
  app.take();
  const alone = await browser.newContext({ serviceWorkers: 'block' });
  const visitor = await alone.newPage();
  await arrive(visitor, app.address);
  await typePhrase(visitor, 'RLRLKK');
  await visitor.locator('input[type=file]').setInputFiles(RECORDING);
  await visitor.getByRole('button', { name: 'Lay out exercises' }).click();
  await expect(visitor.locator('article svg').first()).toBeVisible();
  const later = without(app.take(), page);
  await alone.close();
  const usual = await browser.newContext();
  const second = await usual.newPage();
  await second.goto(app.address, { waitUntil: 'networkidle' });
  await second.evaluate(async () => void (await navigator.serviceWorker.ready));
  const kept = without(app.take(), page);
  await usual.close();
  return { page, later, kept };
}

/** What was fetched besides: each file of `known` once less. */
function without(all: readonly Fetched[], known: readonly Fetched[]): readonly Fetched[] {
  const left = [...all];
  for (const { path } of known) {
    const at = left.findIndex((fetched) => fetched.path === path);
    if (at >= 0) left.splice(at, 1);
  }
  return left;
}

/** Every walk is a new drummer's, for a session that was started is not there to be started again. */
async function answers(browser: Browser): Promise<Times> {
  const times: Times = new Map();
  for (let run = 0; run < RUNS; run++) {
    const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, permissions: ['microphone'] });
    const page = await context.newPage();
    // The demo is made and the app kept before: no interaction is timed while either is going on.
    await page.goto(`${app.address}?demo=read`);
    await expect(page.getByRole('heading', { level: 1 })).toHaveText('Today’s session', { timeout: 60_000 });
    await page.evaluate(async () => void (await navigator.serviceWorker.ready));
    await walkOnce(await openTiming(page), app.address, times);
    await context.close();
  }
  return times;
}

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

function loadLines({ page, later, kept }: Loads): string[] {
  return [
    '## First load',
    '',
    `Bytes of the bodies that a browser which was never here fetches, packed with gzip as a static host packs them. Allowed: under 200 kB before the engraver; held in \`npm test\` (\`web/e2e/doors.spec.ts\`): under ${FIRST_LOAD_KB}.`,
    '',
    '| what | files | kB |',
    '| --- | --- | --- |',
    `| the page, until a phrase is typed | ${page.length} | ${sumKb(page).toFixed(1)} |`,
    `| from there to the first sheet: the whole desk and the ear, when a recording is opened, and the engraver | ${later.length} | ${sumKb(later).toFixed(1)} |`,
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
    `The demo's diary (eleven sessions), ${RUNS} walks, each of a new visitor, the app opened anew; real input. *Next paint*: from the moment the input event was made to the task after the next painted frame. *Shown*: to the frame in which what was asked for stands (first sheet, plot, "Get ready"). *Event Timing*: the browser's own figure, in steps of 8 ms, worst. *Thread*: processor time of the page's thread until shown, which a busy machine swells little. Limit: next paint under ${ANSWER_MS} ms.`,
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
