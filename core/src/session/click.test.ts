import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { barFrame, beatFrame, beatsUntil, endFrameOf } from './beats.ts';
import { layoutBlock } from './block.ts';
import { beatFramesOf, clicksOf, withFewerClicks } from './click.ts';
import type { BlockLayout, ClickWay } from './layout.ts';
import { presentStroke } from './present.ts';
import { newSession } from './state.ts';
import { blockOf, heardAt, play, ticks } from './trial.case.ts';

const RATE = 48_000;
/** Four bars of 4/4 at 120 after one of count-in: a beat is 24,000 frames. */
const layout = (change: Partial<BlockLayout> = {}): BlockLayout => ({
  ...{ sampleRateHz: RATE, tempoBpm: 120, beatsPerBar: 4, startFrame: 0, countInBars: 1, firstBar: 0, barCount: 4, roundBars: 4 },
  ...change,
});
/** Beats of the clicks after the count-in, from its end. */
const beatsIn = (click: ClickWay, change: Partial<BlockLayout> = {}) =>
  clicksOf(layout({ click, ...change }))
    .slice(4)
    .map(({ frame }) => frame / 24_000 - 4);

describe('where it clicks', () => {
  test.each([
    { click: {}, beats: [0, 1, 2, 3], says: 'arithmetic' },
    { click: { place: 'offBeats' }, beats: [0.5, 1.5, 2.5, 3.5], says: 'common practice: the “and” of each beat' },
    { click: { place: 'twoAndFour' }, beats: [1, 3], says: 'common practice: the backbeat' },
    { click: { place: 'one' }, beats: [0], says: 'arithmetic' },
    { click: { place: 'none' }, beats: [], says: 'arithmetic' },
    { click: { perBeat: 2 }, beats: [0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5], says: 'arithmetic' },
    { click: { perBeat: 2, swing: 0.75 }, beats: [0, 0.75, 1, 1.75, 2, 2.75, 3, 3.75], says: 'arithmetic: dotted' },
    { click: { place: 'offBeats', swing: 0.75 }, beats: [0.75, 1.75, 2.75, 3.75], says: 'arithmetic' },
  ] as { click: ClickWay; beats: number[]; says: string }[])('$click clicks $beats of each bar ($says)', ({ click, beats }) => {
    expect(beatsIn(click)).toEqual([0, 4, 8, 12].flatMap((bar) => beats.map((beat) => bar + beat)));
  });

  test('every second bar; and two bars that sound, then one that is silent', () => {
    expect(beatsIn({ place: 'everySecondBar' })).toEqual([0, 8]);
    expect(beatsIn({ place: 'one', bars: { sounding: 2, silent: 1 } })).toEqual([0, 4, 12]);
  });

  test('four parts of a beat swing by pairs (arithmetic: 0, 0.6/2, 1/2, 1/2 + 0.6/2)', () => {
    const [, second, third, fourth] = beatsIn({ perBeat: 4, swing: 0.6 });
    expect([second, third, fourth].map((beat) => beat!.toFixed(9))).toEqual(['0.300000000', '0.500000000', '0.800000000']);
  });

  test('accents where they were asked for; a count-in always says where 1 is', () => {
    const accented = clicksOf(layout({ click: { accents: [1, 3], place: 'beats' } })).filter(({ accent }) => accent);
    expect(accented.slice(0, 3).map(({ frame }) => frame / 24_000)).toEqual([0, 5, 7]);
    expect(clicksOf(layout({ click: { place: 'none' } })).map(({ frame }) => frame / 24_000)).toEqual([0, 1, 2, 3]);
  });
});

describe('tempo changes at bar lines', () => {
  /** Two bars at 120, then at 96 (30,000 frames a beat), in the last bar at 144 (20,000). */
  const changes = [
    { bar: 2, tempoBpm: 96 },
    { bar: 3, tempoBpm: 144 },
  ];

  test('each beat falls where the tempi before it put it (arithmetic: 60·48000/tempo frames a beat)', () => {
    const frames = clicksOf(layout({ changes })).map(({ frame }) => frame);
    const lengths = [...Array(12).fill(24_000), ...Array(4).fill(30_000), ...Array(4).fill(20_000)];
    expect(frames).toEqual(lengths.map((_, k) => lengths.slice(0, k).reduce((sum: number, length: number) => sum + length, 0)));
    expect(endFrameOf(layout({ changes }))).toBe(12 * 24_000 + 4 * 30_000 + 4 * 20_000);
  });

  test('a block gone on with behind a change is counted in at the tempo there', () => {
    const later = layout({ changes, firstBar: 2 });
    expect(clicksOf(later).map(({ frame }) => frame)).toEqual(
      [0, 1, 2, 3, 4, 5, 6, 7].map((beat) => beat * 30_000).concat([0, 1, 2, 3].map((beat) => 240_000 + beat * 20_000)),
    );
  });

  test('frames and beats lead back to each other, whatever the tempi (law)', () => {
    const tempo = fc.double({ min: 30, max: 280, noNaN: true });
    fc.assert(
      fc.property(tempo, tempo, fc.integer({ min: 0, max: 900 }), (first, second, eighth) => {
        const whole = layout({ tempoBpm: first, changes: [{ bar: 50, tempoBpm: second }], barCount: 120 });
        expect(Math.abs(beatsUntil(whole, beatFrame(whole, eighth / 2)) - eighth / 2)).toBeLessThan((1.01 * Math.max(first, second)) / (60 * RATE));
      }),
      { numRuns: 100, seed: 8 },
    );
  });

  test('a block fills its slot with the bars that fit (arithmetic: 2 s, then bars of 4 s, in 30 s)', () => {
    const block = blockOf('RL', { tempoBpm: 120, changes: [{ bar: 3, tempoBpm: 60 }], minutes: 0.5 });
    const laid = layoutBlock(block, { fromFrame: 0, toFrame: 30 * RATE }, { sampleRateHz: RATE, first: true });
    // Two bars of count-in and three at 120 are 10 s; five at 60 fill the rest.
    expect([laid.countInBars, laid.barCount, endFrameOf(laid)]).toEqual([2, 8, 30 * RATE]);
    const { state } = play(newSession([block], RATE), [{ kind: 'start', frame: 0 }]);
    expect(presentStroke(state, barFrame(state.layout!, 5) - 1)).toMatchObject({ part: 'plain', bar: 0, beat: 3 });
    expect(presentStroke(state, barFrame(state.layout!, 5))).toMatchObject({ part: 'plain', bar: 1, beat: 0 });
  });
});

test('every beat is known whatever is clicked, up to a frame (arithmetic)', () => {
  expect(beatFramesOf(layout({ click: { place: 'none' } }))).toHaveLength(20);
  expect(beatFramesOf(layout({ click: { place: 'one' } }), 24_001)).toEqual([0, 24_000]);
});

describe('fewer clicks as it goes well', () => {
  test('thins row by row, and leaves what is no such row', () => {
    const [first, second, third] = [withFewerClicks({}), withFewerClicks({ place: 'twoAndFour' }), withFewerClicks({ place: 'everySecondBar' })];
    expect([first.place, second.place, third.place]).toEqual(['twoAndFour', 'one', 'everySecondBar']);
    expect(withFewerClicks({ place: 'offBeats' }).place).toBe('offBeats');
  });

  test('where the tempo would rise it stays, and the next block of the exercise has fewer', () => {
    const session = newSession([blockOf('RL'), blockOf('RL', { fewerClicks: true })], RATE);
    const heard = { kind: 'measured', frame: 63 * RATE, block: 0, heard: heardAt(105) } as const;
    const { state } = play(session, [{ kind: 'start', frame: 0 }, ...ticks(0, 63, 1, RATE), heard]);
    expect(state.blocks[1]).toMatchObject({ tempoBpm: 100, click: { place: 'twoAndFour' } });
    expect(
      clicksOf(state.layout!)
        .slice(8, 10)
        .map(({ frame }) => frame - barFrame(state.layout!, 0)),
    ).toEqual([28_800, 3 * 28_800]);
  });
});
