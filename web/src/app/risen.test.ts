/** The table of what rose with what: sorted with what is unknown last, by phrases that were references. */
import type { Exercise } from '@evenhand/core/exercise';
import { type BlockResult, phrasesIn } from '@evenhand/core/progress';
import { describe, expect, it } from 'vitest';
import { changeName, type NamedRow, sortedBy } from './risen.ts';

const row = (name: string, whileRising: number | null): NamedRow => ({
  ...{ key: name, name, steps: 8, roseSteps: 4, togetherSteps: 2, otherwise: null, word: 'notSure', whileRising },
  ...{ family: 'pad', exercise: null },
});
const rows = [row('b', null), row('a', 0.02), row('c', -0.01)];
const names = (of: readonly NamedRow[]) => of.map(({ name }) => name).join('');

describe('sorting', () => {
  it('goes either way, what is unknown last; names by the alphabet (says: our choice)', () => {
    expect(names(sortedBy(rows, 'whileRising', true))).toBe('acb');
    expect(names(sortedBy(rows, 'whileRising', false))).toBe('cab');
    expect(names(sortedBy(rows, 'name', false))).toBe('abc');
  });
});

it('changes have a sign that is read, and one decimal (arithmetic)', () => {
  expect([0.0213, -0.004, null].map(changeName)).toEqual(['+2.1 %', '−0.4 %', '–']);
});

it('what is held against are exercises played as references, the latest first; without any, all', () => {
  const result = (id: string, reference: boolean) => ({ exerciseId: id, exercise: { id } as Exercise, reference }) as BlockResult;
  expect(phrasesIn([result('a', true), result('b', false), result('c', true)]).map(({ id }) => id)).toEqual(['c', 'a']);
  expect(phrasesIn([result('a', false), result('b', false)]).map(({ id }) => id)).toEqual(['b', 'a']);
});
