import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { anySticking } from '../sticking/any.case.ts';
import { readSticking } from '../sticking/index.ts';
import { say } from '../words/index.ts';
import { choices } from './dynamics.ts';
import { contentId, defaultFocus, type ExerciseContent, exercisesFor, type Family, ownExercise, readContent, readFocus } from './index.ts';
import { orchestrations } from './orchestration.ts';
import { SOFT_DRUM } from './parameters.ts';
import { holdsTrue } from './reasons.case.ts';
import { rudimentsHolding } from './rudiment.ts';

const FAMILIES: readonly Family[] = ['rudiment', 'pad', 'groove', 'fill', 'kit', 'dynamics', 'inversion', 'use'];
const contentOf = (text: string, perBeat = 4): ExerciseContent => readContent(readSticking(text).value!, { perBeat }).value!;
const shelfOf = (text: string, perBeat = 4, options = {}) =>
  exercisesFor(contentOf(text, perBeat), defaultFocus(readSticking(text).value!), options).exercises;

/** Hands, feet, flams, odd lengths; issue 3. */
const TEN: readonly { readonly text: string; readonly perBeat: number }[] = [
  { text: 'RLRLKK', perBeat: 4 },
  { text: 'RLRRLRLL', perBeat: 4 },
  { text: 'RLL', perBeat: 3 },
  { text: 'RRK', perBeat: 3 },
  { text: 'RLRLK', perBeat: 4 },
  { text: 'lRLrLR', perBeat: 4 },
  { text: 'l>RRr>LL', perBeat: 4 },
  { text: 'RLRRLKK', perBeat: 4 },
  { text: 'R+KL-R>LRLL', perBeat: 4 },
  { text: 'RL/KR{2:LRL}-', perBeat: 6 },
];

describe.each(TEN)('issue 3: the shelf of $text', ({ text, perBeat }) => {
  const phrase = contentOf(text, perBeat);
  const exercises = shelfOf(text, perBeat);

  test('every family gives something', () => {
    for (const family of FAMILIES) expect(exercises.filter((exercise) => exercise.family === family).length, family).toBeGreaterThan(0);
  });

  test('no content is there twice, and ids are those of the contents', () => {
    expect(new Set(exercises.map(({ id }) => id)).size).toBe(exercises.length);
    for (const exercise of exercises) expect(contentId(exercise)).toBe(exercise.id);
  });

  test('every sticking reads without a problem, is canonical, has at most 256 slots and a drum for each stroke', () => {
    for (const { sticking, surfaces, meter, bars } of exercises) {
      expect([meter.beats, bars].every((count) => Number.isInteger(count) && count > 0)).toBe(true);
      const { value, problems } = readSticking(sticking);
      expect(problems.filter(({ code }) => code !== 'sticking-reads-as-grace')).toEqual([]);
      expect(value).toMatchObject({ text: sticking });
      expect(value!.slotCount).toBeLessThanOrEqual(256);
      expect(surfaces).toHaveLength(value!.strokes.length);
    }
  });

  test.each(FAMILIES)('every reason of family %s is true', (family) => {
    const ofFamily = exercises.filter((exercise) => exercise.family === family);
    expect(ofFamily.length).toBeGreaterThan(0);
    for (const exercise of ofFamily) holdsTrue({ exercise, phrase });
  });

  test('every title and reason is said whole', () => {
    for (const { title, reason } of exercises) {
      for (const sentence of [say(title), say(reason)]) expect(sentence).not.toMatch(/undefined|NaN|\$\{|title-|reason-/);
      expect(say(reason)).toMatch(/^[A-Z(>{rl-].*\.$/);
    }
  });

  test('four limbs can play it: none twice at once, no grace by a busy hand, none over and over without a rest', () => {
    for (const { sticking, perBeat: slotsPerBeat } of exercises) {
      const { strokes } = readSticking(sticking).value!;
      for (const stroke of strokes) {
        const meanwhile = strokes.filter(({ slot, index }) => index !== stroke.index && slot.num * stroke.slot.den === stroke.slot.num * slot.den);
        expect(meanwhile.map(({ limb }) => limb)).not.toContain(stroke.limb);
        for (const hand of stroke.graces) if (hand !== stroke.limb) expect(meanwhile.map(({ limb }) => limb)).not.toContain(hand);
      }
      const letters = strokes.map(({ limb }) => limb).join('');
      if (slotsPerBeat > 2 && !/[-+/{]/.test(sticking)) expect(letters.repeat(2), sticking).not.toMatch(/(.)\1{3}/);
    }
  });
});

test.each([
  { idea: 1, of: 'KK-- under hi-hat quarters', found: /^KK-- under hi-hat quarters/ },
  { idea: 2, of: 'the hands show the foot', found: /two bars of RLRLRL, two bars of RLRLKK/ },
  { idea: 3, of: 'one kick at a time', found: /RLRLK-, RLRL-K, RLRLKK/ },
  { idea: 4, of: 'breath before', found: /RL--KK/ },
  { idea: 5, of: 'growing approach', found: /RLKK, RLRLKK, RLRLRLKK/ },
  { idea: 6, of: 'overload', found: /RLRKKK, RLRLKK/ },
  { idea: 7, of: 'accent on either, hands ghosted', found: /\(R\)\(L\)\(R\)\(L\)K>K, \(R\)\(L\)\(R\)\(L\)>KK/ },
  { idea: 8, of: 'floor tom doubles the kicks', found: /RLRLR\+KL\+K/ },
  { idea: 9, of: 'the pair on each place of the beat', found: /“1 e”, “e &”, “& a” and “a 1”/ },
  { idea: 10, of: 'straddling the bar line', found: /stroke 6: KRLRLK/ },
  { idea: 11, of: 'over 4/4 with resolution', found: /landing on 1: 6 \+ 6 \+ 4/ },
  { idea: 12, of: 'three bars of time, one of the phrase', found: /three bars of time, one bar of RLRLKK/ },
])('issue 6, common practice, no source: idea $idea, $of, is among the first fifteen for RLRLKK', ({ found }) => {
  expect(shelfOf('RLRLKK', 4, { limit: 15 }).some(({ title }) => found.test(say(title)))).toBe(true);
});

test('issue 6: RLRLKK in 16ths begun on stroke 4 has the left on 2 and 4', () => {
  const groove = shelfOf('RLRLKK').find(({ title }) => title.code === 'title-groove')!;
  expect(groove.title.params).toMatchObject({ stroke: 4, hand: 'L', beats: [2, 4] });
  expect(groove.reason.params).toMatchObject({ lengths: [6, 6, 4], replacedOn: [], feet: 'H' });
});

test('a stroke replaced on the backbeat is said', () => {
  const groove = shelfOf('RKK').find(({ title }) => title.code === 'title-groove')!;
  expect(say(groove.reason)).toMatch(/the kick on [24] replaced by the right/);
});

test('the first dozen has every family, and none more than half of it', () => {
  for (const { text, perBeat } of TEN) {
    const dozen = shelfOf(text, perBeat, { limit: 12 });
    expect(new Set(dozen.map(({ family }) => family)).size, text).toBe(8);
    for (const family of FAMILIES) expect(dozen.filter((each) => each.family === family).length).toBeLessThanOrEqual(6);
  }
});

test('a limit cuts the same order', () => {
  expect(shelfOf('RLRLKK', 4, { limit: 5 })).toEqual(shelfOf('RLRLKK').slice(0, 5));
});

test.each([
  { says: 'FACTS.md 8: choose 1 of 8', count: 1, expected: 8 },
  { says: 'FACTS.md 8: choose 2 of 8', count: 2, expected: 28 },
  { says: 'FACTS.md 8: choose 4 of 8', count: 4, expected: 70 },
  { says: 'FACTS.md 8: choose 8 of 8', count: 8, expected: 1 },
])('$says', ({ count, expected }) => {
  const found = choices(8, count).map((chosen) => chosen.join());
  expect(found).toHaveLength(expected);
  expect(new Set(found).size).toBe(expected);
});

test('FACTS.md 8: RLRRLRLL has 8 exercises with one accent and 28 with two', () => {
  const dynamics = shelfOf('RLRRLRLL', 4, { families: ['dynamics'] });
  expect(dynamics.filter(({ title }) => title.code === 'title-accent')).toHaveLength(8);
  expect(dynamics.filter(({ title }) => title.code === 'title-accents')).toHaveLength(28);
});

test.each([
  { says: 'arithmetic: 2^4 ways over two drums', drums: 2, strokes: 4, expected: 16 },
  { says: 'arithmetic: 3^3 ways over three drums', drums: 3, strokes: 3, expected: 27 },
  { says: 'arithmetic: 4^1', drums: 4, strokes: 1, expected: 4 },
])('$says', ({ drums, strokes, expected }) => {
  const laid = orchestrations(['a', 'b', 'c', 'd'].slice(0, drums), strokes).map((each) => each.join(''));
  expect(new Set(laid).size).toBe(expected);
  expect(laid).toHaveLength(expected);
});

test('arithmetic: the four hand strokes of RLRLKK over two drums, 2^4 ways less the phrase itself and right-left, which stand elsewhere', () => {
  const kit = shelfOf('RLRLKK', 4, { families: ['kit'] });
  const phrase = contentOf('RLRLKK');
  const laid = new Set(
    [...kit, phrase]
      .filter(({ sticking, perBeat, meter }) => sticking === 'RLRLKK' && perBeat === 4 && meter.beats === 4)
      .map(({ surfaces }) => surfaces.join()),
  );
  const all = orchestrations(['snare', 'floor-tom'], 4).map((drums) => [...drums, 'kick', 'kick'].join());
  expect(all.filter((drums) => !laid.has(drums))).toEqual([]);
});

test('FACTS.md 9: rudiments with LL, right lead, by class: 23 plain, 29 with graces ignored, and all but 1–4 with graces ignored or counted', () => {
  const right = rudimentsHolding('LL').filter(({ lead }) => lead === 'R');
  expect(right.filter(({ hold }) => hold === 'plain')).toHaveLength(23);
  expect(right.filter(({ hold }) => hold !== 'graces-counted')).toHaveLength(29);
  const numbers = right.map(({ rudiment }) => rudiment.number).sort((a, b) => a - b);
  expect(numbers).toEqual(Array.from({ length: 36 }, (_, i) => i + 5));
  expect(right.map(({ hold }) => hold).lastIndexOf('plain')).toBe(22);
});

test('DESIGN: for KK, RRLL becomes RRKK, and says so', () => {
  const [first] = shelfOf('RLRLKK', 4, { families: ['rudiment'] });
  expect(first!.sticking).toBe('RRKK');
  expect(say(first!.reason)).toMatch(/left hand’s strokes are given to the kick/);
  for (const { rudiment } of [...rudimentsHolding('KK'), ...rudimentsHolding('LK')]) expect(rudiment.text).not.toMatch(/[rlz]/);
});

test('only a pad and the feet: nothing on other drums but a towel, the snare is the pad, and there is work all the same', () => {
  const drums = ['pad', 'kick', 'hi-hat-foot'];
  const exercises = shelfOf('RLRLKK', 4, { drums });
  expect(new Set(exercises.flatMap(({ surfaces }) => surfaces).filter((drum) => drum !== SOFT_DRUM))).toEqual(new Set(drums));
  expect(exercises.filter(({ family }) => family === 'pad').length).toBeGreaterThan(5);
  expect(new Set(exercises.map(({ id }) => id)).size).toBe(exercises.length);
});

test('only a pad, no feet: hands alone', () => {
  const exercises = shelfOf('RLRLKK', 4, { drums: ['Pad'] });
  expect(exercises.length).toBeGreaterThan(0);
  for (const { sticking, surfaces } of exercises) {
    expect(sticking).not.toMatch(/[KH]/);
    expect(new Set(surfaces.filter((drum) => drum !== SOFT_DRUM))).toEqual(new Set(['pad']));
  }
});

test('an exercise written by hand has the id of its content and the title as typed', () => {
  const content = contentOf('RLK');
  const own = ownExercise(content, '  Mine ');
  expect(own).toMatchObject({ ...content, id: contentId(content), family: 'pad', bars: 3 });
  expect(say(own.title)).toBe('Mine');
  expect(say(ownExercise(content, '').title)).toBe('RLK');
});

test.each([1, 2, 3, 5, 6, 7, 8, 12])('law: %i slots per beat give a shelf without a throw, the phrase on it', (perBeat) => {
  for (const text of ['RLRLKK', 'RLRRLRLL', 'K', 'KK', 'RLRK-', 'lRLrLR', 'HK']) {
    const exercises = shelfOf(text, perBeat);
    expect(exercises.some(({ sticking }) => sticking === text)).toBe(true);
  }
});

/** Stickings as they are usually written, more often than the whole grammar gives them. */
const usual = fc
  .array(fc.constantFrom('R', 'L', 'K', 'R', 'L', '-', 'lR', 'rL', '>R', 'R+K', '(L)', 'H', 'R/'), { minLength: 1, maxLength: 9 })
  .map((events) => events.join(' '))
  .filter((text) => /[RLKH]/.test(text) && readSticking(text).value !== null);

test('law: whatever the sticking and the cell, every reason is true', () => {
  fc.assert(
    fc.property(fc.oneof(usual, usual, anySticking), fc.integer({ min: 1, max: 8 }), fc.nat(), fc.nat(3), (text, perBeat, from, more) => {
      const phrase = contentOf(text, perBeat);
      const sticking = readSticking(text).value!;
      const count = sticking.strokes.length;
      const { value: focus } = readFocus({ first: from % count, last: (from + more) % count }, sticking);
      for (const exercise of exercisesFor(phrase, focus!).exercises) {
        holdsTrue({ exercise, phrase });
        expect(Number.isInteger(exercise.meter.beats) && Number.isInteger(exercise.bars)).toBe(true);
      }
    }),
    { numRuns: 60, seed: 3 },
  );
});

test.each([
  { claim: 'the backbeat', code: 'reason-groove', wrong: { beats: [1, 3] } },
  { claim: 'a landing', code: 'reason-fill-bar', wrong: { landing: 'crash' } },
  { claim: 'lengths in a bar', code: 'reason-resolved', wrong: { lengths: [6, 6, 6] } },
  { claim: 'how often a rudiment holds the cell', code: 'reason-rudiment', wrong: { times: 5 } },
  { claim: 'a join', code: 'reason-inversion', wrong: { joinRun: 7, joinLimb: 'R' } },
  { claim: 'kicks doubled', code: 'reason-doubled-kick', wrong: { kickCount: 3 } },
  { claim: 'rests before the cell', code: 'reason-breath', wrong: { restSlots: 3 } },
  { claim: 'what leads', code: 'reason-leaning', wrong: { first: '(R)(L)(R)(L)K>K' } },
])('a false claim would be found: $claim', ({ code, wrong }) => {
  const exercise = shelfOf('RLRLKK').find(({ reason }) => reason.code === code)!;
  const phrase = contentOf('RLRLKK');
  expect(() => holdsTrue({ exercise, phrase })).not.toThrow();
  const reason = { ...exercise.reason, params: { ...exercise.reason.params, ...wrong } } as typeof exercise.reason;
  expect(() => holdsTrue({ exercise: { ...exercise, reason }, phrase })).toThrow();
});

test.each([
  { beats: 3, unit: 4 },
  { beats: 6, unit: 8 },
  { beats: 7, unit: 8 },
  { beats: 12, unit: 8 },
])('$beats/$unit: every family gives something, and every reason is true', (meter) => {
  for (const { text, perBeat } of [
    { text: 'RLRLKK', perBeat: 2 },
    { text: 'RLRRLRLL', perBeat: 2 },
  ]) {
    const phrase = readContent(readSticking(text).value!, { perBeat, meter }).value!;
    const { exercises } = exercisesFor(phrase, defaultFocus(readSticking(text).value!));
    expect(new Set(exercises.map(({ family }) => family)).size).toBe(8);
    for (const exercise of exercises) holdsTrue({ exercise, phrase });
  }
});

describe('which hand is on the cymbal', () => {
  const CYMBALS = ['hi-hat', 'ride', 'crash'];
  /** A phrase of feet alone: every hand in its exercises was put there by the shelf. */
  const handsOn = (cymbalHand: 'R' | 'L') =>
    shelfOf('KKHK', 4, { cymbalHand })
      .filter(({ title }) => ['title-under-hats', 'title-moved', 'title-time-and-phrase', 'title-in-time', 'title-fill-bar'].includes(title.code))
      .flatMap((exercise) => readSticking(exercise.sticking).value!.strokes.map(({ limb, index }) => ({ limb, drum: exercise.surfaces[index]! })))
      .filter(({ limb }) => limb === 'R' || limb === 'L');

  test.each(['R', 'L'] as const)(
    '%s: it has every cymbal, the other every backbeat (common practice, no source: open-handed or mirrored)',
    (hand) => {
      const hands = handsOn(hand);
      expect(hands.filter(({ drum }) => CYMBALS.includes(drum)).length).toBeGreaterThan(8);
      expect(hands.filter(({ drum }) => drum === 'snare').length).toBeGreaterThan(0);
      for (const { limb, drum } of hands) expect(limb === hand).toBe(CYMBALS.includes(drum));
    },
  );

  test.each(TEN)('with the left on it every reason of $text is as true', ({ text, perBeat }) => {
    const exercises = shelfOf(text, perBeat, { cymbalHand: 'L' });
    expect(exercises.length).toBeGreaterThan(0);
    for (const exercise of exercises) holdsTrue({ exercise, phrase: contentOf(text, perBeat) });
  });
});
