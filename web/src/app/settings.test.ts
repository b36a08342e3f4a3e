import { exercisesFor, expectedCycle, readContent, readFocus } from '@evenhand/core/exercise';
import { CLICK_SOUNDS, USUAL_CLICK } from '@evenhand/core/sound';
import { readSticking } from '@evenhand/core/sticking';
import { describe, expect, test } from 'vitest';
import { CHOICES, DEFAULT_SETTINGS, firstDrums, handFirst, hatHand, settingsOf, shelfOptions } from './settings.ts';

describe('settings of a diary', () => {
  test('nothing said: right-handed, a kit, 16ths, medium, a day from four o’clock on, three days away are fine', () => {
    expect(settingsOf({})).toEqual(DEFAULT_SETTINGS);
    expect(DEFAULT_SETTINGS).toMatchObject({ tolerance: 'medium', cutOverHour: 4, daysAwayFine: 3 });
  });

  test('every sound of the click can be set, in the order in which they are offered, and the usual one is (says: core/sound)', () => {
    expect([CHOICES.clickSound, DEFAULT_SETTINGS.clickSound]).toEqual([CLICK_SOUNDS, USUAL_CLICK]);
  });

  test('what was said holds', () => {
    const said = { hand: 'L', openHanded: true, atHand: 'pad', noteNames: 'british', tolerance: 'narrow', cutOverHour: 0, daysAwayFine: 7 } as const;
    expect(settingsOf(said)).toMatchObject(said);
  });

  test.each([
    { name: 'tolerance', value: 'huge' },
    { name: 'cutOverHour', value: 13 },
    { name: 'cutOverHour', value: 4.5 },
    { name: 'daysAwayFine', value: 0 },
    { name: 'noteNames', value: null },
    { name: 'openHanded', value: 'yes' },
  ])('$name $value, of a later version or damaged, is as if nothing had been said', ({ name, value }) => {
    expect(settingsOf({ [name]: value })).toEqual(DEFAULT_SETTINGS);
  });
});

describe('drums at hand', () => {
  const sticking = readSticking('RLRLKK').value!;
  const on = (surfaces: readonly string[]) => ({ ...readContent(sticking, { perBeat: 4 }).value!, surfaces });
  const focus = readFocus({ first: 4, last: 5 }, sticking).value!;

  test.each([
    { says: 'default kit', settings: {}, hands: 'snare' },
    { says: 'a pad', settings: { atHand: 'pad' }, hands: 'pad' },
    { says: 'own list with a snare', settings: { atHand: 'own', ownDrums: 'kick, Floor Tom, snare' }, hands: 'snare' },
    { says: 'own list without', settings: { atHand: 'own', ownDrums: 'kick, Floor Tom' }, hands: 'floor-tom' },
    { says: 'own list of pedals alone', settings: { atHand: 'own', ownDrums: 'kick' }, hands: 'snare' },
    { says: 'own list left empty', settings: { atHand: 'own', ownDrums: ' , ' }, hands: 'snare' },
  ] as const)('a new phrase begins on $hands with $says', ({ settings, hands }) => {
    expect(firstDrums(settingsOf(settings))).toMatchObject({ R: hands, L: hands, K: 'kick', H: 'hi-hat-foot' });
  });

  test('with a pad no exercise asks for anything but the pad, the pedal of the phrase and a towel', () => {
    const settings = settingsOf({ atHand: 'pad' });
    const first = firstDrums(settings);
    const content = on(sticking.strokes.map(({ limb }) => first[limb]));
    const { exercises } = exercisesFor(content, focus, shelfOptions(settings, content.surfaces));
    const drums = new Set(exercises.flatMap((exercise) => expectedCycle(exercise).strokes.map(({ surface }) => surface)));
    expect(exercises.length).toBeGreaterThan(3);
    expect([...drums].sort()).toEqual(['kick', 'pad', 'towel']);
  });

  test('with a kit anything will do', () => {
    expect(shelfOptions(settingsOf({ atHand: 'quietKit' }), ['snare'])).toEqual({ cymbalHand: 'R', kitSide: 'R' });
  });
});

test('the leading hand’s form of a rudiment comes first, and nothing else moves (arithmetic: same places, other order)', () => {
  const sticking = readSticking('RLRRLRLL').value!;
  const { exercises } = exercisesFor(readContent(sticking, { perBeat: 4 }).value!, readFocus({ first: 2, last: 3 }, sticking).value!);
  const leads = (hand: 'R' | 'L') => handFirst(exercises, hand).map(({ title }) => (title.params as { lead?: string }).lead ?? '-');
  const [right, left] = [leads('R'), leads('L')];
  expect(right).toContain('L');
  expect(right.map((lead) => lead === '-')).toEqual(left.map((lead) => lead === '-'));
  expect(right.filter((lead) => lead !== '-').join('')).toMatch(/^R+L+$/);
  expect(left.filter((lead) => lead !== '-').join('')).toMatch(/^L+R+$/);
  expect(new Set(handFirst(exercises, 'L'))).toEqual(new Set(exercises));
});

test.each([
  { foot: 'R', openHanded: false, hand: 'R', says: 'crossed over, the usual way' },
  { foot: 'R', openHanded: true, hand: 'L', says: 'open' },
  { foot: 'L', openHanded: false, hand: 'L', says: 'a mirrored kit, crossed over' },
  { foot: 'L', openHanded: true, hand: 'R', says: 'a mirrored kit, open' },
] as const)('kick foot $foot, $says: the hi-hat is played with $hand (common practice, no source)', ({ foot, openHanded, hand }) => {
  expect(hatHand({ foot, openHanded })).toBe(hand);
});
