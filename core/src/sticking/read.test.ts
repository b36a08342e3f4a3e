import fc from 'fast-check';
import { expect, test } from 'vitest';
import { add, compare, rational, ZERO } from '../rational.ts';
import { say } from '../words/index.ts';
import { anySticking } from './any.case.ts';
import { readSticking } from './read.ts';
import type { Sticking } from './sticking.ts';

const read = (text: string): Sticking => {
  const { value, problems } = readSticking(text);
  expect(problems.filter(({ severity }) => severity === 'refused')).toEqual([]);
  return value!;
};
const onsets = (text: string) => read(text).strokes.map(({ limb, slot }) => `${limb}@${slot.num}/${slot.den}`);

test.each([
  { says: 'DESIGN grammar: spaces only group', text: 'RLRL KK', written: 'RLRLKK' },
  { says: 'DESIGN grammar: >lR and l>R are one, written back l>R', text: '>lR', written: 'l>R' },
  { says: 'DESIGN grammar: l>R', text: 'l>R', written: 'l>R' },
  { says: 'DESIGN grammar: a drag', text: 'llR', written: 'llR' },
  { says: 'DESIGN grammar: a group', text: '{ 2 : R L R }', written: '{2:RLR}' },
  { says: 'DESIGN grammar: ghost, buzz, diddle, rest', text: '(R) Lz R/ -', written: '(R)LzR/-' },
])('$says: $text', ({ text, written }) => {
  expect(read(text).text).toBe(written);
});

test.each([
  { says: 'DESIGN grammar: R+K is one slot, two indices', text: 'R+KL', expected: ['R@0/1', 'K@0/1', 'L@1/1'] },
  { says: 'DESIGN grammar: R/ is two strokes in the time of one', text: 'R/L', expected: ['R@0/1', 'R@1/2', 'L@1/1'] },
  { says: 'DESIGN grammar: {2:RLR} is three in the time of two', text: '{2:RLR}K', expected: ['R@0/1', 'L@2/3', 'R@4/3', 'K@2/1'] },
  { says: 'DESIGN: index counts main strokes, rests and graces not counted', text: 'lR-llK', expected: ['R@0/1', 'K@2/1'] },
  { says: 'docs/formats/sticking.md: indices in order of time', text: 'R/+K', expected: ['R@0/1', 'K@0/1', 'R@1/2'] },
])('$says', ({ text, expected }) => {
  expect(onsets(text)).toEqual(expected);
});

test('signs land on their stroke', () => {
  const [flam, ghost, buzz, drag, first, second] = read('l>R (L) Rz rrL >R/').strokes;
  expect(flam).toMatchObject({ limb: 'R', accent: true, graces: ['L'], at: 2 });
  expect(ghost).toMatchObject({ limb: 'L', ghost: true, accent: false, at: 5 });
  expect(buzz).toMatchObject({ limb: 'R', buzz: true });
  expect(drag).toMatchObject({ limb: 'L', graces: ['R', 'R'] });
  expect(first).toMatchObject({ diddle: 'first', accent: true, lengthSlots: { num: 1, den: 2 } });
  expect(second).toMatchObject({ diddle: 'second', accent: false, lengthSlots: { num: 1, den: 2 } });
});

test.each([
  { text: '', code: 'sticking-empty', at: 0, tells: /RLRLKK/ },
  { text: '  \t', code: 'sticking-empty', at: 0, tells: /no sticking/ },
  { text: '--', code: 'sticking-no-stroke', at: 0, tells: /rests/ },
  { text: 'RLXL', code: 'sticking-unknown-character', at: 2, tells: /X is not part/ },
  { text: 'RLRLBB', code: 'sticking-unknown-character', at: 4, tells: /Did you mean K\?/ },
  { text: 'RLRLkk', code: 'sticking-unknown-character', at: 4, tells: /Did you mean K\?/ },
  { text: '^RLRR', code: 'sticking-unknown-character', at: 0, tells: /Did you mean >\?/ },
  { text: 'RL|RL', code: 'sticking-unknown-character', at: 2, tells: /Leave \| out/ },
  { text: 'R𝄽L', code: 'sticking-unknown-character', at: 1, tells: /𝄽/ },
  { text: '{2:RLR', code: 'sticking-unfinished', at: 0, tells: /Type \}/ },
  { text: 'L(R', code: 'sticking-unfinished', at: 1, tells: /Type \)/ },
  { text: 'RL>', code: 'sticking-unfinished', at: 2, tells: /stroke is missing after >/ },
  { text: 'R+', code: 'sticking-unfinished', at: 1, tells: /missing after \+/ },
  { text: '{2:R+}', code: 'sticking-unfinished', at: 4, tells: /missing after \+/ },
  { text: 'l', code: 'sticking-reads-as-grace', at: 0, tells: /Did you mean L\?/ },
  { text: '>RLl', code: 'sticking-unfinished', at: 3, tells: /missing after l/ },
  { text: '{2RLR}', code: 'sticking-unfinished', at: 0, tells: /colon/ },
  { text: '{RLR}', code: 'sticking-group-count', at: 0, tells: /\{2:RLR\}/ },
  { text: '{0:RL}', code: 'sticking-group-count', at: 0, tells: /not with 0/ },
  { text: 'R{2:}', code: 'sticking-group-empty', at: 1, tells: /empty/ },
  { text: '{2:R{1:LL}}', code: 'sticking-stray', at: 4, tells: /inside another/ },
  { text: 'R)L', code: 'sticking-stray', at: 1, tells: /Nothing is open/ },
  { text: '/R', code: 'sticking-stray', at: 0, tells: /directly after/ },
  { text: 'R/zL', code: 'sticking-stray', at: 2, tells: /directly after/ },
  { text: '>>R', code: 'sticking-stray', at: 1, tells: /One >/ },
  { text: 'R2L', code: 'sticking-stray', at: 1, tells: /number/ },
  { text: 'R+L+R', code: 'sticking-same-limb-together', at: 4, tells: /R\// },
  { text: 'R'.repeat(257), code: 'sticking-too-long', at: 256, tells: /257 slots/ },
  { text: '{999:R}', code: 'sticking-too-long', at: 0, tells: /256/ },
  { text: 'rlrlkk', code: 'sticking-reads-as-grace', at: 0, tells: /RLRLKK/ },
  { text: 'RlRl', code: 'sticking-reads-as-grace', at: 1, tells: />RL>RL/ },
])('$text is refused: $code at $at', ({ text, code, at, tells }) => {
  const { value, problems } = readSticking(text);
  expect(value).toBeNull();
  expect(problems[0]).toMatchObject({ code, at, severity: 'refused' });
  expect(say(problems[0]!)).toMatch(tells);
});

test.each([
  { says: 'DESIGN: did you mean >RLL>R?', text: 'RllR', at: 1, suggestion: '>RLL>R' },
  { says: 'small letters between capitals of one hand', text: 'RlRlR', at: 1, suggestion: '>RL>RL>R' },
  { says: 'the same among others', text: 'KRllRK', at: 2, suggestion: '>K>RLL>R>K' },
])('$says: $text is read as graces and asked about', ({ text, at, suggestion }) => {
  const { value, problems } = readSticking(text);
  expect(value?.strokes.find(({ graces }) => graces.length > 0)?.limb).toBe('R');
  expect(problems).toHaveLength(1);
  expect(problems[0]).toMatchObject({ code: 'sticking-reads-as-grace', severity: 'doubtful', at, params: { suggestion } });
});

test.each(['R llR', 'llRrrL', 'lRLRrLRL', 'llR>LrrL>R', 'RlRLrL', 'RlR', 'lRlRlR'])(
  '%s is written as graces on purpose: nothing is asked',
  (text) => {
    expect(readSticking(text).problems).toEqual([]);
  },
);

test('a grace by the hand of its own stroke is doubtful', () => {
  const { value, problems } = readSticking('rR');
  expect(value?.strokes).toHaveLength(1);
  expect(problems).toMatchObject([{ code: 'sticking-grace-own-hand', severity: 'doubtful', at: 1 }]);
});

test('256 slots are read; every problem of a text is told at once', () => {
  expect(read('R'.repeat(256)).slotCount).toBe(256);
  expect(readSticking('RX)Q').problems.map(({ at }) => at)).toEqual([1, 2, 3]);
});

test('law: what is written reads back as itself, and writing it again changes nothing', () => {
  fc.assert(
    fc.property(anySticking, (text) => {
      const first = read(text);
      const again = read(first.text);
      expect(again.text).toBe(first.text);
      expect(again.slotCount).toBe(first.slotCount);
      expect(again.strokes.map(({ at, ...stroke }) => stroke)).toEqual(first.strokes.map(({ at, ...stroke }) => stroke));
    }),
    { seed: 8 },
  );
});

test('law: every letter is a stroke at its own place, in time and within the cycle', () => {
  fc.assert(
    fc.property(anySticking, (text) => {
      const { strokes, slotCount } = read(text);
      expect(strokes).toHaveLength((text.match(/[RLKH]/g) ?? []).length + (text.match(/\//g) ?? []).length);
      strokes.forEach((stroke, i) => {
        expect(stroke.index).toBe(i);
        expect(text[stroke.at]).toBe(stroke.limb);
        expect(compare(stroke.slot, strokes[i - 1]?.slot ?? ZERO)).toBeGreaterThanOrEqual(0);
        expect(compare(add(stroke.slot, stroke.lengthSlots), rational(slotCount))).toBeLessThanOrEqual(0);
      });
    }),
    { seed: 8 },
  );
});

test('law: whatever is typed, reading answers: a value, or a refused problem inside the text', () => {
  const typed = fc.string({ unit: fc.constantFrom(...'RLKHrl>+-/z(){}:12 xk^é𝄽'), maxLength: 40 });
  fc.assert(
    fc.property(typed, (text) => {
      const { value, problems } = readSticking(text);
      expect(value === null).toBe(problems.some(({ severity }) => severity === 'refused'));
      for (const { at } of problems) expect(at! <= text.length).toBe(true);
      for (const problem of problems) expect(say(problem)).not.toBe(problem.code);
    }),
    { numRuns: 500, seed: 8 },
  );
});
