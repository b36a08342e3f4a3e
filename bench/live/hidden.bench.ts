/** Bench: a page that is out of sight for real, for minutes: its click, its ear and a whole session; and the screen when it comes back. */
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { BlockBody, DiaryRecord, TakeBody } from '@evenhand/core/diary';
import { ownExercise, readContent } from '@evenhand/core/exercise';
import { clicksOf } from '@evenhand/core/session';
import { readSticking } from '@evenhand/core/sticking';
import { expect, test } from '@playwright/test';
import { databaseOf } from '../../web/e2e/database.ts';
import { seatDrummer } from '../../web/e2e/drummer.ts';
import { type Framed, overdue, watchFrames } from '../../web/e2e/frames.ts';
import { killAll } from '../../web/e2e/machine/chromium.ts';
import { type LoosePage, startHideable } from '../../web/e2e/machine/hideable.ts';
import { clicksOutOfSight } from '../../web/e2e/machine/outofsight.ts';
import { plannedBefore, plannedPart } from '../../web/e2e/planned.ts';
import { microphoneOf, repeatedMicrophone, silentFile } from '../../web/e2e/planted.ts';
import { clickOf } from '../../web/src/app/recording.ts';
import { type AppServer, serveApp } from '../app/server.ts';
import { againstNode, record, writeMicrophone } from './recorded.ts';
import { hiddenSec, watchSight, writeSight } from './sight.ts';

/** How long it is out of sight. */
const AWAY_SEC = Number(process.env.EVENHAND_AWAY_SEC ?? 120);
/** In sight before it and after it. */
const IN_SIGHT_SEC = 2;
const TEMPO_BPM = 211;
const profile = () => mkdtempSync(join(tmpdir(), 'evenhand-hidden-'));

const later = (sec: number) => new Promise<void>((resolve) => setTimeout(resolve, 1000 * sec));
const rows: string[] = [];

/** Out of sight for so long, with all that it says of that in the end. */
async function awayAndBack(
  page: LoosePage,
): Promise<{ readonly sec: number; readonly told: string; readonly lock: readonly string[]; readonly first: string }> {
  expect(await page.evaluate(() => document.visibilityState)).toBe('visible');
  await page.hide();
  await later(AWAY_SEC / 2);
  expect(await page.evaluate(() => document.visibilityState)).toBe('hidden');
  await later(AWAY_SEC / 2 + 0.5);
  expect(await page.evaluate(() => document.visibilityState)).toBe('hidden');
  await page.show();
  const first = await page.evaluate(firstLook);
  await later(IN_SIGHT_SEC);
  const sight = await page.evaluate(() => window.sight);
  const sec = hiddenSec(sight);
  expect(sec).toBeGreaterThanOrEqual(AWAY_SEC);
  expect(sight.drawn).toBe(0);
  return { sec, told: `${sec.toFixed(0)} s hidden, no picture drawn, ${sight.ticks} steps of a timer of 200 ms`, lock: sight.lock, first };
}

/** In the page: what stands over the music once it is drawn again. */
const firstLook = () =>
  new Promise<string>((resolve) => {
    const look = () => resolve(['h1', '.count'].map((one) => document.querySelector(one)?.textContent ?? '').join(' '));
    requestAnimationFrame(() => requestAnimationFrame(look));
  });

test.afterEach(() => killAll());

test('the click: every one on its frame', async ({ baseURL }) => {
  const barCount = Math.ceil(((AWAY_SEC + 4 * IN_SIGHT_SEC) * TEMPO_BPM) / 240);
  const layout = { tempoBpm: TEMPO_BPM, beatsPerBar: 4, click: { perBeat: 2 }, startFrame: 0, countInBars: 1, firstBar: 0, barCount, roundBars: 4 };
  let rateHz = 0;
  let told = '';
  const { heard, changes } = await clicksOutOfSight({
    address: `${baseURL}e2e/machine/rig.html`,
    clicksAt(sampleRateHz) {
      rateHz = sampleRateHz;
      return clicksOf({ ...layout, sampleRateHz }).map(clickOf);
    },
    async away(page) {
      await page.evaluate(writeSight);
      await later(IN_SIGHT_SEC);
      told = (await awayAndBack(page)).told;
    },
  });
  // One bar of beats counts in, eighths follow (arithmetic: half a beat is 30 / tempo seconds).
  const ideal = Array.from({ length: 8 * (barCount + 1) }, (_, k) => Math.round((k * 30 * rateHz) / TEMPO_BPM)).filter(
    (_, k) => k >= 8 || k % 2 === 0,
  );
  const [from, to] = changes.map(({ frame }) => frame) as [number, number];
  const within = (frames: readonly number[]) => frames.filter((frame) => frame > from && frame < to);
  const off = within(ideal).filter((frame, k) => within(heard)[k] !== frame).length;
  rows.push(
    `| click, eighths at ${TEMPO_BPM} | ${told} | ${within(ideal).length} clicks while hidden, ${off} off their ideal frame by a frame or more |`,
  );
  expect(changes.map(({ seen }) => seen)).toEqual(['hidden', 'visible']);
  expect(heard).toEqual(ideal);
  // A second less: where a busy machine computes no sound for a moment, its clock stands too.
  expect(within(ideal).length).toBeGreaterThanOrEqual(Math.floor(((AWAY_SEC - 1) * TEMPO_BPM) / 30));
});

test('the ear: it hears what Node hears, and every sample is there', async ({ baseURL }) => {
  const browser = await startHideable(profile(), repeatedMicrophone(await writeMicrophone()));
  await watchSight(browser.page);
  await browser.page.goto(`${baseURL}e2e/machine/rig.html`);
  const sec = AWAY_SEC + 4 * IN_SIGHT_SEC;
  let tell: () => void = () => {};
  const recording = new Promise<void>((resolve) => (tell = resolve));
  await browser.page.exposeFunction('tell', () => tell());
  await browser.page.evaluate(`window.begun = (${record.toString()})([${sec}, false]); undefined`);
  await recording;
  const page = await browser.letGo();
  const { told } = await awayAndBack(page);
  const take = (await page.evaluate(() => window.begun)) as Awaited<ReturnType<typeof record>>;
  const { strokeCount, same, sameTimes, whole, furthest } = againstNode(take, sec);
  rows.push(
    `| ear, ${sec} s of development takes by the fake microphone | ${told} | ${strokeCount} strokes; ${same ? 'the same as in Node to the last letter' : `times and volumes ${sameTimes ? 'as' : '**not as**'} in Node, strengths within ${furthest.toExponential(0)}`}; ${whole ? 'every sample stored' : '**samples missing**'}; told: ${take.problems.join(', ') || 'nothing'}; the sound told ${take.timed} times that time goes on |`,
  );
  // Five times a second; a session of a page whose own timers go once a second is stepped by it.
  expect(take.timed).toBeGreaterThan(4 * sec);
  expect([sameTimes, whole]).toEqual([true, true]);
  expect(strokeCount).toBeGreaterThan(100);
  await browser.kill();
});

/**
 * As in the test named "a session without a touch": sevens in sixteenths, even or so ragged that no run is clean. The tolerance is 18 ms (JOB.md: three
 * times 6 ms); two neighbours of any eight lie 20 ms and more behind the rest (median 12, mean 15), and within 45 % of a sixteenth of theirs, so that
 * all are heard.
 */
const SESSION_BPM = 240;
const EVEN = { countIn: 8, perBeat: 4, lateMs: [] };
const RAGGED = { ...EVEN, lateMs: [0, 12, 36, 36, 12, 0, 12] };
/** A round of seven bars each, so that the tempo moves between blocks only; it comes back in the last, while it is played. */
const BLOCK_COUNT = Math.round((AWAY_SEC + 2 * IN_SIGHT_SEC) / 11.5);
const BLOCK_SEC = (AWAY_SEC + 2 * IN_SIGHT_SEC) / (BLOCK_COUNT - 0.25);
const BLOCKS = Array.from(
  { length: BLOCK_COUNT },
  (_, k) => ({ part: k % 2 === 0 ? 'work' : 'reference', plays: k % 6 === 2 ? RAGGED : EVEN }) as const,
);

test('a session: it goes on, and the screen is right when it comes back', async () => {
  const app: AppServer = await serveApp(join(import.meta.dirname, '../../web/dist'));
  // Nothing but the drummer: the fake microphone's own beep twice a second would be played to.
  const browser = await startHideable(profile(), microphoneOf(silentFile('hidden-room.wav')));
  await (await browser.page.context().newCDPSession(browser.page)).send('Page.setBypassCSP', { enabled: true });
  const exercise = ownExercise(readContent(readSticking('RLRLRLL').value!, { perBeat: 4, surfaces: 'R=pad L=pad' }).value!, 'Seven');
  const blocks = BLOCKS.map(({ part }) => plannedPart(exercise, part, { minutes: BLOCK_SEC / 60, tempoBpm: SESSION_BPM }));
  await watchSight(browser.page);
  await watchFrames(browser.page);
  await seatDrummer(browser.page, { surface: 'pad', parts: BLOCKS.map(({ plays }) => plays), clicks: [] });
  await plannedBefore(browser.page, exercise, { blocks, tempoBpm: SESSION_BPM, startBy: 'touch', address: app.address });
  await browser.page.goto(`${app.address}#session`);
  await browser.page.reload();
  await expect(browser.page.getByRole('button', { name: 'Start', exact: true })).toBeEnabled();
  await browser.page.keyboard.press('PageDown');
  await expect(browser.page.getByText('Block 1 of')).toBeVisible();
  const page = await browser.letGo();
  await later(IN_SIGHT_SEC);
  const { told, lock, first } = await awayAndBack(page);
  const framed = await page.evaluate(() => window.framed);
  await page.evaluate(() => void document.body.dispatchEvent(new KeyboardEvent('keydown', { key: 'Escape', bubbles: true })));
  await expect.poll(() => page.evaluate(() => document.querySelector('h1')?.textContent)).toBe('Done for today');
  const records = (await databaseOf(page, ['records'])).all[0] as DiaryRecord[];
  const played = judge(records);
  const beats = beatsOff(framed, played.tempi);
  const since = movesSince(framed);
  rows.push(
    `| session, ${BLOCKS.length} blocks of ${BLOCK_SEC.toFixed(0)} s | ${told} | ${played.told}; ${beats.count} clicks, ${beats.off} not a beat from the one before by more than a frame, ${framed.unsounded.length} too late to sound; back in sight the frame moved ${since.count} times, ${since.late} of them too late for the pictures drawn, and it says “${first.replaceAll(/\s+/g, ' ').trim()}”; lock of the screen: ${lock.join(', ')} |`,
  );
  expect(lock).toEqual(['asked', 'given', 'taken', 'asked', 'given']);
  expect([beats.off, framed.unsounded]).toEqual([0, []]);
  // As in the test named "a session without a touch": one in twenty may be late on a machine that does other things too.
  expect(since.count).toBeGreaterThan(5);
  expect(since.late).toBeLessThanOrEqual(since.count / 20);
  expect(first).toContain(`16ths at ${played.tempi.at(-1)}`);
  expect(first).toContain(`Block ${BLOCKS.length} of ${BLOCKS.length}`);
  await browser.kill();
  app.close();
});

/** What stands in the diary, held against how it was played. */
function judge(records: readonly DiaryRecord[]): { readonly told: string; readonly tempi: readonly number[] } {
  const bodies = <Body>(kind: string) => records.filter((one) => one.kind === kind).map(({ body }) => body as Body);
  const blocks = [...bodies<BlockBody>('block')].sort((a, b) => a.position - b.position);
  const takes = bodies<TakeBody>('take');
  const tempi = blocks.map(({ tempoBpm }) => tempoBpm);
  const runs = blocks.map(({ heard }) => `${heard?.cleanRunCount} of ${heard?.runCount}`).join(', ');
  expect(blocks).toHaveLength(BLOCKS.length);
  expect(takes.map(({ stored }) => stored)).toEqual(BLOCKS.map(() => 'pcm'));
  let tempoBpm: number | undefined = SESSION_BPM;
  for (const [k, { part, plays }] of BLOCKS.slice(0, -1).entries()) {
    const block = blocks[k]!;
    const { heard, nextTempo } = block;
    expect(heard!.runCount, `runs of block ${k + 1}`).toBeGreaterThan(5);
    expect(heard!.cleanRunCount, `block ${k + 1}`).toBe(plays === RAGGED ? 0 : heard!.runCount);
    // A reference take keeps its tempo. Even work raises its own, ragged work lowers it, and the next block of work takes it up.
    expect(block.tempoBpm, `block ${k + 1}`).toBe(part === 'reference' ? SESSION_BPM : tempoBpm);
    if (part === 'reference') continue;
    tempoBpm = nextTempo?.tempoBpm;
    expect(Math.sign(tempoBpm! - block.tempoBpm), `after block ${k + 1}`).toBe(plays === RAGGED ? -1 : 1);
  }
  return { told: `tempi ${tempi.join(', ')}; clean runs ${runs}; ${takes.length} takes stored`, tempi };
}

/** Clicks that are neither one beat after the one before, nor the first of a block. */
function beatsOff({ clicks, rateHz }: Framed, tempi: readonly number[]): { readonly count: number; readonly off: number } {
  const gaps = clicks.slice(1).map((frame, k) => frame - clicks[k]!);
  const isBeat = (gap: number) => tempi.some((tempoBpm) => Math.abs(gap - (60 * rateHz) / tempoBpm) <= 1);
  return { count: clicks.length, off: gaps.filter((gap) => gap < rateHz && !isBeat(gap)).length };
}

/** Moves of the frame after the longest time without one, which is when the page was out of sight. */
function movesSince(framed: Framed): { readonly count: number; readonly late: number } {
  const gaps = framed.moves.map((frame, k) => (k === 0 ? frame - framed.clicks[0]! : frame - framed.moves[k - 1]!));
  const first = gaps.indexOf(Math.max(...gaps));
  // The first comes when it comes into sight, in the middle of a stroke.
  const after = { ...framed, moves: framed.moves.slice(first + 1), before: framed.before.slice(first + 1) };
  return { count: after.moves.length, late: overdue(after, 4).length };
}

test.afterAll(() => console.log(rows.join('\n')));
