import fc from 'fast-check';
import { expect, test } from 'vitest';
import { ParameterError } from '../errors.ts';
import { anySticking } from './any.case.ts';
import { readSticking } from './read.ts';
import { cellOf, mirror, rotate, startsOf } from './turn.ts';

const read = (text: string) => readSticking(text).value!;
const hands = fc.string({ unit: fc.constantFrom('R', 'L', 'K', 'H'), minLength: 1, maxLength: 16 });

test.each([
  { says: 'issue 6: start on stroke 6 of RLRLKK', text: 'RLRLKK', start: 5, expected: 'KRLRLK' },
  { says: 'FACTS.md 8: paradiddle, shift 4 is the hand swap', text: 'RLRRLRLL', start: 4, expected: 'LRLLRLRR' },
  { says: 'docs/formats: rests turn with the cycle', text: 'RL-K', start: 2, expected: 'KRL-' },
  { says: 'docs/formats: groups stay whole', text: 'K{2:RLR}L', start: 1, expected: '{2:RLR}LK' },
  { says: 'docs/formats: a diddle stays whole', text: 'R/LK', start: 2, expected: 'LKR/' },
])('$says', ({ text, start, expected }) => {
  expect(rotate(read(text), start).text).toBe(expected);
});

test('no inversion begins inside a group, on the second of a diddle, on a further stroke together', () => {
  expect(startsOf(read('K{2:RLR}L/R+K-'))).toEqual([0, 1, 4, 6]);
  expect(() => rotate(read('R/L'), 1)).toThrow(ParameterError);
});

test.each([
  { text: 'RLRLKK', first: 4, last: 5, expected: 'KK', from: 4 },
  { text: 'KRLRLK', first: 5, last: 0, expected: 'KK', from: 5 },
  { text: 'RL-K', first: 1, last: 2, expected: 'L-K', from: 1 },
  { text: 'K{2:RLR}L', first: 2, last: 4, expected: '{2:RLR}L', from: 1 },
  { text: 'RLL', first: 1, last: 0, expected: 'LLR', from: 1 },
  { text: 'R/L', first: 1, last: 0, expected: 'R/L', from: 0 },
])('cell $first to $last of $text is $expected', ({ text, first, last, expected, from }) => {
  const cell = cellOf(read(text), { first, last });
  expect(cell.sticking.text).toBe(expected);
  expect(cell.first).toBe(from);
});

test('feet stay or change sides when the hands are mirrored', () => {
  expect(mirror(read('l>RLK+H(R)')).text).toBe('r>LRK+H(L)');
  expect(mirror(read('RLK'), { feet: 'swapped' }).text).toBe('LRH');
});

test('law: turning through all starts comes back; strokes keep their signs under (i - start) mod n', () => {
  fc.assert(
    fc.property(anySticking, fc.nat(), (text, pick) => {
      const whole = read(text);
      const starts = startsOf(whole);
      const start = starts[pick % starts.length]!;
      const turned = rotate(whole, start);
      expect(turned.slotCount).toBe(whole.slotCount);
      const count = whole.strokes.length;
      for (const { index, limb, graces, accent } of whole.strokes) {
        expect(turned.strokes[(index - start + count) % count]).toMatchObject({ limb, graces, accent });
      }
    }),
    { seed: 8 },
  );
});

test('law: for plain letters a rotation is the rotation of the word', () => {
  fc.assert(
    fc.property(hands, fc.nat(), (text, pick) => {
      const start = pick % text.length;
      expect(rotate(read(text), start).text).toBe(text.slice(start) + text.slice(0, start));
    }),
    { seed: 8 },
  );
});

test('law: mirroring twice is nothing, and keeps every onset', () => {
  fc.assert(
    fc.property(anySticking, (text) => {
      const whole = read(text);
      const turned = mirror(whole, { feet: 'swapped' });
      expect(mirror(turned, { feet: 'swapped' }).text).toBe(whole.text);
      expect(turned.strokes.map(({ slot }) => slot)).toEqual(whole.strokes.map(({ slot }) => slot));
    }),
    { seed: 8 },
  );
});
