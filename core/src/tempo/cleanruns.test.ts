import { describe, expect, test } from 'vitest';
import { findingsOf } from '../finding/index.ts';
import { measure } from '../measurement/index.ts';
import { cycleOf, type Playing, play } from '../measurement/play.case.ts';
import { normal, seededRandom } from '../random.ts';
import { toNumber } from '../rational.ts';
import { say } from '../words/index.ts';
import { type CleanOptions, cleanRuns } from './cleanruns.ts';

function runsFor(letters: string, playing: Partial<Playing>, options: Omit<CleanOptions, 'cycle'> = {}) {
  const cycle = cycleOf(letters, 4);
  const candidates = play(cycle, { cycles: 16, tempoBpm: 100, ...playing });
  const { value } = measure(candidates, cycle, { tempoBpm: 100, durationSec: candidates.at(-1)!.timeSec + 2 });
  return cleanRuns(value!, { cycle, ...options });
}

describe('eight main strokes in a row (says: JOB.md)', () => {
  test.each([
    { letters: 'RLRRLRLL', cycles: 16, runs: 16 },
    { letters: 'RRLL', cycles: 16, runs: 8 },
    { letters: 'RLRRK', cycles: 16, runs: 10 },
    { letters: 'RLRLRLRLRLRLRLRL', cycles: 8, runs: 16 },
    { letters: 'RLRLKK', cycles: 15, runs: 11 },
  ])('$letters $cycles times gives $runs runs, all clean', ({ letters, cycles, runs }) => {
    expect(runsFor(letters, { cycles })).toEqual({ runs, clean: runs, untold: 0, offVolume: [] });
  });

  test('one stroke missing spoils one run', () => {
    expect(runsFor('RLRRLRLL', { stroke: (n, i) => ({ out: n === 5 && i === 2 }) })).toMatchObject({ runs: 16, clean: 15 });
  });

  // 150 ms between strokes: 6 ms is heard, so the tolerances are 24, 18 and 12 ms.
  test.each([
    { offMs: 11, wide: 16, medium: 16, narrow: 16 },
    { offMs: 15, wide: 16, medium: 16, narrow: 15 },
    { offMs: 21, wide: 16, medium: 15, narrow: 15 },
    { offMs: 27, wide: 15, medium: 15, narrow: 15 },
  ])('one stroke $offMs ms late leaves $wide, $medium, $narrow of 16 clean at wide, medium, narrow', ({ offMs, ...clean }) => {
    const playing: Partial<Playing> = { stroke: (n, i) => ({ offMs: n === 7 && i === 4 ? offMs : 0 }) };
    for (const tolerance of ['wide', 'medium', 'narrow'] as const) expect(runsFor('RLRRLRLL', playing, { tolerance }).clean).toBe(clean[tolerance]);
  });

  test('volume is judged on the mean of a place: one soft stroke spoils nothing, a place 4 dB down every run', () => {
    expect(runsFor('RLRRLRLL', { stroke: (n, i) => ({ db: n === 7 && i === 4 ? -10 : 0 }) }).clean).toBe(16);
    expect(runsFor('RLRRLRLL', { stroke: (_, i) => ({ db: i === 4 ? -4 : 0 }) })).toMatchObject({ clean: 0, offVolume: [4] });
  });

  test.each([
    { letters: 'RLRRLRLL', index: 4, db: -2.6, told: 'a little softer', clean: 16 },
    { letters: 'RLRRLRLL', index: 4, db: -3.6, told: 'clearly softer', clean: 0 },
    { letters: 'RLRRLRLL', index: 4, db: -5, told: 'clearly softer', clean: 0 },
    { letters: 'RLRLRLKK', index: 7, db: -2.6, told: 'a little softer', clean: 16 },
    { letters: 'RLRLRLKK', index: 7, db: -3.6, told: 'clearly softer', clean: 0 },
  ])(
    'in $letters a stroke $db dB down is told as $told, and by the same bound $clean of 16 runs are clean (says: GLOSSARY, 3 dB)',
    ({ letters, index, db, told, clean }) => {
      const cycle = cycleOf(letters, 4);
      const candidates = play(cycle, { cycles: 16, tempoBpm: 100, stroke: (_, i) => ({ db: i === index ? db : 0 }) });
      const measured = measure(candidates, cycle, { tempoBpm: 100, durationSec: candidates.at(-1)!.timeSec + 2 }).value!;
      expect(say(findingsOf(measured, { cycle })[0]!)).toContain(told);
      expect(cleanRuns(measured, { cycle }).clean).toBe(clean);
    },
  );

  test('a shape that was wanted is no unevenness, and missing it is', () => {
    const leaning: Partial<Playing> = { stroke: (_, i) => ({ db: i === 4 ? 4 : 0 }) };
    const shapeDb = [0, 0, 0, 0, 4, 0, 0, 0];
    expect(runsFor('RLRRLRLL', leaning, { shapeDb }).clean).toBe(16);
    expect(runsFor('RLRRLRLL', {}, { shapeDb }).clean).toBe(0);
  });

  test.each([
    { wanted: 'leaning' as const, letters: 'RLRRLRLL', played: (i: number) => ({ db: i === 3 || i === 7 ? 6 : 0 }) },
    { wanted: 'swing' as const, letters: 'RLRRLRLL', played: (i: number) => ({ offMs: i % 2 === 1 ? 40 : 0 }) },
    { wanted: 'ghosted' as const, letters: 'RLLRRLLR', played: (i: number) => ({ db: [1, 2, 5, 6].includes(i) ? -11 : 0 }) },
  ])('$wanted of which the amount is not told: as much as was played is no unevenness (says: JOB.md, clean)', ({ wanted, letters, played }) => {
    const playing: Partial<Playing> = { stroke: (_, i) => played(i) };
    expect(runsFor(letters, playing).clean).toBe(0);
    expect(runsFor(letters, playing, { shapes: [wanted] })).toMatchObject({ runs: 16, clean: 16 });
    expect(runsFor(letters, { stroke: (n, i) => (n === 7 && i === 4 ? { ...played(i), offMs: 60 } : played(i)) }, { shapes: [wanted] }).clean).toBe(
      15,
    );
  });

  test.each([
    // Strokes meant together are heard as one: the hand that falls with an accent, or with a kick, is as loud as the two of them.
    { letters: 'RLR+>LLRLRL', says: 'an accent under a hand of the same drum' },
    { letters: 'RLR+KLRLRL', says: 'a kick under a hand' },
  ])('$letters, $says: that it is louder than the hand alone spoils nothing', ({ letters }) => {
    const { strokes } = cycleOf(letters, 4);
    const together = strokes.filter(({ beat }) => strokes.filter((other) => toNumber(other.beat) === toNumber(beat)).length > 1);
    const louder: Partial<Playing> = { stroke: (_, i) => ({ db: together.some(({ index }) => index === i) ? 5 : 0 }) };
    expect(together).toHaveLength(2);
    expect(runsFor(letters, louder)).toMatchObject({ offVolume: [] });
    expect(runsFor(letters, louder).clean).toBe(runsFor(letters, louder).runs);
  });

  test('a second kick that is louder leans into the beat and spoils nothing (says: JOB.md)', () => {
    expect(runsFor('RLRLKK', { cycles: 20, stroke: (_, i) => ({ db: i === 5 ? 8 : 0 }) }).clean).toBe(15);
    expect(runsFor('RLRLKK', { cycles: 20, stroke: (_, i) => ({ db: i === 5 ? -8 : 0 }) }).clean).toBe(0);
  });
});

describe('a stroke of which nothing was heard in its place (issue 8: an uneven bar of fast sixteenths told nothing)', () => {
  // 60 ms between sixteenths at 250: a stroke belongs to its place within 45 % of that.
  const cycle = cycleOf('RLRRLRLL', 4);
  const candidates = play(cycle, { cycles: 16, tempoBpm: 250 });
  const even = measure(candidates, cycle, { tempoBpm: 250, durationSec: candidates.at(-1)!.timeSec + 1 }).value!;
  const unheard = even.strokes[20]!;
  const strokes = even.strokes.map((stroke) =>
    stroke === unheard ? { ...stroke, status: 'notAudible' as const, playedSec: null, errorMs: null, levelDb: null } : stroke,
  );
  const withExtra = (offsMs: readonly number[]) => ({
    ...even,
    strokes,
    extra: offsMs.map((ms) => ({ timeSec: unheard.expectedSec + ms / 1000, levelDb: 0 })),
  });

  test.each([
    { offsMs: [], runs: 15, clean: 15, untold: 1, says: 'nothing else was heard: it tells nothing' },
    { offsMs: [35], runs: 16, clean: 15, untold: 0, says: 'it came 35 ms late: it is heard, and not in time' },
    { offsMs: [-40], runs: 16, clean: 15, untold: 0, says: 'it came 40 ms early' },
    { offsMs: [70], runs: 15, clean: 15, untold: 1, says: 'what lies beyond its neighbours is another' },
  ])('extra strokes at $offsMs ms: $says', ({ offsMs, runs, clean, untold }) => {
    expect(cleanRuns(withExtra(offsMs), { cycle })).toEqual({ runs, clean, untold, offVolume: [] });
  });
});

test('a spread of 10 ms against ±24 ms leaves runs clean as the normal distribution says (closed form: .98360⁸ = .876; tolerance 4 standard errors of 300)', () => {
  const random = seededRandom(11);
  const { clean, runs } = runsFor('RLRRLRLL', { cycles: 300, stroke: () => ({ offMs: 10 * normal(random) }) }, { tolerance: 'wide' });
  expect(runs).toBe(300);
  expect(Math.abs(clean / runs - 0.876)).toBeLessThan(0.076);
});
