import { describe, expect, test } from 'vitest';
import { readSticking } from '../sticking/index.ts';
import { say } from '../words/index.ts';
import { defaultFocus, type ExerciseContent, exercisesFor, readContent, type ShelfOptions } from './index.ts';
import { holdsTrue } from './reasons.case.ts';

const contentOf = (text: string, perBeat: number): ExerciseContent => readContent(readSticking(text).value!, { perBeat }).value!;
const shelfOf = (text: string, perBeat: number, options: ShelfOptions = {}) =>
  exercisesFor(contentOf(text, perBeat), defaultFocus(readSticking(text).value!), options).exercises;

describe('the piece of the week', () => {
  const piece = { title: 'Blue Hour', place: 'bridge', tempoBpm: 92 };
  const use = (options: ShelfOptions) => shelfOf('RLRLKK', 4, { families: ['use'], ...options });

  test('issue 6: title, place and tempo are named, half of eight bars and the last of them, and every reason is true', () => {
    const named = use({ piece }).filter(({ title }) => title.code === 'title-in-piece');
    expect(named.map(({ title }) => say(title))).toEqual([
      'In “Blue Hour”, bridge, at 92: four bars of time, four bars of RLRLKK',
      'In “Blue Hour”, bridge, at 92: seven bars of time, one bar of RLRLKK',
    ]);
    for (const exercise of named) holdsTrue({ exercise, phrase: contentOf('RLRLKK', 4) });
  });

  test('over a recording of four bars, and no content twice: what is on the shelf anyway comes under its name', () => {
    const shelf = shelfOf('RLRLKK', 4, { piece: { ...piece, place: '', bars: 4, recorded: true } });
    expect(say(shelf.find(({ title }) => title.code === 'title-in-piece')!.title)).toBe(
      'Over your recording of “Blue Hour” at 92: two bars of time, two bars of RLRLKK',
    );
    expect(new Set(shelf.map(({ id }) => id)).size).toBe(shelf.length);
    expect(shelf.slice(0, 15).some(({ title }) => title.code === 'title-in-piece')).toBe(true);
  });

  test.each([
    { text: 'RLRRLRLL', perBeat: 4 },
    { text: 'lRLrLR', perBeat: 4 },
    { text: 'RL/KR{2:LRL}-', perBeat: 6 },
    { text: 'RRK', perBeat: 3 },
  ])('every reason of $text is true in a piece of 1 to 16 bars', ({ text, perBeat }) => {
    for (const bars of [1, 2, 3, 8, 16])
      for (const exercise of shelfOf(text, perBeat, { families: ['use'], piece: { ...piece, bars } })) {
        holdsTrue({ exercise, phrase: contentOf(text, perBeat) });
      }
  });
});
