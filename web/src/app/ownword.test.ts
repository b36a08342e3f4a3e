import type { SessionBlock } from '@evenhand/core/session';
import { cleanTempo } from '@evenhand/core/tempo';
import { expect, test } from 'vitest';
import { heardByWord, wordFor } from './ownword.ts';

const block = { tempoBpm: 80 } as SessionBlock;

test('nothing said, nothing follows', () => {
  expect(heardByWord(block, { hadIt: 0, again: 0 }, [])).toBe(null);
  expect(wordFor({ hadIt: 0, again: 0 })).toBe(null);
});

test('three rounds again go slower; three rounds had are too few to go faster, four are not, also with what came before (issue 3: next tempo from the player’s word)', () => {
  expect(heardByWord(block, { hadIt: 0, again: 3 }, [])!.nextTempoBpm).toBeLessThan(80);
  expect(heardByWord(block, { hadIt: 3, again: 0 }, [])!.nextTempoBpm).toBe(80);
  expect(heardByWord(block, { hadIt: 4, again: 0 }, [])!.nextTempoBpm).toBeGreaterThan(80);
  expect(heardByWord(block, { hadIt: 2, again: 0 }, [{ tempoBpm: 80, clean: 2, runs: 2, byEar: false }])!.nextTempoBpm).toBeGreaterThan(80);
});

test('what came out at the same tempo before it was last changed says nothing now (arithmetic: 3 of 3 is no reason to go slower)', () => {
  const earlier = [
    { tempoBpm: 80, clean: 1, runs: 9 },
    { tempoBpm: 76, clean: 16, runs: 16 },
  ];
  expect(heardByWord(block, { hadIt: 3, again: 0 }, earlier)!.nextTempoBpm).toBe(80);
});

test('the word for a block is the one said more often, and again when both were said alike', () => {
  expect([wordFor({ hadIt: 2, again: 1 }), wordFor({ hadIt: 1, again: 1 })]).toEqual(['hadIt', 'again']);
});

test('the word weighs less than the ear: the same counts leave a wider range (DESIGN.md)', () => {
  const results = [70, 75, 80, 85, 90, 95].map((tempoBpm, k) => ({ tempoBpm, runs: 24, clean: 24 - 4 * k }));
  const byEar = cleanTempo(results);
  const byWord = cleanTempo(results.map((result) => ({ ...result, byEar: false })));
  if (!byEar.known || !byWord.known) throw new Error('both are to be known');
  expect(byWord.high90 / byWord.low90).toBeGreaterThan(byEar.high90 / byEar.low90);
});
