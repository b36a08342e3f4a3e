import { readSticking } from '@evenhand/core/sticking';
import { describe, expect, test } from 'vitest';
import { contentOf, countedSlots, emptyPhrase, mendingOf, readingOf, tempoOf } from './phrase.ts';

const typed = (sticking: string) => ({ ...emptyPhrase, sticking });

describe('mending a sticking with one key', () => {
  test.each([
    { says: 'DESIGN.md: `RllR` reads as a drag, did you mean `>RLL>R`', text: 'RllR', after: '>RLL>R' },
    { says: 'DESIGN.md: letters R L K H', text: 'RLRLVK', after: null },
  ])('$text becomes $after: $says', ({ text, after }) => {
    const problem = readingOf(typed(text)).problems[0]!;
    expect(mendingOf(text, problem)?.text ?? null).toBe(after);
  });

  test('what a mending puts is read without a problem, for every character that has a suggestion (DESIGN.md: one key to accept)', () => {
    let mended = 0;
    for (let code = 33; code < 383; code++) {
      const text = `RL${String.fromCodePoint(code)}K`;
      const problem = readingOf(typed(text)).problems.find((p) => p.code === 'sticking-unknown-character');
      const mending = problem ? mendingOf(text, problem) : null;
      if (!mending) continue;
      mended++;
      expect(readSticking(mending.text).problems.filter((p) => p.code === 'sticking-unknown-character')).toEqual([]);
    }
    expect(mended).toBeGreaterThan(0);
  });
});

test.each([
  { says: 'common practice: 1 e & a', sticking: 'RLRLKK', perBeat: 4, count: '1 e & a 2 e' },
  { says: 'common practice: 1 & 2 &', sticking: 'RLRL', perBeat: 2, count: '1 & 2 &' },
])('$sticking is counted $count: $says', ({ sticking, perBeat, count }) => {
  expect(
    countedSlots(readSticking(sticking).value!, perBeat)
      .map((slot) => slot.count)
      .join(' '),
  ).toBe(count);
});

test.each([
  { sticking: '>RL>RLKK', shown: '>R L >R L K K' },
  { sticking: '(R)lR>lLR/-Rz', shown: '(R) lR >lL RR – Rz' },
  { sticking: 'R+KL', shown: 'R+K L' },
])('$sticking is shown under the count with all that was typed: $shown (DESIGN.md, the sticking language)', ({ sticking, shown }) => {
  const slots = countedSlots(readSticking(sticking).value!, 4);
  expect(slots.map(({ accent, written }) => `${accent ? '>' : ''}${written}`).join(' ')).toBe(shown);
});

test('each stroke gets the drum of its limb (DESIGN.md: a drum per limb)', () => {
  const phrase = { ...typed('RLRLKK'), drums: { ...emptyPhrase.drums, L: 'tom' } };
  expect(contentOf(phrase, readingOf(phrase).value!).surfaces).toEqual(['snare', 'tom', 'snare', 'tom', 'kick', 'kick']);
});

test.each([
  ['96', 96],
  ['92,5', 92.5],
  ['', null],
  ['fast', null],
  ['1000', null],
])('a tempo typed as "%s" is %s', (tempo, tempoBpm) => {
  expect(tempoOf({ ...emptyPhrase, tempo })).toBe(tempoBpm);
});
