import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type ExerciseContent, readContent } from '../exercise/index.ts';
import { multiply, type Rational, rational } from '../rational.ts';
import { anySticking } from '../sticking/any.case.ts';
import { eventsOf, readSticking } from '../sticking/index.ts';
import { lengthOf, type WrittenBar, writeOut } from './rhythm.ts';

const contentOf = (text: string, perBeat: number, beats = 4): ExerciseContent =>
  readContent(readSticking(text).value!, { perBeat, meter: { beats, unit: 4 } }).value!;

/** A bar in short: value, r for a rest, beam number. */
const short = ({ notes }: WrittenBar): string =>
  notes.map(({ value, strokes, beam }) => `${value}${strokes.length === 0 ? 'r' : ''}${beam === null ? '' : `b${beam}`}`).join(' ');
const firstBar = (text: string, perBeat: number, beats = 4): string => short(writeOut(contentOf(text, perBeat, beats)).bars[0]!);

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
  const found = writeOut(contentOf(text, perBeat, 1)).bars[0]!.tuplets.map(({ count, inTimeOf }) => `${count}:${inTimeOf}`);
  expect(found).toEqual(tuplets);
});

/** Whether a bar line cuts a group of this content. */
function isCut(content: ExerciseContent): boolean {
  const sticking = readSticking(content.sticking).value!;
  const barSlots = content.meter.beats * content.perBeat;
  const starts = eventsOf(sticking).flatMap(({ group }) => (group ? [group] : []));
  return Array.from({ length: 70 * barSlots }, (_, cycle) => cycle * sticking.slotCount).some((offset) =>
    starts.some(
      ({ startSlot, slotCount }) => Math.floor((offset + startSlot) / barSlots) !== Math.floor((offset + startSlot + slotCount - 1) / barSlots),
    ),
  );
}

test('law: the notes of every bar add up to the bar, exactly, unless a bar line cuts a group', () => {
  fc.assert(
    fc.property(anySticking, fc.integer({ min: 1, max: 9 }), fc.integer({ min: 2, max: 7 }), (text, perBeat, beats) => {
      const content = contentOf(text, perBeat, beats);
      const { bars } = writeOut(content, 6);
      fc.pre(!isCut(content));
      for (const bar of bars) expect(lengthOf(bar)).toEqual(rational(beats));
    }),
    { numRuns: 150, seed: 8 },
  );
});

test('law: value and brackets say the time of every note, exactly', () => {
  fc.assert(
    fc.property(anySticking, fc.integer({ min: 1, max: 9 }), (text, perBeat) => {
      fc.pre(!isCut(contentOf(text, perBeat)));
      for (const { notes, tuplets } of writeOut(contentOf(text, perBeat)).bars) {
        for (const [i, { value, lengthBeats, strokes }] of notes.entries()) {
          const ratios = tuplets.filter(({ first, last }) => first <= i && i <= last).map(({ count, inTimeOf }) => rational(inTimeOf, count));
          const written: Rational = value === 1 && strokes.length === 0 ? rational(4) : ratios.reduce(multiply, rational(4, value));
          expect(written).toEqual(lengthBeats);
        }
      }
    }),
    { numRuns: 150, seed: 8 },
  );
});
