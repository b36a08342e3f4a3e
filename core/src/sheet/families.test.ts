import { expect, test } from 'vitest';
import { defaultFocus, exercisesFor, readContent } from '../exercise/index.ts';
import { readSticking } from '../sticking/index.ts';
import { engrave } from './engrave.ts';
import { headsIn } from './heads.case.ts';
import { lengthOf, writeOut } from './rhythm.ts';

/** Bars of the longest exercise written out: eight, four of time and four of the phrase. */
const ALL_BARS = 8;

test.each([
  { text: 'RLRLKK', perBeat: 4 },
  { text: 'RLRRLRLL', perBeat: 4 },
  { text: 'RLL', perBeat: 3 },
  { text: 'lRLrLR', perBeat: 4 },
  { text: 'RLRRLKK', perBeat: 4 },
  { text: 'RL/KR{2:LRL}', perBeat: 6 },
])('issue 3: every exercise for $text engraves, with bars whose notes add up to the bar and a head for each stroke', ({ text, perBeat }) => {
  const sticking = readSticking(text).value!;
  const { exercises } = exercisesFor(readContent(sticking, { perBeat }).value!, defaultFocus(sticking));
  expect(exercises.length).toBeGreaterThan(30);
  for (const exercise of exercises) {
    const { bars } = writeOut(exercise, ALL_BARS);
    for (const voice of bars.flatMap(({ voices }) => voices)) expect(lengthOf(voice)).toEqual({ num: exercise.meter.beats, den: 1 });
  }
  // One engraving in four is enough to meet every kind of idea; all of them take seconds.
  for (const exercise of exercises.filter((_, i) => i < 30 || i % 4 === 0)) {
    const { svg } = engrave(exercise, { barLimit: ALL_BARS });
    const drawn = new Set(
      headsIn(svg)
        .filter(({ cycle }) => cycle === 0)
        .map(({ index }) => index),
    );
    // A diddle is one head with a stroke through its stem.
    const heads = readSticking(exercise.sticking).value!.strokes.filter(({ diddle }) => diddle !== 'second');
    expect(drawn.size, exercise.sticking).toBe(heads.length);
  }
});
