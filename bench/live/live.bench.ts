/** The ear in its Worker while a real Chromium records: what share of a core it takes, and that a page blocked or frozen loses nothing. Out of sight: `hidden.bench.ts`. */
import { writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { type Browser, chromium, expect, type Page, test } from '@playwright/test';
import { CHROMIUM_ARGUMENTS, chromiumPath } from '../../playwright.config.ts';
import { repeatedMicrophone } from '../../web/e2e/planted.ts';
import { againstNode, record, writeMicrophone } from './recorded.ts';
import { threadSecs } from './threads.ts';

/** In sight long enough for the ear to let go of its full minute of memory, the costliest thing it does meanwhile. */
const RECORDED_SEC = { 'in sight': 120, 'page blocked 300 ms in every 500': 30, 'page frozen': 30 } as const;
/** Only what is recorded counts, not the opening of the microphone nor the end. */
const SETTLED_SEC = 3;
const ENDING_SEC = 5;

type Situation = keyof typeof RECORDED_SEC;

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
  if (situation !== 'page frozen') return async () => '';
  const session = await page.context().newCDPSession(page);
  await session.send('Page.setWebLifecycleState', { state: 'frozen' });
  return async () => {
    await session.send('Page.setWebLifecycleState', { state: 'active' });
    return 'frozen by the browser’s own command';
  };
}

const rows: string[] = [];
let microphone = '';
test.beforeAll(async () => {
  microphone = await writeMicrophone();
});

for (const situation of Object.keys(RECORDED_SEC) as Situation[]) {
  test(`${situation}: the Worker hears what Node hears, and nothing is lost`, async ({ baseURL }) => {
    const browser = await chromium.launch({ executablePath: chromiumPath(), args: [...CHROMIUM_ARGUMENTS, ...repeatedMicrophone(microphone)] });
    const context = await browser.newContext();
    const page = await context.newPage();
    let tell: () => void = () => {};
    const recording = new Promise<void>((resolve) => (tell = resolve));
    await page.exposeFunction('tell', () => tell());
    await page.goto(`${baseURL}e2e/machine/rig.html`);
    const recorded = page.evaluate(record, [RECORDED_SEC[situation], situation.startsWith('page blocked')] as const);
    await recording;
    await new Promise((resolve) => setTimeout(resolve, 1000 * SETTLED_SEC));
    const undo = await happen(situation, page);
    const shares = await sharesOf(browser, RECORDED_SEC[situation] - SETTLED_SEC - ENDING_SEC);
    const said = await undo();
    const take = await recorded;
    await browser.close();
    const { strokeCount, same, sameTimes, furthest, whole } = againstNode(take, RECORDED_SEC[situation]);
    const per = (share: number) => `${(100 * share).toFixed(1)} %`;
    rows.push(
      `| ${situation}${said ? ` (${said})` : ''} | ${per(shares.worker)} | ${per(shares.worklet)} | ${per(shares.page)} | ${strokeCount} | ${same ? 'yes' : `${sameTimes ? 'times and volumes' : '**no**'}; strengths within ${furthest.toExponential(0)}`} | ${whole ? 'yes' : '**no**'} | ${take.problems.join(', ') || 'none'} |`,
    );
    expect([sameTimes, whole]).toEqual([true, true]);
    expect(strokeCount).toBeGreaterThan(100);
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
