/** A session that runs itself: started by stick clicks, played by a drummer in the room, in the diary at its end; nobody touches anything. */
import type { BlockBody, TakeBody } from '@evenhand/core/diary';
import { type Exercise, expectedCycle, ownExercise, readContent } from '@evenhand/core/exercise';
import { readSticking } from '@evenhand/core/sticking';
import { expect, test } from '@playwright/test';
import { seatDrummer } from './drummer.ts';
import { framedIn, overdue, watchFrames } from './frames.ts';
import { recordsOf } from './lived.ts';
import { plannedBefore, plannedPart } from './planned.ts';
import { microphoneOf, silentFile } from './planted.ts';

/** Of a microphone that hears nothing no session is started: the test must fail then. */
const SILENT = process.env.EVENHAND_MIC === 'silence';

test.use({
  permissions: ['microphone'],
  bypassCSP: true,
  launchOptions: async ({ launchOptions }, use) =>
    use({ ...launchOptions, args: [...(launchOptions.args ?? []), ...microphoneOf(silentFile('session-room.wav'))] }),
});

/** Five sixteenths: a round of five bars of 4/4 is sixteen cycles, ten runs of eight strokes. */
const STICKING = 'RLRLL';
const TEMPO_BPM = 240;
/** Clean runs the day before: with the ten of a round enough to go on (core/tempo: twelve that are all clean). */
const RUNS_BEFORE = 4;
/** A twentieth more, as long as every run is clean (core/tempo). */
const RAISED_BPM = 252;
const sticking = readSticking(STICKING).value!;
const exercise: Exercise = ownExercise(readContent(sticking, { perBeat: 4, surfaces: 'R=pad L=pad' }).value!, 'Five');

/** Minutes that hold so many bars, those of the count-in among them, and the breather before it, which is a quarter. */
const minutesOf = (bars: number, tempoBpm: number, first: boolean): number => ((bars + 0.05) * 4) / tempoBpm / (first ? 1 : 0.75);

const blockOf = (part: 'reference' | 'work', minutes: number) => plannedPart(exercise, part, { minutes, tempoBpm: TEMPO_BPM });

/**
 * Two bars of count-in, a round played evenly, its plain time in which the tempo rises, a round played unevenly, plain time in which the tempo
 * goes back, an even round again; then the reference take.
 */
const BLOCKS = [blockOf('work', minutesOf(2 + 5 + 5 + 5 + 5 + 5, TEMPO_BPM, true)), blockOf('reference', minutesOf(3, TEMPO_BPM, false))];

/**
 * How late the five strokes come in turn: sixteenths at 252 are 60 ms apart, the tolerance is 18 ms (JOB.md: three times 6 ms), and among any five some
 * are further from the middle of all (mean 22, median 14), so that no run is clean; 46 ms between two strokes are enough for the ear.
 */
const UNEVEN = [0, 14, 40, 40, 14];

const even = { countIn: 4, perBeat: 4, lateMs: [] };

declare global {
  interface Window {
    seen: string[];
  }
}

/** Writes down what stood over the music while beats were counted. */
function watch(): void {
  window.seen = [];
  new MutationObserver(() => {
    const text = (selector: string) => document.querySelector(selector)?.textContent ?? '';
    const now = `${/Block \d of \d/.exec(text('.count'))?.[0]}: ${text('h1')}`;
    if (document.querySelector('.number.beat') && window.seen.at(-1) !== now) window.seen.push(now);
  }).observe(document, { subtree: true, childList: true, characterData: true });
}

// The drummer plays in real time and the ear answers in it: where other programs take the processor for seconds, it is tried once more.
test.describe.configure({ retries: 1 });

test('a session without a touch', async ({ page }) => {
  expect(expectedCycle(exercise).strokes).toHaveLength(5);
  if (!SILENT)
    await seatDrummer(page, {
      surface: 'pad',
      parts: [{ ...even, between: { fromBeat: 4 * (2 + 5 + 5), toBeat: 4 * (2 + 5 + 5 + 5), lateMs: UNEVEN } }, even],
      clicks: [{ afterBlock: -1, waitSec: 1.2, count: 4, gapSec: 0.3 }],
    });
  await page.addInitScript(watch);
  await watchFrames(page);
  await plannedBefore(page, exercise, { blocks: BLOCKS, tempoBpm: TEMPO_BPM, startBy: 'go', before: { tempoBpm: TEMPO_BPM, runs: RUNS_BEFORE } });
  // From here on nobody touches anything: the page is opened, and the rest is heard.
  await page.goto('./#session');
  await page.reload();
  await expect(page.getByText('Listening for four stick clicks')).toBeVisible();
  const heading = page.getByRole('heading', { level: 1 });
  await expect(page.getByText('Block 1 of 2')).toBeVisible({ timeout: 15_000 });
  await expect(heading).toHaveText('Done for today', { timeout: 45_000 });
  // Every tempo as it stood over the music: told before it comes, then there, in the same block, up and back.
  expect(await page.evaluate(() => window.seen)).toEqual([
    ...[`${TEMPO_BPM}`, `${TEMPO_BPM} → ${RAISED_BPM}`, `${RAISED_BPM}`, `${RAISED_BPM} → ${TEMPO_BPM}`, `${TEMPO_BPM}`].map(
      (tempo) => `Block 1 of 2: 16ths at ${tempo}`,
    ),
    `Block 2 of 2: 16ths at ${TEMPO_BPM}`,
  ]);

  // The frame on the present stroke: 20 ms (issue 8), on every picture that was drawn. How many are dropped is for bench/session.
  const framed = await framedIn(page);
  // 5 + 5 + 5 + 1 bars of sixteenths, of which a picture that is dropped leaves out some.
  expect(framed.moves.length).toBeGreaterThan(0.75 * 16 * 16);
  expect(overdue(framed, 4).length).toBeLessThanOrEqual(framed.moves.length / 20);

  const records = await recordsOf(page);
  const bodies = <Body>(kind: string) => records.filter((one) => one.kind === kind).map(({ body }) => body as Body);
  const blocks = bodies<BlockBody>('block')
    .filter(({ sessionId }) => sessionId !== '6'.repeat(32))
    .sort((a, b) => a.position - b.position);
  expect(blocks.map(({ tempoBpm, nextTempo }) => [tempoBpm, nextTempo?.tempoBpm])).toEqual([
    [TEMPO_BPM, TEMPO_BPM],
    [TEMPO_BPM, undefined],
  ]);
  expect(blocks[0]!.stretches).toEqual([
    { tempoBpm: TEMPO_BPM, clean: 10, runs: 10, byEar: true },
    { tempoBpm: RAISED_BPM, clean: 0, runs: expect.any(Number), byEar: true },
    { tempoBpm: TEMPO_BPM, clean: 10, runs: 10, byEar: true },
  ]);
  const takes = records.filter(({ kind }) => kind === 'take');
  const reference = takes.find(({ id }) => blocks[1]!.takeIds.includes(id))!.body as TakeBody;
  expect(reference.stored).not.toBe('none');
  // Two bars of sixteenths were played to it (arithmetic: 2 · 4 · 4).
  expect(reference.strokes.length).toBe(32);
  await page.goto('./#diary');
  const today = page.getByRole('region', { name: /^Today/ });
  await expect(today.getByRole('listitem')).toHaveCount(2);
  await expect(today).not.toContainText('Not finished');
});
