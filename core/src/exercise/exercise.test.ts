import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { anySticking } from '../sticking/any.case.ts';
import { readSticking } from '../sticking/index.ts';
import { say } from '../words/index.ts';
import {
  barsUntilMet,
  contentId,
  defaultFocus,
  type ExerciseContent,
  exercisesFor,
  expectedCycle,
  readContent,
  readFocus,
  readSurfaces,
} from './index.ts';

const read = (text: string) => readSticking(text).value!;
const contentOf = (text: string, perBeat = 4, surfaces = ''): ExerciseContent => readContent(read(text), { perBeat, surfaces }).value!;
const shelf = (text: string, perBeat = 4) => exercisesFor(contentOf(text, perBeat), defaultFocus(read(text)));

test.each([
  { says: 'FACTS.md 8: 6 over sixteen 16ths, 3 bars', slots: 6, perBeat: 4, bars: 3 },
  { says: 'FACTS.md 8: 3 over sixteen 16ths, 3 bars', slots: 3, perBeat: 4, bars: 3 },
  { says: 'FACTS.md 8: 5 over sixteen 16ths, 5 bars', slots: 5, perBeat: 4, bars: 5 },
  { says: 'FACTS.md 8: 7 over sixteen 16ths, 7 bars', slots: 7, perBeat: 4, bars: 7 },
  { says: 'FACTS.md 8: 8 strokes in triplets, 2 bars', slots: 8, perBeat: 3, bars: 2 },
  { says: 'FACTS.md 8: 8 strokes in quintuplets, 2 bars', slots: 8, perBeat: 5, bars: 2 },
  { says: 'FACTS.md 8: 5/8 against 4/4, 5 bars', slots: 5, perBeat: 2, bars: 5 },
  { says: 'FACTS.md 8: 3/4 against 4/4, 12 quarters', slots: 3, perBeat: 1, bars: 3 },
])('$says', ({ slots, perBeat, bars }) => {
  expect(barsUntilMet(slots, perBeat)).toBe(bars);
});

test('the id is the first 128 bits of the SHA-256 that Node computes of the same JSON', () => {
  const content = contentOf('>RLRLKK');
  const json = '{"meter":{"beats":4,"unit":4},"perBeat":4,"sticking":">RLRLKK","surfaces":["snare","snare","snare","snare","kick","kick"]}';
  expect(contentId(content)).toBe(createHash('sha256').update(json).digest('hex').slice(0, 32));
});

test('the id knows the content only, and all of it', () => {
  const content = contentOf('RLK');
  expect(contentId({ ...content, title: 'x', reason: 'y' } as ExerciseContent)).toBe(contentId(content));
  const others = [contentOf('RLK', 3), contentOf('RLH'), contentOf('RLK', 4, 'R=ride'), { ...content, meter: { beats: 3, unit: 4 } }];
  expect(new Set([content, ...others].map(contentId)).size).toBe(5);
});

test.each([
  { says: 'DESIGN: one drum for the hands and the kick', text: '', expected: ['snare', 'snare', 'kick', 'hi-hat-foot'] },
  { says: 'DESIGN: a name per main stroke', text: 'snare Ride kick bell', expected: ['snare', 'ride', 'kick', 'bell'] },
  { says: 'DESIGN: one per limb', text: 'R=ride L=snare', expected: ['ride', 'snare', 'kick', 'hi-hat-foot'] },
])('$says', ({ text, expected }) => {
  expect(readSurfaces(text, read('RL-KH')).value).toEqual(expected);
});

test.each([
  { code: 'surfaces-count', problems: () => readSurfaces('snare kick', read('RLK')).problems, tells: /3 strokes, but 2 drums/ },
  { code: 'surfaces-limb', problems: () => readSurfaces('X=ride', read('RLK')).problems, tells: /R=ride/ },
  { code: 'cell-outside', problems: () => readFocus({ first: 4, last: 6 }, read('RLRLKK')).problems, tells: /5-7.*has 6 strokes/ },
  { code: 'per-beat-range', problems: () => readContent(read('RL'), { perBeat: 2.5 }).problems, tells: /whole number from 1 to 64/ },
])('$code is told', ({ code, problems, tells }) => {
  expect(problems()).toMatchObject([{ code, severity: 'refused' }]);
  expect(say(problems()[0]!)).toMatch(tells);
});

test('the expected cycle stands in exact beats', () => {
  const cycle = expectedCycle(contentOf('l>R{2:RLR}-(L)', 4));
  expect(cycle.lengthBeats).toEqual({ num: 5, den: 4 });
  expect(cycle.strokes.map(({ beat }) => `${beat.num}/${beat.den}`)).toEqual(['0/1', '1/4', '5/12', '7/12', '1/1']);
  expect(cycle.strokes[0]).toMatchObject({ limb: 'R', surface: 'snare', accent: true, graceCount: 1 });
  expect(cycle.strokes[4]).toMatchObject({ limb: 'L', ghost: true });
});

test.each([
  { text: 'RLRLKK', cell: { first: 4, last: 5 } },
  { text: 'KRLRLK', cell: { first: 5, last: 0 } },
  { text: 'RLRRLRLL', cell: { first: 2, last: 3 } },
  { text: 'RLK', cell: { first: 0, last: 2 } },
  { text: 'R', cell: { first: 0, last: 0 } },
])('brief: the cell guessed in $text', ({ text, cell }) => {
  expect(defaultFocus(read(text)).cell).toEqual(cell);
});

test('issue 6: KRLRLK after RLRLKK makes three kicks, and the reason says so; KKRLRL four', () => {
  const turned = shelf('RLRLKK').exercises.filter(({ title }) => title.code === 'title-inversion');
  const reasons = Object.fromEntries(turned.map(({ sticking, reason }) => [sticking, say(reason)]));
  expect(reasons.KRLRLK).toMatch(/split.*Coming straight from RLRLKK, the join makes three kicks in a row/);
  expect(reasons.KKRLRL).toMatch(/opens the cycle.*four kicks/);
  expect(reasons.LRLKKR).not.toMatch(/join/);
  expect(say(turned[0]!.title)).toBe('Start on stroke 6: KRLRLK');
});

test.each([
  { text: 'RLRLKK', perBeat: 4, inversion: 'LRLKKR', tells: 'KK now begins on the e and the a; in the phrase as it stands, on the beat and the &.' },
  { text: 'RLRLKK', perBeat: 4, inversion: 'RLKKRL', tells: 'Another stroke stands on 1' },
  { text: 'RLRRLRLL', perBeat: 4, inversion: 'LRRLRLLR', tells: 'RR now begins on the e; in the phrase as it stands, on the &.' },
  { text: 'RLRRK', perBeat: 4, inversion: 'LRRKR', tells: 'Another stroke stands on 1' },
  {
    text: 'RLKKRL',
    perBeat: 3,
    inversion: 'LKKRLR',
    tells: 'KK now begins on the second triplet; in the phrase as it stands, on the third triplet.',
  },
])('arithmetic, counted aloud: $text begun as $inversion', ({ text, perBeat, inversion, tells }) => {
  const found = shelf(text, perBeat).exercises.find(({ sticking, title }) => sticking === inversion && title.code === 'title-inversion')!;
  expect(say(found.reason)).toContain(tells);
});

test('rests break a run, so no join is told', () => {
  const reasons = exercisesFor(contentOf('KRLK-'), defaultFocus(read('KRLK-'))).exercises.map(({ reason }) => say(reason));
  expect(reasons.some((reason) => /the join/.test(reason))).toBe(false);
});

test('the strokes that need most work open the first inversions', () => {
  const content = contentOf('RLRLKK');
  const { exercises } = exercisesFor(content, { cell: { first: 4, last: 5 }, weights: [0, 0, 0, 0.4, 0.2, 1] }, { families: ['inversion'] });
  const turned = exercises.filter(({ title }) => title.code === 'title-inversion');
  expect(turned.slice(0, 2).map(({ sticking }) => sticking)).toEqual(['KRLRLK', 'LKKRLR']);
});

test('drums follow their strokes into cells and inversions', () => {
  const content = contentOf('RLK', 3, 'ride snare kick');
  const { exercises } = exercisesFor(content, readFocus({ first: 1, last: 2 }, read('RLK')).value!, { families: ['inversion', 'dynamics'] });
  for (const { sticking, surfaces } of exercises) {
    expect(surfaces).toEqual(Array.from(sticking.replaceAll(/[^RLKH]/g, ''), (letter) => ({ R: 'ride', L: 'snare', K: 'kick' })[letter]));
  }
});

test('law: no content twice, every start of a plain loop there once, every exercise reads and is said', () => {
  fc.assert(
    fc.property(anySticking, fc.integer({ min: 1, max: 8 }), (text, perBeat) => {
      const { exercises, total } = shelf(text, perBeat);
      expect(total).toBe(exercises.length);
      expect(new Set(exercises.map(({ id }) => id)).size).toBe(total);
      for (const exercise of exercises) {
        expect(exercise.surfaces).toHaveLength(read(exercise.sticking).strokes.length);
        expect(exercise.id).toBe(contentId(exercise));
        expect(say(exercise.title)).not.toBe(exercise.title.code);
        expect(say(exercise.reason)).not.toBe(exercise.reason.code);
      }
    }),
    { numRuns: 60, seed: 8 },
  );
});

test.each([
  { says: 'FACTS.md 8: the paradiddle has 8 rotations', text: 'RLRRLRLL', count: 8 },
  { says: 'FACTS.md 8: RRLLRRLL has 4', text: 'RRLLRRLL', count: 4 },
  { says: 'FACTS.md 8: RLRLRLRL has 2', text: 'RLRLRLRL', count: 2 },
])('$says, so many inversions', ({ text, count }) => {
  const { exercises } = exercisesFor(contentOf(text), defaultFocus(read(text)), { families: ['inversion'] });
  expect(exercises.filter(({ title }) => ['title-whole', 'title-inversion'].includes(title.code))).toHaveLength(count);
});
