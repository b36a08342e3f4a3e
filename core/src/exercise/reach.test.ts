import { describe, expect, test } from 'vitest';
import { reachSoFar } from '../kit/index.ts';
import { readSticking } from '../sticking/index.ts';
import { say } from '../words/index.ts';
import { type Exercise, type ExerciseContent, exercisesFor, expectedCycle, readContent, readFocus } from './index.ts';
import { holdsTrue } from './reasons.case.ts';

/** Twenty cells: hands, feet, both; doubles, flams, drags, diddles, rests; issue 6. */
const TWENTY: readonly (readonly [text: string, perBeat: number, first: number, last: number])[] = [
  ['RLRLKK', 4, 4, 5],
  ['RLRRLL', 6, 4, 5],
  ['RLRRLRLL', 4, 2, 3],
  ['RLRRLRLL', 4, 6, 7],
  ['RLK', 3, 0, 2],
  ['RLK', 3, 1, 2],
  ['RLLK', 4, 1, 2],
  ['RLRLRLKK', 4, 6, 7],
  ['RLLRLLKK', 4, 6, 7],
  ['RLKRLKK', 4, 5, 6],
  ['RLRLK', 4, 3, 4],
  ['RLKK', 4, 2, 3],
  ['RRK', 3, 0, 1],
  ['lRRrLL', 4, 0, 1],
  ['l>RLRr>LRL', 3, 0, 1],
  ['lRLRRrLRLL', 4, 0, 2],
  ['R/LRRL/RLL', 4, 0, 1],
  ['RLHKRL', 4, 2, 3],
  ['R-LRKK', 4, 3, 4],
  ['R+KLRL+KRL', 4, 0, 1],
];
const TEMPI = [60, 90, 120];

const contentOf = (text: string, perBeat: number): ExerciseContent => readContent(readSticking(text).value!, { perBeat }).value!;

/** Strokes a second of the fastest 2 and 8 strokes of each limb, worked out from the exercise without the code that sorted it. */
function fastest(
  content: ExerciseContent,
  tempoBpm: number,
): readonly { readonly limb: 'R' | 'L' | 'K' | 'H'; readonly count: 2 | 8; readonly perSec: number }[] {
  const { strokes, lengthBeats } = expectedCycle(content);
  const length = lengthBeats.num / lengthBeats.den;
  return (['R', 'L', 'K', 'H'] as const).flatMap((limb) => {
    const own = strokes.filter((stroke) => stroke.limb === limb).map(({ beat }) => beat.num / beat.den);
    const at = (i: number) => own[i % own.length]! + Math.floor(i / own.length) * length;
    const beats = (count: number) => Math.min(...own.map((beat, i) => at(i + count - 1) - beat));
    return ([2, 8] as const).map((count) => ({ limb, count, perSec: own.length === 0 ? 0 : ((count - 1) / beats(count)) * (tempoBpm / 60) }));
  });
}

/**
 * The most that a burst may ask here where the phrase does not ask it itself. From FACTS.md 2: kick pairs to 13.3 a second, one hand at most 10 on end;
 * a hand's pair at 16 is a 32nd double at 120 (common practice, no source).
 */
const MOST = { R: { 2: 16, 8: 10 }, L: { 2: 16, 8: 10 }, K: { 2: 13.34, 8: 7 }, H: { 2: 13.34, 8: 7 } } as const;

test.each(TWENTY)(
  'must show 5: nothing among the first fifty for %s (%i per beat, strokes %i to %i from 0) is beyond four limbs at 60, 90 and 120',
  (text, perBeat, first, last) => {
    const content = contentOf(text, perBeat);
    const focus = readFocus({ first, last }, readSticking(text).value!).value!;
    for (const tempoBpm of TEMPI) {
      const own = fastest(content, tempoBpm);
      const { exercises, total } = exercisesFor(content, focus, { limit: 50, at: { tempoBpm } });
      expect(total).toBeGreaterThanOrEqual(50);
      for (const exercise of exercises) {
        const beyond = fastest(exercise, tempoBpm).filter(
          ({ limb, count, perSec }, i) => perSec > Math.max(MOST[limb][count], own[i]!.perSec) * (1 + 1e-9),
        );
        expect(beyond, `${say(exercise.title)} at ${tempoBpm}`).toEqual([]);
      }
    }
  },
);

describe('what this player reaches so far', () => {
  const content = contentOf('RLRLKK', 4);
  const focus = readFocus({ first: 4, last: 5 }, readSticking('RLRLKK').value!).value!;
  const placeOf = (exercises: readonly Exercise[], code: string) => exercises.findIndex(({ title }) => title.code === code);

  test('what lies beyond comes last and is not left out', () => {
    const all = exercisesFor(content, focus).exercises;
    const slow = exercisesFor(content, focus, {
      at: { tempoBpm: 100, reach: reachSoFar([{ limb: 'K', burst: 3, perSec: 4, clean: false }]) },
    }).exercises;
    expect(new Set(slow.map(({ id }) => id))).toEqual(new Set(all.map(({ id }) => id)));
    expect(placeOf(all, 'title-overload')).toBeLessThan(15);
    expect(placeOf(slow, 'title-overload')).toBeGreaterThan(50);
  });

  test('what was played clean is within', () => {
    const fast = exercisesFor(content, focus, {
      at: { tempoBpm: 140, reach: reachSoFar([{ limb: 'K', burst: 4, perSec: 10, clean: true }]) },
    }).exercises;
    expect(placeOf(fast, 'title-overload')).toBeLessThan(15);
  });
});

describe('history', () => {
  const content = contentOf('RLRLKK', 4);
  const focus = readFocus({ first: 4, last: 5 }, readSticking('RLRLKK').value!).value!;
  const ids = (options = {}) => exercisesFor(content, focus, options).exercises.map(({ id }) => id);
  const plain = ids();

  test('DESIGN: kept first, dropped never, done lately later, the rest in its order', () => {
    const history = {
      kept: [plain[20]!],
      dropped: [plain[0]!],
      done: [
        { id: plain[1]!, daysAgo: 0 },
        { id: plain[2]!, daysAgo: 60 },
      ],
    };
    const now = ids({ history });
    expect(now[0]).toBe(plain[20]);
    expect(now).not.toContain(plain[0]);
    expect(now.indexOf(plain[1]!)).toBeGreaterThanOrEqual(12);
    expect(now.indexOf(plain[2]!)).toBe(1);
    expect(now).toHaveLength(plain.length - 1);
  });

  test('no history, the same order', () => {
    expect(ids({ history: {} })).toEqual(plain);
  });
});

test('without feet: nothing for a foot, and work all the same', () => {
  const content = contentOf('RLRLKK', 4);
  const focus = readFocus({ first: 4, last: 5 }, readSticking('RLRLKK').value!).value!;
  const { exercises } = exercisesFor(content, focus, { feet: false });
  expect(exercises.length).toBeGreaterThan(0);
  for (const { sticking } of exercises) expect(sticking).not.toMatch(/[KH]/);
});

test('a kit for left-handers: the left goes down to the floor tom, accents to the tom of their side, and every reason is true', () => {
  const content = contentOf('>RLRR>LRLL', 4);
  const focus = readFocus({ first: 2, last: 3 }, readSticking(content.sticking).value!).value!;
  const { exercises } = exercisesFor(content, focus, { cymbalHand: 'L', kitSide: 'L' });
  for (const exercise of exercises) holdsTrue({ exercise, phrase: content });
  const out = exercises.find(({ title }) => title.code === 'title-accents-out')!;
  expect(out.surfaces.slice(0, 5)).toEqual(['high-tom', 'snare', 'snare', 'snare', 'floor-tom']);
  expect(say(out.reason)).toMatch(/right to the high tom, left to the floor tom/);
  const split = exercises.find(({ title }) => title.code === 'title-split')!;
  expect(split.surfaces[3]).toBe('high-tom');
});
