/** The ear in its Worker while a real Chromium records: what share of a core it takes, and that a page blocked or out of sight loses nothing. */
import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium, expect, type Page, test } from '@playwright/test';
import { readSoundFile } from '../../adapters/src/sound-file/index.ts';
import { type Heard, hear } from '../../core/src/stroke/index.ts';
import { fileClock, joinSamples, writeWav } from '../../core/src/take/index.ts';
import { CHROMIUM_ARGUMENTS, chromiumPath } from '../../playwright.config.ts';
import { repeatedMicrophone } from '../../web/e2e/planted.ts';
import { threadSecs } from './threads.ts';

/** Chromium's fake microphone runs at this rate. */
const RATE_HZ = 44_100;
/** In sight long enough for the ear to let go of its full minute of memory, the costliest thing it does meanwhile. */
const RECORDED_SEC = { 'in sight': 120, 'page blocked 300 ms in every 500': 30, 'page frozen': 30, 'window put away': 30 } as const;
/** Only what is recorded counts, not the opening of the microphone nor the end. */
const SETTLED_SEC = 3;
const ENDING_SEC = 5;
const REFERENCE = join('..', 'shared', 'reference', 'takes');

/** Development takes one after the other: kick, snare, toms, noise, a room. */
async function writeMicrophone(): Promise<string> {
  const parts: Float32Array[] = [new Float32Array(2 * RATE_HZ).map((_, i) => (i % 2 ? 1e-4 : -1e-4))];
  for (const name of readdirSync(REFERENCE).filter((file) => /^D(01|02|06|07|09).*\.flac$/.test(file))) {
    const { value } = await readSoundFile(readFileSync(join(REFERENCE, name)));
    if (value?.clock.sampleRateHz === RATE_HZ) parts.push(value.samples);
  }
  const file = join(mkdtempSync(join(tmpdir(), 'evenhand-live-')), 'microphone.wav');
  writeFileSync(file, writeWav(joinSamples(parts), RATE_HZ, { bits: 16 }));
  return file;
}

type Situation = 'in sight' | 'page blocked 300 ms in every 500' | 'page frozen' | 'window put away';

/** Records in the page; the sound as it was stored, and what the Worker heard in it. */
function record() {
  return async ([sec, blocked]: readonly [number, boolean]) => {
    const ear = window.rig.startEar({ storeName: 'live' });
    const { value: engine, problems } = await window.rig.openEngine();
    if (!engine) throw new Error(problems[0]?.code);
    const takeId = window.rig.newId();
    const fromFrame = engine.nextFrame();
    ear.listenTo(engine);
    await ear.openTake({ ...window.rig.takeMeta(takeId, engine.sampleRateHz, fromFrame), wallMs0: engine.wallMsOf(fromFrame) });
    window.tell!('recording');
    let over = false;
    const closing = ear.closeTake({ takeId, toFrame: fromFrame + sec * engine.sampleRateHz, clicksSec: [] }).finally(() => (over = true));
    while (blocked && !over) {
      for (const until = performance.now() + 300; performance.now() < until; );
      await new Promise((resolve) => setTimeout(resolve, 200));
    }
    const heard = await closing;
    const stored = await (await window.rig.storeOf('live')).take(takeId);
    await engine.close();
    ear.close();
    const { strokes, candidates } = heard.value!;
    return {
      problems: heard.problems.map(({ code }) => code),
      rateHz: engine.sampleRateHz,
      heard: JSON.stringify({ strokes, candidates }),
      sound: window.rig.textOfSamples(stored.value!.samples),
    };
  };
}

interface Shares {
  readonly worker: number;
  readonly page: number;
  readonly worklet: number;
}

/** The threads of the page's process while it records. */
async function sharesOf(browser: Browser, measuredSec: number): Promise<Shares> {
  const { processInfo } = await (await browser.newBrowserCDPSession()).send('SystemInfo.getProcessInfo');
  const renderers = processInfo.filter(({ type }) => type === 'renderer').map(({ id }) => id);
  const now = () => renderers.map((id) => threadSecs(id));
  const before = now();
  const begun = performance.now();
  await new Promise((resolve) => setTimeout(resolve, 1000 * measuredSec));
  const lastedSec = (performance.now() - begun) / 1000;
  const after = now();
  const share = (isMeant: (name: string) => boolean): number => {
    const sum = (maps: readonly ReadonlyMap<string, number>[]) =>
      maps.flatMap((map) => [...map]).reduce((all, [name, secs]) => all + (isMeant(name) ? secs : 0), 0);
    return (sum(after) - sum(before)) / lastedSec;
  };
  return {
    worker: share((name) => name.startsWith('DedicatedWorker')),
    page: share((name) => name === 'chromium' || name === 'CrRendererMain'),
    worklet: share((name) => name.startsWith('AudioWorklet')),
  };
}

/** What is done to the page meanwhile, and how it is undone. */
async function happen(situation: Situation, page: Page): Promise<() => Promise<string>> {
  const session = await page.context().newCDPSession(page);
  if (situation === 'page frozen') {
    await session.send('Page.setWebLifecycleState', { state: 'frozen' });
    return async () => {
      await session.send('Page.setWebLifecycleState', { state: 'active' });
      return 'frozen by the browser’s own command';
    };
  }
  if (situation !== 'window put away') return async () => '';
  await session.send('Emulation.setFocusEmulationEnabled', { enabled: false });
  const { windowId } = await session.send('Browser.getWindowForTarget');
  await session.send('Browser.setWindowBounds', { windowId, bounds: { windowState: 'minimized' } });
  return async () => `its visibility: ${await page.evaluate(() => document.visibilityState)}`;
}

type Told = Pick<Heard, 'strokes' | 'candidates'>;

const timesAndVolumes = ({ strokes, candidates }: Told): string =>
  JSON.stringify([
    strokes.map(({ timeSec, levelDb, drum }) => [timeSec, levelDb, drum]),
    candidates.map(({ timeSec, volumeDb }) => [timeSec, volumeDb]),
  ]);

/** How far the strength of a candidate differs at most. */
const furthest = (a: Told, b: Told): number =>
  Math.max(...a.candidates.map(({ strength }, i) => Math.abs(strength - (b.candidates[i]?.strength ?? 0))));

const rows: string[] = [];
let microphone = '';
test.beforeAll(async () => {
  microphone = await writeMicrophone();
});

for (const situation of ['in sight', 'page blocked 300 ms in every 500', 'page frozen', 'window put away'] as const) {
  test(`${situation}: the Worker hears what Node hears, and nothing is lost`, async ({ baseURL }) => {
    const browser = await chromium.launch({ executablePath: chromiumPath(), args: [...CHROMIUM_ARGUMENTS, ...repeatedMicrophone(microphone)] });
    const context = await browser.newContext();
    const page = await context.newPage();
    let tell: () => void = () => {};
    const recording = new Promise<void>((resolve) => (tell = resolve));
    await page.exposeFunction('tell', () => tell());
    await page.goto(`${baseURL}e2e/machine/rig.html`);
    const recorded = page.evaluate(record(), [RECORDED_SEC[situation], situation.startsWith('page blocked')] as const);
    await recording;
    await new Promise((resolve) => setTimeout(resolve, 1000 * SETTLED_SEC));
    const undo = await happen(situation, page);
    const shares = await sharesOf(browser, RECORDED_SEC[situation] - SETTLED_SEC - ENDING_SEC);
    const said = await undo();
    const { problems, rateHz, heard, sound } = await recorded;
    await browser.close();
    const samples = new Float32Array(Uint8Array.from(Buffer.from(sound, 'base64')).buffer);
    const inNode = hear({ samples, clock: fileClock(rateHz) });
    const worker = JSON.parse(heard) as Told;
    const same = heard === JSON.stringify({ strokes: inNode.strokes, candidates: inNode.candidates });
    const sameTimes = timesAndVolumes(worker) === timesAndVolumes(inNode);
    const whole = samples.length === RECORDED_SEC[situation] * rateHz;
    const per = (share: number) => `${(100 * share).toFixed(1)} %`;
    rows.push(
      `| ${situation}${said ? ` (${said})` : ''} | ${per(shares.worker)} | ${per(shares.worklet)} | ${per(shares.page)} | ${inNode.strokes.length} | ${same ? 'yes' : `${sameTimes ? 'times and volumes' : '**no**'}; strengths within ${furthest(worker, inNode).toExponential(0)}`} | ${whole ? 'yes' : '**no**'} | ${problems.join(', ') || 'none'} |`,
    );
    expect([sameTimes, whole]).toEqual([true, true]);
    expect(inNode.strokes.length).toBeGreaterThan(100);
  });
}

test.afterAll(() => {
  const load = loadavg()[0]!.toFixed(0);
  const text = [
    '# The ear while it records',
    '',
    `${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model.trim()}, Node ${process.versions.node}, load ${load} on ${cpus().length} cores. Made by \`npm run bench:live\`: the system’s Chromium with its fake microphone plays five development takes. ${RECORDED_SEC['in sight']} s are recorded in sight, 30 s otherwise; the threads’ processor time is read from the system over all but the first ${SETTLED_SEC} and the last ${ENDING_SEC} s. What was stored is then heard in Node: strokes and candidates are compared as text.`,
    '',
    '| the page is | Worker, of one core | audio worklet | page | strokes | same as in Node | every sample there | problems told |',
    '| --- | --- | --- | --- | --- | --- | --- | --- |',
    ...rows,
  ].join('\n');
  console.log(text);
  writeFileSync('bench/live/results.md', `${text}\n`);
});
