/** Feet in the hands: every stroke there, and nothing that no hand could play. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { feetToHands } from './feettohands.ts';
import { longestCyclicRun, RUDIMENTS, readSticking } from './index.ts';

const lettersOf = (text: string) => readSticking(text).value!.strokes.map(({ limb }) => limb);

test.each([
  { text: 'RLRLKK', gives: 'RLRLRRLRLRLL', says: 'FACTS.md 9: the letters of rudiment 17' },
  { text: 'KKRL', gives: 'RRLRLLRL', says: 'FACTS.md 8: the paradiddle begun on stroke 3' },
  { text: 'RLRKK', gives: 'RLRLL', says: 'arithmetic: the hand that did not play before' },
  { text: 'RLKKRL', gives: 'RLRRLR', says: 'arithmetic: the right had it, so the left leads on' },
  { text: 'RLKKK', gives: 'RLRLR', says: 'arithmetic: three of one foot from hand to hand' },
  { text: 'R+KLRL', gives: 'RLRL', says: 'arithmetic: a foot beside a hand is dropped' },
  { text: 'R>KL', gives: 'R>LL', says: 'arithmetic: an accent stays on its stroke' },
  { text: 'RLRL-KK-', gives: 'RLRL-RR-', says: 'arithmetic: a rest lets a hand go on' },
  { text: 'KK', gives: 'RR', says: 'arithmetic: nothing else to hold it against' },
])('$says: $text gives $gives', ({ text, gives }) => {
  expect(feetToHands(text)).toBe(gives);
});

test('FACTS.md 9: RLRLKK in the hands is led and doubled as the double paradiddle is', () => {
  expect(lettersOf(feetToHands('RLRLKK'))).toEqual(lettersOf(RUDIMENTS[16]!.text));
});

test('law: whatever hands and feet play, no hand has three in a row where the phrase gave it two at most; every stroke is there, once or twice', () => {
  const plain = fc
    .array(fc.constantFrom('R', 'L', 'K'), { minLength: 2, maxLength: 12 })
    .map((letters) => letters.join(''))
    .filter((text) => /[RL]/.test(text) && /R/.test(text) && /L/.test(text) && !/RRR|LLL/.test(text.repeat(2)) && !/KKK/.test(text.repeat(2)));
  fc.assert(
    fc.property(plain, (text) => {
      const moved = feetToHands(text);
      expect(moved).not.toMatch(/[KH]/);
      expect([text.length, 2 * text.length]).toContain(lettersOf(moved).length);
      expect(longestCyclicRun(moved), `${text} gave ${moved}`).toBeLessThanOrEqual(2);
    }),
    { numRuns: 100, seed: 17 },
  );
});
