import fc from 'fast-check';
import { beforeEach, expect, test } from 'vitest';
import { contentId, ownExercise, readContent } from '../../../core/src/exercise/index.ts';
import { anySticking } from '../../../core/src/sticking/any.case.ts';
import { readSticking } from '../../../core/src/sticking/index.ts';
import { learnAllSentences } from './saidall.ts';
import { exerciseIn, fileName, linkOf, tempoIn, textOf } from './takealong.ts';

beforeEach(learnAllSentences);

const contentOf = (text: string, perBeat = 4, surfaces = '') => readContent(readSticking(text).value!, { perBeat, surfaces }).value!;

test('law: a link opens the exercise it was made of, and holds it behind the #, where nothing is sent', () => {
  fc.assert(
    fc.property(anySticking, fc.integer({ min: 1, max: 8 }), fc.integer({ min: 20, max: 320 }), (text, perBeat, tempoBpm) => {
      const content = contentOf(text, perBeat);
      const link = new URL(linkOf(content, tempoBpm, 'https://example.org/app/?demo=read#shelf'));
      expect(link.search).toBe('');
      expect(exerciseIn(link.hash)?.id).toBe(contentId(content));
      expect(tempoIn(link.hash)).toBe(tempoBpm);
    }),
    { seed: 4, numRuns: 50 },
  );
});

test.each([
  { says: 'a screen', hash: '#shelf' },
  { says: 'nothing', hash: '' },
  { says: 'a sticking that does not read', hash: '#exercise?s=RQ&n=4&m=4/4' },
  { says: 'no such bar', hash: '#exercise?s=RL&n=4&m=4/0' },
  { says: 'no such bar', hash: '#exercise?s=RL&n=4&m=9999999/4' },
  { says: 'slots that cannot be', hash: '#exercise?s=RL&n=1e9&m=4/4' },
  { says: 'drums for other strokes', hash: '#exercise?s=RL&n=4&m=4/4&d=snare' },
])('an address with $says holds no exercise', ({ hash }) => {
  expect(exerciseIn(hash)).toBeNull();
});

test.each(['#exercise?s=RL&n=4&m=4/4', '#exercise?s=RL&n=4&m=4/4&t=1e9', '#exercise?s=RL&n=4&m=4/4&t=fast', '#shelf?t=90'])(
  'an older address, or one with no tempo that can be played, says none: %s',
  (hash) => {
    expect(tempoIn(hash)).toBeNull();
  },
);

test('common practice, no source: as text it says what, how fast in which note value, on which drums', () => {
  expect(textOf(ownExercise(contentOf('RLKK', 4, 'hi-hat snare kick kick'), 'Mine'), 72)).toBe(
    'Mine\nRLKK\n16ths at 72, hi-hat, snare, kick\nWritten by hand.',
  );
});

test.each([
  { title: 'KK-- under hi-hat quarters', name: 'KK-under-hi-hat-quarters' },
  { title: '«…»', name: 'exercise' },
  { title: 'a/b: c?', name: 'a-b-c' },
])('a file for "$title" is called $name: letters every system takes', ({ title, name }) => {
  expect(fileName(title)).toBe(name);
});
