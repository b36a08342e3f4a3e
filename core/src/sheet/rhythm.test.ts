import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type ExerciseContent, readContent } from '../exercise/index.ts';
import { add, compare, divide, multiply, type Rational, rational, toNumber } from '../rational.ts';
import { anySticking } from '../sticking/any.case.ts';
import { readSticking } from '../sticking/index.ts';
import { lengthOf, type WrittenVoice, writeOut } from './rhythm.ts';

const contentOf = (text: string, perBeat: number, beats = 4): ExerciseContent =>
  readContent(readSticking(text).value!, { perBeat, meter: { beats, unit: 4 } }).value!;

/** A bar in short: value, r for a rest, beam number. */
const short = ({ notes }: WrittenVoice): string =>
  notes.map(({ value, strokes, beam }) => `${value}${strokes.length === 0 ? 'r' : ''}${beam === null ? '' : `b${beam}`}`).join(' ');
const firstBar = (text: string, perBeat: number, beats = 4): string => short(writeOut(contentOf(text, perBeat, beats)).bars[0]!.voices[0]!);

test.each([
  { says: 'sixteenths beamed by the beat', text: 'RLRL', perBeat: 4, beats: 2, bar: '16b1 16b1 16b1 16b1 16b2 16b2 16b2 16b2' },
  { says: 'a stroke takes the rest after it where an eighth says the same', text: 'R-L-', perBeat: 4, beats: 1, bar: '8b1 8b1' },
  { says: 'off the grid of eighths it does not', text: 'RL-R', perBeat: 4, beats: 1, bar: '16b1 16b1 16r 16' },
  { says: 'two strokes and half a beat of rest', text: 'KK--', perBeat: 4, beats: 1, bar: '16b1 16b1 8r' },
  { says: 'silent beats join into quarter and half rests', text: `KK${'-'.repeat(14)}`, perBeat: 4, beats: 4, bar: '16b1 16b1 8r 4r 2r' },
  { says: 'one stroke a beat is a quarter in every subdivision', text: 'R----', perBeat: 5, beats: 2, bar: '4 4' },
  { says: 'triplets are eighths', text: 'RLR', perBeat: 3, beats: 1, bar: '8b1 8b1 8b1' },
  { says: 'a shuffle is a quarter and an eighth', text: 'R-L', perBeat: 3, beats: 1, bar: '4 8' },
  { says: 'sextuplets are sixteenths', text: 'RLRRLL', perBeat: 6, beats: 1, bar: '16b1 16b1 16b1 16b1 16b1 16b1' },
  { says: 'eight to the beat are thirty-seconds', text: 'RRLLRRLL', perBeat: 8, beats: 1, bar: '32b1 32b1 32b1 32b1 32b1 32b1 32b1 32b1' },
  { says: 'three in the time of two sixteenths are sixteenths', text: '{2:RLR}KK', perBeat: 4, beats: 1, bar: '16b1 16b1 16b1 16b1 16b1' },
  { says: 'five over a beat line keep one beam', text: 'RL{4:RLRLR}LK', perBeat: 4, beats: 2, bar: '16b1 16b1 16b2 16b2 16b2 16b2 16b2 16b3 16b3' },
])('common practice, no source: $says', ({ text, perBeat, beats, bar }) => {
  expect(firstBar(text, perBeat, beats)).toBe(bar);
});

test.each([
  { says: '3 in the time of 2', text: 'RLR', perBeat: 3, tuplets: ['3:2'] },
  { says: '5 in the time of 4', text: 'RLRLR', perBeat: 5, tuplets: ['5:4'] },
  { says: '7 in the time of 4', text: 'RLRLRLR', perBeat: 7, tuplets: ['7:4'] },
  { says: '{2:RLR} is 3 in the time of 2', text: '{2:RLR}RL', perBeat: 4, tuplets: ['3:2'] },
  { says: '{2:RLRL} is plain thirty-seconds', text: '{2:RLRL}RL', perBeat: 4, tuplets: [] },
  { says: '{4:RLR} is a triplet of eighths', text: '{4:RLR}', perBeat: 4, tuplets: ['3:2'] },
  { says: '{3:RL} is 2 in the time of 3', text: 'R{3:RL}', perBeat: 4, tuplets: ['2:3'] },
])('arithmetic: $says', ({ text, perBeat, tuplets }) => {
  const found = writeOut(contentOf(text, perBeat, 1)).bars[0]!.voices[0]!.tuplets.map(({ count, inTimeOf }) => `${count}:${inTimeOf}`);
  expect(found).toEqual(tuplets);
});

test('common practice, no source: of three in the time of two that a bar line cuts, the second stroke is tied over it', () => {
  const { bars } = writeOut(contentOf('RLR{2:RLR}', 4, 1), 2);
  const [first, second] = bars.map(({ voices }) => voices[0]!);
  expect(first!.notes.at(-1)).toMatchObject({ value: 32, tied: true, continued: false });
  expect(second!.notes[0]).toMatchObject({ value: 32, tied: false, continued: true });
  expect(second!.notes[1]!.beat).toEqual(rational(1, 12));
});

test('common practice, no source: hands and feet together are two voices, in turn they are one', () => {
  const stems = (text: string) => writeOut(contentOf(text, 4)).bars[0]!.voices.map(({ stem }) => stem);
  expect(stems('RLRLKK')).toEqual(['up']);
  expect(stems('R+KLRL')).toEqual(['up', 'down']);
});

test('law: the notes of every voice of every bar add up to the bar, exactly, whatever a bar line cuts', () => {
  fc.assert(
    fc.property(anySticking, fc.integer({ min: 1, max: 9 }), fc.integer({ min: 2, max: 7 }), (text, perBeat, beats) => {
      const { bars } = writeOut(contentOf(text, perBeat, beats), 6);
      for (const voice of bars.flatMap(({ voices }) => voices)) expect(lengthOf(voice)).toEqual(rational(beats));
    }),
    { numRuns: 60, seed: 8 },
  );
});

test('law: every stroke of every cycle begins where the sticking says, in one voice', () => {
  fc.assert(
    fc.property(anySticking, fc.integer({ min: 1, max: 9 }), (text, perBeat) => {
      const content = contentOf(text, perBeat);
      const { slotCount, strokes } = readSticking(text).value!;
      const { bars } = writeOut(content);
      const told = bars.flatMap(({ voices }, bar) =>
        voices.flatMap(({ notes }) =>
          notes
            .filter(({ continued }) => !continued)
            .flatMap(({ beat, lengthBeats, strokes: found }) =>
              found.map(({ cycle, stroke }) => {
                const half = stroke.diddle === 'second' ? divide(lengthBeats, rational(2)) : rational(0);
                return `${cycle}.${stroke.index} ${toNumber(add(add(beat, rational(4 * bar)), half))}`;
              }),
            ),
        ),
      );
      const slots = bars.length * 4 * perBeat;
      const expected = Array.from({ length: Math.ceil(slots / slotCount) }, (_, cycle) =>
        strokes.map(({ index, slot }) => ({ name: `${cycle}.${index}`, slot: add(slot, rational(cycle * slotCount)) })),
      )
        .flat()
        .filter(({ slot }) => compare(slot, rational(slots)) < 0)
        .map(({ name, slot }) => `${name} ${toNumber(divide(slot, rational(perBeat)))}`);
      expect([...told].sort()).toEqual([...expected].sort());
    }),
    { numRuns: 60, seed: 8 },
  );
});

test('law: value and brackets say the time of every note, exactly', () => {
  fc.assert(
    fc.property(anySticking, fc.integer({ min: 1, max: 9 }), (text, perBeat) => {
      for (const { notes, tuplets } of writeOut(contentOf(text, perBeat)).bars.flatMap(({ voices }) => voices)) {
        for (const [i, { value, lengthBeats, strokes }] of notes.entries()) {
          const ratios = tuplets.filter(({ first, last }) => first <= i && i <= last).map(({ count, inTimeOf }) => rational(inTimeOf, count));
          const written: Rational = value === 1 && strokes.length === 0 ? rational(4) : ratios.reduce(multiply, rational(4, value));
          expect(written).toEqual(lengthBeats);
        }
      }
    }),
    { numRuns: 60, seed: 8 },
  );
});
