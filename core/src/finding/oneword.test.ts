/** The words for when and how loud, at the limits that say them. */
import { describe, expect, test } from 'vitest';
import { timeWord, volumeWord } from './oneword.ts';

describe('a volume against another', () => {
  test.each([
    { db: 0.9, word: 'alike', says: 'FACTS.md 1: 0.5–1 dB is just heard' },
    { db: -1, word: 'littleSofter', says: 'FACTS.md 1' },
    { db: 2.9, word: 'littleLouder', says: 'JOB.md: within 3 dB is clean' },
    { db: -3, word: 'clearlySofter', says: 'JOB.md: 3 dB' },
    { db: 3, word: 'clearlyLouder', says: 'JOB.md: 3 dB' },
  ])('$says: $db dB is $word', ({ db, word }) => {
    expect(volumeWord(db)).toBe(word);
  });
});

describe('when a stroke comes, where 6 ms are heard (Friberg & Sundberg 1995)', () => {
  test.each([
    { says: 'interval below nought and past what is heard, three times', biasMs: -18, lowMs: -20, highMs: -16, word: 'early' },
    { says: 'late by the same', biasMs: 18, lowMs: 16, highMs: 20, word: 'late' },
    { says: 'from twice what is heard it is not a little', biasMs: 12, lowMs: 10, highMs: 14, word: 'late' },
    { says: 'below twice it is', biasMs: -11, lowMs: -13, highMs: -9, word: 'littleEarly' },
    { says: 'just what is heard', biasMs: 6, lowMs: 4, highMs: 8, word: 'littleLate' },
    { says: 'surely early, but by less than 6 ms: not heard', biasMs: -4, lowMs: -5, highMs: -3, word: 'inTime' },
    { says: 'far, but the interval reaches nought: not sure, and not called in time', biasMs: -9, lowMs: -20, highMs: 2, word: 'perhapsEarly' },
    { says: 'the same, late', biasMs: 8, lowMs: -1, highMs: 12, word: 'perhapsLate' },
    { says: 'not heard, whatever the interval', biasMs: 4, lowMs: -9, highMs: 17, word: 'inTime' },
  ])('a place at $biasMs ms is $word: $says', ({ word, ...told }) => {
    expect(timeWord(told, 6)).toBe(word);
  });
});
