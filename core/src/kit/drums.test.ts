import { expect, test } from 'vitest';
import { DRUMS, drumNamed, drumsOf, isKnownDrum, readName } from './drums.ts';

test.each([
  { name: 'kick', pitch: 'F4', head: 'normal', key: 36 },
  { name: 'floor-tom', pitch: 'A4', head: 'normal', key: 43 },
  { name: 'snare', pitch: 'C5', head: 'normal', key: 38 },
  { name: 'mid-tom', pitch: 'D5', head: 'normal', key: 47 },
  { name: 'high-tom', pitch: 'E5', head: 'normal', key: 50 },
  { name: 'ride', pitch: 'F5', head: 'x', key: 51 },
  { name: 'hi-hat', pitch: 'G5', head: 'x', key: 42 },
  { name: 'crash', pitch: 'A5', head: 'x', key: 49 },
  { name: 'hi-hat-foot', pitch: 'D4', head: 'x', key: 44 },
  { name: 'cross-stick', pitch: 'C5', head: 'x', key: 37 },
])('Weinberg 1994 and General MIDI (FACTS.md 10): $name is $pitch, head $head, key $key', ({ name, pitch, head, key }) => {
  expect(drumNamed(name)).toMatchObject({ pitch, head, midiKey: key });
});

test.each([
  { says: 'bass drum −3', name: 'kick', step: -3 },
  { says: 'floor tom −1', name: 'floor-tom', step: -1 },
  { says: 'snare +1', name: 'snare', step: 1 },
  { says: 'toms +2', name: 'mid-tom', step: 2 },
  { says: 'toms +3', name: 'high-tom', step: 3 },
  { says: 'ride +4', name: 'ride', step: 4 },
  { says: 'hi-hat +5', name: 'hi-hat', step: 5 },
  { says: 'crash +6', name: 'crash', step: 6 },
  { says: 'pedal −5', name: 'hi-hat-foot', step: -5 },
])('offsets from the middle line (FACTS.md 10, LilyPond weinberg-drums-style): $says', ({ name, step }) => {
  expect(drumNamed(name).step).toBe(step);
});

test('names are told apart by letters alone; an unknown one is a drum of its own', () => {
  expect(drumNamed('Floor Tom')).toBe(drumNamed('floor_tom'));
  expect(drumNamed('djembe slap')).toEqual({ name: 'djembe-slap', pitch: 'B4', step: 0, head: 'diamond', midiKey: null });
  expect(isKnownDrum('djembe-slap')).toBe(false);
  expect(isKnownDrum('tom')).toBe(true);
});

test('several unknown drums are told apart by their heads', () => {
  const drums = drumsOf(['tone', 'kick', 'Slap', 'tone', 'bell']);
  expect([...drums].map(([name, { head }]) => `${name} ${head}`)).toEqual(['tone diamond', 'kick normal', 'Slap triangle', 'bell x']);
});

test('no two drums look the same but the pad and the snare it stands for', () => {
  const looks = DRUMS.filter(({ name }) => name !== 'pad').map(({ pitch, head }) => pitch + head);
  expect(new Set(looks).size).toBe(looks.length);
});

test('General MIDI percussion keys go from 35 to 81 (FACTS.md 10)', () => {
  for (const { midiKey } of DRUMS) expect(midiKey! >= 35 && midiKey! <= 81).toBe(true);
});

test.each([
  { name: 'floor-tom', read: 'floor tom' },
  { name: 'hi-hat', read: 'hi-hat' },
  { name: 'open-hi-hat', read: 'open hi-hat' },
  { name: 'hi-hat-foot', read: 'hi-hat foot' },
  { name: 'cross-stick', read: 'cross-stick' },
])('common practice, no source: $name is read as "$read"', ({ name, read }) => {
  expect(readName(name)).toBe(read);
});
