/** Where the beats, bars and rounds of a block fall. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { beatFrame, endFrameOf } from './beats.ts';
import { layoutBlock, roundBarsOf } from './block.ts';
import { clicksOf } from './click.ts';
import { blockOf } from './trial.case.ts';

const RATE = 48_000;
const slot = (sec: number) => ({ fromFrame: 0, toFrame: sec * RATE });

describe('where beats fall', () => {
  test.each([
    { says: 'FACTS.md 12: a bar of 4/4 at 100 lasts 2.4 s', tempoBpm: 100, beat: 4, frame: 115_200 },
    { says: 'FACTS.md 12: four bars at 100 last 9.6 s', tempoBpm: 100, beat: 16, frame: 460_800 },
    { says: 'FACTS.md 12: two bars at 80 last 6 s', tempoBpm: 80, beat: 8, frame: 288_000 },
    { says: 'arithmetic: 60/144·48000 = 20000', tempoBpm: 144, beat: 1, frame: 20_000 },
    { says: 'arithmetic: 1000·60·48000/97 = 29690721.65 rounds up', tempoBpm: 97, beat: 1000, frame: 29_690_722 },
    { says: 'FACTS.md 12: a sixteenth at 120 lasts 125 ms', tempoBpm: 120, beat: 0.25, frame: 6_000 },
  ])('beat $beat at $tempoBpm is frame $frame: $says', ({ tempoBpm, beat, frame }) => {
    const layout = layoutBlock(blockOf('RL', { tempoBpm, minutes: 15 }), slot(900), { sampleRateHz: RATE, first: true });
    expect(beatFrame(layout, beat)).toBe(frame);
  });

  test('15 minutes of 4/4 at 100 are 375 bars, count-in inside: FACTS.md 12', () => {
    const layout = layoutBlock(blockOf('RL', { minutes: 15 }), slot(900), { sampleRateHz: RATE, first: true });
    expect(layout.countInBars + layout.barCount).toBe(375);
    expect(endFrameOf(layout)).toBe(900 * RATE);
    expect(clicksOf(layout)).toHaveLength(1500);
  });

  test('a later block leaves eight seconds to read: (60 − 8)/2.4 = 21.67, so 21 bars (arithmetic)', () => {
    const layout = layoutBlock(blockOf('RL'), slot(60), { sampleRateHz: RATE, first: false });
    expect(layout.startFrame).toBe(8 * RATE);
    expect(layout.countInBars + layout.barCount).toBe(21);
  });

  test('a slow count-in is one bar, a quick one two: two bars at 80 last 6 s (FACTS.md 12), at 79 longer', () => {
    const countIn = (tempoBpm: number) => layoutBlock(blockOf('RL', { tempoBpm }), slot(60), { sampleRateHz: RATE, first: true }).countInBars;
    expect([countIn(80), countIn(79)]).toEqual([2, 1]);
  });

  test.each([
    [1, 4],
    [2, 4],
    [3, 3],
    [4, 4],
    [5, 5],
    [6, 6],
    [7, 7],
    [9, 9],
  ])('an exercise of %i bars has rounds of %i (arithmetic: multiple of the bars nearest to four)', (bars, round) => {
    expect(roundBarsOf(bars)).toBe(round);
  });

  test('clicks: strictly later, each within half a frame of k·60/tempo, the first of each bar accented (arithmetic)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 300, noNaN: true }),
        fc.double({ min: 0.05, max: 20, noNaN: true }),
        fc.constantFrom(44_100, 48_000, 96_000),
        fc.integer({ min: 0, max: 1e9 }),
        (tempoBpm, minutes, sampleRateHz, fromFrame) => {
          const toFrame = fromFrame + Math.round(minutes * 60 * sampleRateHz);
          const layout = layoutBlock(blockOf('RLRLKK', { tempoBpm, minutes }), { fromFrame, toFrame }, { sampleRateHz, first: true });
          const clicks = clicksOf(layout);
          clicks.forEach((click, k) => {
            expect(Math.abs(click.frame - layout.startFrame - (k * 60 * sampleRateHz) / tempoBpm)).toBeLessThanOrEqual(0.5001);
            expect(click.accent).toBe(k % 4 === 0);
            if (k > 0) expect(click.frame).toBeGreaterThan(clicks[k - 1]!.frame);
          });
          const barFrames = (4 * 60 * sampleRateHz) / tempoBpm;
          const shortest = layout.countInBars + 1;
          if (layout.countInBars + layout.barCount > shortest) expect(endFrameOf(layout)).toBeLessThanOrEqual(toFrame + 1);
          expect(toFrame - endFrameOf(layout)).toBeLessThan(barFrames + 1);
        },
      ),
      { numRuns: 60, seed: 12 },
    );
  });
});
