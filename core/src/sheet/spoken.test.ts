import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readContent } from '../exercise/index.ts';
import { anySticking } from '../sticking/any.case.ts';
import { readSticking } from '../sticking/index.ts';
import { say } from '../words/index.ts';
import { spokenSheet } from './spoken.ts';

const contentOf = (text: string) => readContent(readSticking(text).value!, { perBeat: 4 }).value!;

test.each([
  { text: 'RLK', said: 'Right, left, kick; 4 to the beat.' },
  { text: 'l>R(L)-', said: 'Accented flam right, ghost left, rest; 4 to the beat.' },
  { text: 'R/KzllL', said: 'Right diddle, kick buzz, drag left; 4 to the beat.' },
  { text: 'R+K{2:RLR}H', said: 'Right and kick together, 3 in the time of 2: right, left, right, end of the group, hi-hat foot; 4 to the beat.' },
])('the trade’s words: $text is read as "$said"', ({ text, said }) => {
  expect(say(spokenSheet(contentOf(text)))).toBe(said);
});

test('law: every stroke is named', () => {
  fc.assert(
    fc.property(anySticking, (text) => {
      const said = say(spokenSheet(contentOf(text))).toLowerCase();
      expect(said.match(/right|left|kick|hi-hat foot/g)).toHaveLength(text.match(/[RLKH]/g)!.length);
    }),
    { seed: 8 },
  );
});
