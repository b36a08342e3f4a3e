/** The click of whole blocks against arithmetic: every onset in the sound at its frame, in each way it can be clicked, and whatever happens to the page. */
import { expectedCycle, ownExercise, readContent } from '@evenhand/core/exercise';
import {
  type BlockLayout,
  type ClickWay,
  clicksOf,
  newSession,
  type SessionClick,
  type SessionEvent,
  stepSession,
  type TempoChange,
} from '@evenhand/core/session';
import { renderClick } from '@evenhand/core/sound';
import { readSticking } from '@evenhand/core/sticking';
import { expect, test } from '@playwright/test';
import { clickOf } from '../../src/app/recording.ts';
import { killAll } from './chromium.ts';
import { clicksOutOfSight } from './outofsight.ts';

interface Row {
  readonly says: string;
  readonly rateHz: number;
  readonly tempoBpm: number;
  readonly meter: number;
  readonly click: ClickWay;
  readonly changes?: readonly TempoChange[];
  /** Beats of a bar that click, by hand; `bars` which bars do. */
  readonly beats: readonly number[];
  readonly bars?: readonly number[];
}

const BARS = 4;
const THIRD = 2 / 3;

const rows: readonly Row[] = [
  { says: '4/4 at 97.3', rateHz: 44_100, tempoBpm: 97.3, meter: 4, click: { sound: 'tone' }, beats: [0, 1, 2, 3] },
  {
    says: '3/4 at 144 with eighths',
    rateHz: 48_000,
    tempoBpm: 144,
    meter: 3,
    click: { perBeat: 2, sound: 'knock' },
    beats: [0, 0.5, 1, 1.5, 2, 2.5],
  },
  { says: '7 beats at 211', rateHz: 48_000, tempoBpm: 211, meter: 7, click: { accents: [0, 2, 4], sound: 'low' }, beats: [0, 1, 2, 3, 4, 5, 6] },
  {
    says: '5 beats at 83 in triplets',
    rateHz: 44_100,
    tempoBpm: 83,
    meter: 5,
    click: { perBeat: 3, sound: 'bright' },
    beats: [0, 1, 2, 3, 4].flatMap((b) => [b, b + 1 / 3, b + 2 / 3]),
  },
  {
    says: 'swung eighths at 132',
    rateHz: 48_000,
    tempoBpm: 132,
    meter: 4,
    click: { perBeat: 2, swing: THIRD, sound: 'rustle' },
    beats: [0, 1, 2, 3].flatMap((b) => [b, b + THIRD]),
  },
  { says: 'off-beats at 118', rateHz: 48_000, tempoBpm: 118, meter: 4, click: { place: 'offBeats', sound: 'knock' }, beats: [0.5, 1.5, 2.5, 3.5] },
  { says: '2 and 4 at 104', rateHz: 44_100, tempoBpm: 104, meter: 4, click: { place: 'twoAndFour', sound: 'low' }, beats: [1, 3] },
  { says: 'only on 1 at 160', rateHz: 48_000, tempoBpm: 160, meter: 4, click: { place: 'one', sound: 'bright' }, beats: [0] },
  {
    says: 'every second bar at 150',
    rateHz: 48_000,
    tempoBpm: 150,
    meter: 4,
    click: { place: 'everySecondBar', sound: 'rustle' },
    beats: [0],
    bars: [0, 2],
  },
  {
    says: 'one bar silent after two at 176',
    rateHz: 48_000,
    tempoBpm: 176,
    meter: 4,
    click: { bars: { sounding: 2, silent: 1 } },
    beats: [0, 1, 2, 3],
    bars: [0, 1, 3],
  },
  {
    says: '120 to 93.7 to 181',
    rateHz: 48_000,
    tempoBpm: 120,
    meter: 4,
    click: {},
    beats: [0, 1, 2, 3],
    changes: [
      { bar: 1, tempoBpm: 93.7 },
      { bar: 3, tempoBpm: 181 },
    ],
  },
];

const layoutOf = ({ rateHz, tempoBpm, meter, click, changes }: Row, barCount = BARS): BlockLayout => ({
  ...{ sampleRateHz: rateHz, tempoBpm, beatsPerBar: meter, click, startFrame: 777, countInBars: 1, firstBar: 0, barCount, roundBars: 4 },
  ...(changes ? { changes } : {}),
});

/** The ideal frames: the lengths of all bars before, in seconds, and the part of the bar; rounded once. */
function ideal({ rateHz, tempoBpm, meter, changes = [], beats, bars = [0, 1, 2, 3] }: Row): number[] {
  const tempi = Array.from({ length: BARS + 1 }, (_, k) => [...changes].reverse().find(({ bar }) => bar <= k - 1)?.tempoBpm ?? tempoBpm);
  const at = (k: number, beat: number) =>
    777 + Math.round(rateHz * (tempi.slice(0, k).reduce((sec, tempo) => sec + (60 * meter) / tempo, 0) + (60 * beat) / tempi[k]!));
  const countIn = Array.from({ length: meter }, (_, beat) => at(0, beat));
  return [...countIn, ...bars.flatMap((bar) => beats.map((beat) => at(bar + 1, beat)))];
}

test.beforeEach(({ page }) => page.goto('/e2e/machine/rig.html'));

test('offline every click of every way sounds on its ideal frame (says: arithmetic, seconds of the bars before times the rate)', async ({ page }) => {
  for (const row of rows) {
    const clicks = clicksOf(layoutOf(row)).map(clickOf);
    const options = { sampleRateHz: row.rateHz, lengthFrames: clicks.at(-1)!.frame + row.rateHz };
    const { onsets } = await page.evaluate(([list, given]) => window.rig.renderClicks(list, given), [clicks, options] as const);
    expect(
      onsets.map(({ frame }) => frame),
      row.says,
    ).toEqual(ideal(row));
    // Each in its own sound: the first sample is that of its voice, louder or softer by nothing.
    const firsts = clicks.map(({ voice, sound }) => Math.fround(renderClick(voice, row.rateHz, sound)[0]!));
    expect(
      onsets.map(({ value }) => value),
      row.says,
    ).toEqual(firsts);
  }
});

/** A session whose tempo moves twice within its block, as it asks for clicks: what was scheduled and not taken back. */
function movedWithin(rateHz: number): { readonly clicks: readonly SessionClick[]; readonly tempoOfBar: readonly number[] } {
  const sticking = readSticking('RLRL').value!;
  const exercise = ownExercise(readContent(sticking, { perBeat: 4, surfaces: 'R=pad L=pad' }).value!, 'Four');
  const said = { code: 'said', params: {} };
  const block = { exercise, cycle: expectedCycle(exercise), minutes: 0.5, tempoBpm: 211, aim: said, reason: said, follows: true };
  let [state, clicks] = [newSession([block], rateHz), [] as readonly SessionClick[]];
  const send = (event: SessionEvent): void => {
    const step = stepSession(state, event);
    state = step.state;
    for (const effect of step.effects) {
      if (effect.kind === 'clicks') clicks = [...clicks, ...effect.clicks];
      if (effect.kind === 'cancelClicks') clicks = clicks.filter(({ frame }) => frame < effect.fromFrame);
      const next = effect.kind === 'glance' ? [223.7, 197.3][effect.span.round] : undefined;
      if (next === undefined || effect.kind !== 'glance') continue;
      const heard = { said, clean: 8, runs: 8, nextTempoBpm: next, why: said };
      send({ kind: 'glanced', frame: event.frame + 0.1 * rateHz, block: 0, round: effect.span.round, byEar: true, heard });
    }
  };
  send({ kind: 'start', frame: 0 });
  for (let sec = 0; sec < 34; sec += 0.2) send({ kind: 'tick', frame: Math.round(sec * rateHz) });
  // Two bars of count-in, four of exercise; the answer comes in the first bar of plain time: from the second on the new tempo.
  return { clicks, tempoOfBar: Array.from({ length: clicks.length / 4 }, (_, bar) => (bar < 7 ? 211 : bar < 15 ? 223.7 : 197.3)) };
}

test('offline a block whose tempo moved by what was heard clicks on the frames of its one tempo map (says: arithmetic, seconds of the bars before times the rate)', async ({
  page,
}) => {
  const rateHz = 48_000;
  const { clicks, tempoOfBar } = movedWithin(rateHz);
  const startSec = clicks[0]!.frame / rateHz;
  const secOfBar = (bar: number) => startSec + tempoOfBar.slice(0, bar).reduce((sec, tempo) => sec + 240 / tempo, 0);
  const expected = tempoOfBar.flatMap((tempo, bar) => [0, 1, 2, 3].map((beat) => Math.round(rateHz * (secOfBar(bar) + (beat * 60) / tempo))));
  const options = { sampleRateHz: rateHz, lengthFrames: clicks.at(-1)!.frame + rateHz };
  const { onsets } = await page.evaluate(([list, given]) => window.rig.renderClicks(list, given), [clicks.map(clickOf), options] as const);
  expect(onsets.map(({ frame }) => frame)).toEqual(expected);
  expect(tempoOfBar.length).toBeGreaterThan(20);
});

test('live every click sounds on its frame, with the page blocked 300 ms in every 500, and frozen as one that is long out of sight', async ({
  page,
}) => {
  let tell: () => void = () => {};
  const begun = new Promise<void>((resolve) => (tell = resolve));
  await page.exposeFunction('tell', () => tell());
  const rateHz = await page.evaluate(async () => {
    const context = new AudioContext();
    const { sampleRate } = context;
    await context.close();
    return sampleRate;
  });
  const row: Row = { says: 'live', rateHz, tempoBpm: 211, meter: 4, click: { perBeat: 2 }, beats: [] };
  const clicks = clicksOf(layoutOf(row, 1)).map(clickOf);
  const first = clicks[0]!.frame;
  const sec = (clicks.at(-1)!.frame - first) / rateHz + 0.7;
  const heard = await page.evaluate(
    ([list, lastsSec]) =>
      window.rig.soundedLive(list, async () => {
        for (const until = performance.now() + 1000 * lastsSec; performance.now() < until; ) {
          const blockedUntil = performance.now() + 300;
          while (performance.now() < blockedUntil);
          await new Promise((resolve) => setTimeout(resolve, 200));
        }
      }),
    [clicks.map((click) => ({ ...click, frame: click.frame - first })), sec] as const,
  );
  expect(heard).toEqual(clicks.map(({ frame }) => frame - first));

  const session = await page.context().newCDPSession(page);
  const away = page.evaluate(
    ([list, lastsSec]) =>
      window.rig.soundedLive(list, async () => {
        window.tell!('clicking');
        await new Promise((resolve) => setTimeout(resolve, 1000 * lastsSec));
      }),
    [clicks.map((click) => ({ ...click, frame: click.frame - first })), sec] as const,
  );
  await begun;
  await session.send('Page.setWebLifecycleState', { state: 'frozen' });
  // Time must pass here: what is waited for is the sound itself.
  await new Promise((resolve) => setTimeout(resolve, 1000 * sec));
  await session.send('Page.setWebLifecycleState', { state: 'active' });
  expect(await away).toEqual(clicks.map(({ frame }) => frame - first));
});

test.afterEach(() => killAll());

test('live every click sounds on its frame in a tab that is behind another, as it says itself (says: arithmetic, round(k · 60 · rate / 211))', async ({
  baseURL,
}) => {
  let ideal: readonly number[] = [];
  const { heard, changes } = await clicksOutOfSight({
    address: `${baseURL}e2e/machine/rig.html`,
    clicksAt(rateHz) {
      // More than are needed: how soon the tab is behind is up to the machine.
      ideal = Array.from({ length: 150 }, (_, k) => Math.round((k * 60 * rateHz) / 211));
      return ideal.map((frame) => ({ frame, voice: 'beat', gainDb: 0 }));
    },
    async away(page) {
      await page.hide();
      await page.evaluate(() => window.begun);
      expect(await page.evaluate(() => document.visibilityState)).toBe('hidden');
    },
    enoughSec: 2.2,
  });
  expect(heard).toEqual(ideal.slice(0, heard.length));
  expect(changes.map(({ seen }) => seen)).toEqual(['hidden']);
  // In 2.2 s at 211 there are seven beats at least (arithmetic).
  expect(heard.filter((frame) => frame > changes[0]!.frame).length).toBeGreaterThanOrEqual(7);
});
