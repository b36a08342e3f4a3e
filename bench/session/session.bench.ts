/** Bench: what a running session with microphone, click and engraving takes of a core and of memory, and how late the frame is. Writes bench/session/results.md. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { ownExercise, readContent } from '@evenhand/core/exercise';
import { readSticking } from '@evenhand/core/sticking';
import { type CDPSession, expect, type Page, test } from '@playwright/test';
import { framedIn, latenessMs, watchFrames } from '../../web/e2e/frames.ts';
import { killAll, startChromium } from '../../web/e2e/machine/chromium.ts';
import { plannedBefore, plannedPart } from '../../web/e2e/planned.ts';
import { plantedFile, repeatedMicrophone } from '../../web/e2e/planted.ts';
import { type AppServer, serveApp } from '../app/server.ts';
import { type Memory, memoryOf } from './memory.ts';
import type { Proved } from './proof.ts';

/** Minutes that are measured; `npm run prove session` takes sixty, `npm run prove frame` fifteen. */
const MINUTES = Number(process.env.EVENHAND_MINUTES ?? 10);
/** What must hold; the bench alone proves memory. */
const PROVED = (process.env.EVENHAND_PROVED ?? 'memory') as Proved;
const BLOCK_MINUTES = 3;
const TEMPO_BPM = 96;
/** issue 8: under a quarter of one core. */
const CORE_SHARE = 0.25;
/** Growth that counts as flat, MB an hour, by the middle of the last samples against the first. Assumption: a tenth of what the page holds. */
const FLAT_MB_PER_HOUR = 10;
/** issue 8: the frame within 20 ms of the audio clock. One move in a hundred may fall on a picture that the machine dropped. Assumption. */
const FRAME = { withinMs: 20, share: 0.99 };
/** No drift: the middle of the last tenth against the first. Assumption: ten times what an output time stamp wobbles, a sixteenth of a picture. */
const DRIFT_MS = 1;

let app: AppServer;
test.beforeAll(async () => {
  app = await serveApp(join(import.meta.dirname, '../../web/dist'));
});
test.afterAll(() => {
  app.close();
  killAll();
});

interface Sample {
  readonly minute: number;
  readonly cpuSec: number;
  readonly heapMb: number;
  /** By kind of process, as the system counts it. */
  readonly memory: ReadonlyMap<string, Memory>;
}

/** Played over and over: somebody plays all the time, only not in time with the click, which costs the ear no less. */
const PLAYED = plantedFile('bench-session.wav', { sticking: 'RLRLKK', perBeat: 4, tempoBpm: 96, cycles: 40, faults: [] });

test('a running session', async () => {
  test.setTimeout((MINUTES + 3) * 60_000);
  // With a profile on the disk, as a drummer has it: a page of Playwright's own keeps its whole database in memory, 10 MB of it a minute.
  const profile = mkdtempSync(join(tmpdir(), 'evenhand-session-'));
  const { browser, kill } = await startChromium(profile, repeatedMicrophone(PLAYED));
  const page = await browser.contexts()[0]!.newPage();
  const exercise = ownExercise(readContent(readSticking('RLRLKK').value!, { perBeat: 4 }).value!, 'The phrase');
  const blocks = Array.from({ length: Math.ceil(MINUTES / BLOCK_MINUTES) + 1 }, () =>
    plannedPart(exercise, 'reference', { minutes: BLOCK_MINUTES, tempoBpm: TEMPO_BPM }),
  );
  await watchFrames(page);
  await plannedBefore(page, exercise, { blocks, tempoBpm: TEMPO_BPM, startBy: 'touch', address: app.address });
  await page.goto(`${app.address}#session`);
  await page.reload();
  await expect(page.getByRole('button', { name: 'Start', exact: true })).toBeEnabled();
  await page.keyboard.press('PageDown');
  await expect(page.locator('svg.frame rect')).toBeVisible({ timeout: 20_000 });

  const system = await browser.newBrowserCDPSession();
  const heap = await page.context().newCDPSession(page);
  const samples: Sample[] = [];
  for (let minute = 0; minute <= MINUTES; minute++) {
    if (minute > 0) await page.waitForTimeout(60_000);
    samples.push(await sampled(minute, system, heap));
    // Beside what the proof reads.
    console.error(`minute ${minute}: ${toldOf(samples.at(-1)!)}`);
  }
  const frame = await frameOf(page);
  const version = browser.version();
  await kill();
  rmSync(profile, { recursive: true, force: true });
  const text = [...heading(version), ...figures(samples), ...frameRows(frame)].join('\n');
  writeFileSync(join(import.meta.dirname, 'results.md'), `${text}\n`);
  console.log(text);
  if (PROVED === 'frame') {
    expect(frame.share).toBeGreaterThanOrEqual(FRAME.share);
    expect(Math.abs(frame.driftMs)).toBeLessThanOrEqual(DRIFT_MS);
    return;
  }
  expect(shareOf(samples)).toBeLessThan(CORE_SHARE);
  expect(growthMbPerHour(samples)).toBeLessThan(FLAT_MB_PER_HOUR);
});

/** All processes of the browser: page, Worker, audio, storage, drawing. */
async function sampled(minute: number, system: CDPSession, heap: CDPSession): Promise<Sample> {
  await heap.send('HeapProfiler.collectGarbage');
  const { usedSize } = await heap.send('Runtime.getHeapUsage');
  const { processInfo } = await system.send('SystemInfo.getProcessInfo');
  return {
    minute,
    cpuSec: processInfo.reduce((sum, { cpuTime }) => sum + cpuTime, 0),
    heapMb: usedSize / 1e6,
    memory: memoryOf(processInfo.map(({ id }) => id)),
  };
}

const toldOf = ({ heapMb, memory }: Sample): string =>
  [`heap ${heapMb.toFixed(2)} MB`, ...[...memory].map(([kind, { ownMb }]) => `${kind} ${ownMb.toFixed(0)} MB`)].join(', ');

const shareOf = (samples: readonly Sample[]): number => (samples.at(-1)!.cpuSec - samples[0]!.cpuSec) / (60 * samples.at(-1)!.minute);

/** Over all samples but the first two, while the page still warms up: the slope of the heap after collecting. */
function growthMbPerHour(samples: readonly Sample[]): number {
  const warm = samples.slice(2);
  const mean = (of: (sample: Sample) => number) => warm.reduce((sum, sample) => sum + of(sample), 0) / warm.length;
  const [minute, mb] = [mean((sample) => sample.minute), mean(({ heapMb }) => heapMb)];
  const over = warm.reduce((sum, sample) => sum + (sample.minute - minute) ** 2, 0);
  return over === 0 ? 0 : (60 * warm.reduce((sum, sample) => sum + (sample.minute - minute) * (sample.heapMb - mb), 0)) / over;
}

const heading = (version: string): readonly string[] => [
  '# A running session',
  '',
  `\`npm run bench:session\`, ${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model.trim()}, ${cpus().length} cores, load ${loadavg()[0]!.toFixed(1)} beside it, Chromium ${version} headless, drawing in software.`,
  `Blocks of ${BLOCK_MINUTES} minutes of RLRLKK in sixteenths at ${TEMPO_BPM}, microphone open and played into all the time, click, engraving with the present stroke framed, the take stored. ${MINUTES} minutes.`,
  '',
];

function figures(samples: readonly Sample[]): readonly string[] {
  const middle = samples[Math.floor(samples.length / 2)]!;
  const [first, last] = [samples[2] ?? samples[0]!, samples.at(-1)!];
  return [
    '| figure | value | wanted |',
    '| --- | --- | --- |',
    `| share of one core, all processes of the browser | ${(100 * shareOf(samples)).toFixed(1)} % | under ${100 * CORE_SHARE} % |`,
    `| heap of the page after collecting, minute ${first.minute}, ${middle.minute}, ${last.minute} | ${[first, middle, last].map(({ heapMb }) => heapMb.toFixed(1)).join(', ')} MB | flat |`,
    `| slope of it | ${growthMbPerHour(samples).toFixed(1)} MB an hour | under ${FLAT_MB_PER_HOUR} |`,
    ...[...last.memory.keys()].sort().map((kind) => memoryRow(kind, [first, middle, last])),
  ];
}

/** Memory of its own first, for what processes share is counted in each of them. */
function memoryRow(kind: string, samples: readonly Sample[]): string {
  const mb = (of: keyof Memory) => samples.map(({ memory }) => memory.get(kind)?.[of].toFixed(0) ?? 'none').join(', ');
  const minutes = samples.map(({ minute }) => minute).join(', ');
  return `| memory of the process “${kind}”, minute ${minutes} | ${mb('ownMb')} MB of its own, ${mb('residentMb')} MB resident | told |`;
}

interface FrameFigures {
  readonly count: number;
  readonly middleMs: number;
  /** Of all moves, those within the limit. */
  readonly share: number;
  readonly driftMs: number;
}

/** How late the frame moves, at the beginning and at the end. */
async function frameOf(page: Page): Promise<FrameFigures> {
  const late = latenessMs(await framedIn(page), 4);
  const middle = (values: readonly number[]) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
  const part = Math.max(1, Math.floor(late.length / 10));
  return {
    count: late.length,
    middleMs: middle(late),
    share: late.filter((ms) => Math.abs(ms) <= FRAME.withinMs).length / late.length,
    driftMs: middle(late.slice(-part)) - middle(late.slice(0, part)),
  };
}

const frameRows = ({ count, middleMs, share, driftMs }: FrameFigures): readonly string[] => [
  `| frame moves within ${FRAME.withinMs} ms of the audio clock | ${(100 * share).toFixed(1)} % of ${count}; middle ${middleMs.toFixed(1)} ms | ${100 * FRAME.share} % at 60 pictures a second |`,
  `| drift from the first tenth to the last | ${driftMs.toFixed(1)} ms | none (under ${DRIFT_MS}) |`,
];
