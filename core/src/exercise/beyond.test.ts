import { expect, test } from 'vitest';
import { readSticking } from '../sticking/index.ts';
import { say } from '../words/index.ts';
import { contentId, defaultFocus, type Exercise, exercisesBeyond, exercisesFor, ranked, readContent } from './index.ts';
import { newThings } from './ranked.ts';
import { holdsTrue } from './reasons.case.ts';

const read = (text: string) => readSticking(text).value!;
const contentOf = (text: string) => readContent(read(text), { perBeat: 4 }).value!;

/** The first so many, or all. */
function taken(text: string, count = Number.POSITIVE_INFINITY, known?: ReadonlySet<string>): readonly Exercise[] {
  const found: Exercise[] = [];
  for (const each of exercisesBeyond(contentOf(text), defaultFocus(read(text)), known ? { known } : {})) {
    found.push(each);
    if (found.length >= count) break;
  }
  return found;
}

test.each([
  // Three starts, six drums a hand where it plays, 2^3 accents less all three; less the phrase itself.
  { text: 'RLK', total: 3 * 36 * 7 - 1, says: 'closed form: starts × drums × (2^n − 1), less the phrase' },
  { text: 'RKK', total: 3 * 6 * 7 - 1, says: 'the same with one hand' },
  // As many as there are different ones: two starts, but from the second on the same loops come again.
  { text: 'K', total: 0, says: 'nothing to vary' },
])('$says: $text', ({ text, total }) => {
  expect(taken(text)).toHaveLength(total);
});

test('issue 6: thousands one step away, no content twice, one new thing before two before three, every reason true', () => {
  const found = taken('RLRLKK', 3000);
  expect(found).toHaveLength(3000);
  expect(new Set(found.map(({ id }) => id)).size).toBe(3000);
  const newThings = found.map(({ reason }) => / (one|two|three) new things?/.exec(say(reason))![1]);
  expect(newThings).toEqual([...newThings].sort((a, b) => ['one', 'two', 'three'].indexOf(a!) - ['one', 'two', 'three'].indexOf(b!)));
  for (let i = 0; i < found.length; i += 37) {
    holdsTrue({ exercise: found[i]!, phrase: contentOf('RLRLKK') });
    expect(contentId(found[i]!)).toBe(found[i]!.id);
  }
});

test('what stands on the shelf does not come again', () => {
  const shelf = new Set(exercisesFor(contentOf('RLK'), defaultFocus(read('RLK'))).exercises.map(({ id }) => id));
  const beyond = taken('RLK', Number.POSITIVE_INFINITY, shelf);
  expect(beyond.some(({ id }) => shelf.has(id))).toBe(false);
  expect(beyond.length).toBeGreaterThan(500);
});

test.each([
  { text: 'RLRLKK', other: 'RLRLKK', count: 0, says: 'the same' },
  { text: 'RLRLKK', other: 'KRLRLK', count: 1, says: 'begun elsewhere' },
  { text: 'RLRLKK', other: '>RLRLKK', count: 1, says: 'an accent' },
  { text: 'RLRLKK', other: 'KRLRL>K', count: 2, says: 'begun elsewhere with an accent' },
  { text: 'RLRL', other: 'RLRLKK', count: 3, says: 'another length, a new limb on a new drum' },
])('counted by hand: $says is $count new', ({ text, other, count }) => {
  expect(newThings(contentOf(text), contentOf(other))).toBe(count);
});

test('ranked: within reach before beyond, one new thing before two, the rest as it came', () => {
  const phrase = contentOf('RLRLKK');
  const texts = ['KRLRL>K', 'RLKKKKKK', '>RLRLKK', 'KRLRLK', 'RLRLKK'];
  const found = ranked(phrase, texts.map(contentOf), { tempoBpm: 150 }).map(({ sticking }) => sticking);
  expect(found).toEqual(['RLRLKK', '>RLRLKK', 'KRLRLK', 'KRLRL>K', 'RLKKKKKK']);
});
