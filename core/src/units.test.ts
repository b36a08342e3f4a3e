import { expect, test } from 'vitest';
import {
  amplitudeOfDb,
  beatSec,
  beatsOfSec,
  bpmOfBeatSec,
  bpmOfBeats,
  dbOfAmplitude,
  dbOfPower,
  equalSpeedBpm,
  framesOfBeats,
  minutesOfSec,
  msOfDays,
  msOfMinutes,
  secOfBeats,
  secOfMinutes,
  slotMs,
  slotSec,
} from './units.ts';

test.each([
  { says: 'FACTS.md 1 (definition)', db: 1, ratio: 1.122018 },
  { says: 'FACTS.md 1 (definition)', db: 3, ratio: 1.412538 },
  { says: 'FACTS.md 1 (definition)', db: 6, ratio: 1.995262 },
  { says: 'FACTS.md 1 (definition)', db: 20, ratio: 10 },
])('$db dB is an amplitude ratio of $ratio: $says', ({ db, ratio }) => {
  expect(amplitudeOfDb(db)).toBeCloseTo(ratio, 6);
  expect(dbOfAmplitude(ratio)).toBeCloseTo(db, 5);
  expect(dbOfPower(ratio ** 2)).toBeCloseTo(db, 5);
});

test.each([
  { says: 'FACTS.md 12', tempoBpm: 120, perBeat: 4, ms: 125 },
  { says: 'FACTS.md 12', tempoBpm: 80, perBeat: 6, ms: 125 },
  { says: 'FACTS.md 12', tempoBpm: 72, perBeat: 5, ms: 166.6667 },
  { says: 'FACTS.md 12', tempoBpm: 90, perBeat: 4, ms: 166.6667 },
  { says: 'FACTS.md 12', tempoBpm: 160, perBeat: 8, ms: 46.875 },
  { says: 'FACTS.md 12', tempoBpm: 140, perBeat: 7, ms: 61.2245 },
])('$perBeat per beat at $tempoBpm last $ms ms: $says', ({ tempoBpm, perBeat, ms }) => {
  expect(slotMs(tempoBpm, perBeat)).toBeCloseTo(ms, 4);
  expect(slotSec(tempoBpm, perBeat)).toBeCloseTo(ms / 1000, 7);
});

test.each([
  { says: 'FACTS.md 12', from: 4, to: 3, tempoBpm: 90, expected: 120 },
  { says: 'FACTS.md 12', from: 4, to: 6, tempoBpm: 90, expected: 60 },
  { says: 'FACTS.md 12', from: 4, to: 5, tempoBpm: 90, expected: 72 },
  { says: 'FACTS.md 12', from: 4, to: 8, tempoBpm: 90, expected: 45 },
  { says: 'FACTS.md 12', from: 4, to: 2, tempoBpm: 120, expected: 240 },
])('$from per beat at $tempoBpm pass as fast as $to per beat at $expected: $says', ({ from, to, tempoBpm, expected }) => {
  expect(equalSpeedBpm(tempoBpm, from, to)).toBeCloseTo(expected, 9);
});

test('bars and time: FACTS.md 12', () => {
  expect(4 * 4 * beatSec(100)).toBeCloseTo(9.6, 9);
  expect(2 * 4 * beatSec(80)).toBeCloseTo(6, 9);
  expect(secOfBeats(16, 100)).toBeCloseTo(9.6, 9);
  expect(beatsOfSec(9.6, 100)).toBeCloseTo(16, 9);
  expect(framesOfBeats(16, 100, 48_000)).toBeCloseTo(9.6 * 48_000, 6);
  expect([bpmOfBeats(16, 9.6), bpmOfBeatSec(0.6)]).toEqual([expect.closeTo(100, 9), expect.closeTo(100, 9)]);
});

test('sixty seconds make a minute, 24 hours a day (definition); nothing has no decibels', () => {
  expect([secOfMinutes(1.5), minutesOfSec(90), msOfMinutes(2), msOfDays(1)]).toEqual([90, 1.5, 120_000, 24 * 60 * 60 * 1000]);
  expect([dbOfPower(0), dbOfAmplitude(0)]).toEqual([Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY]);
});
