/** What each reason claims, worked out anew from the strokes of the exercise, without the code that made it. */
import { expect } from 'vitest';
import { toNumber } from '../rational.ts';
import { RUDIMENTS, readSticking, stickingOfRudiment } from '../sticking/index.ts';
import { say } from '../words/index.ts';
import type { Exercise, ExerciseContent, ExerciseReason } from './index.ts';

/** One stroke as it sounds. */
interface Sound {
  readonly slot: number;
  readonly limb: string;
  readonly drum: string;
  readonly accent: boolean;
  readonly ghost: boolean;
  readonly graces: readonly string[];
  readonly rolled: boolean;
}

const soundsOf = ({ sticking, surfaces }: ExerciseContent): readonly Sound[] =>
  readSticking(sticking).value!.strokes.map(({ index, slot, limb, accent, ghost, graces, diddle, buzz }) => {
    return { slot: toNumber(slot), limb, drum: surfaces[index]!, accent, ghost, graces, rolled: diddle !== null || buzz };
  });

const lettersOf = (text: string): string =>
  readSticking(text)
    .value!.strokes.map(({ limb }) => limb)
    .join('');
const slotsOf = (text: string): number => readSticking(text).value!.slotCount;
/** Letters of the main strokes and rests. */
const withRests = (text: string): string => text.replaceAll(/([RLKH])\//g, '$1$1').replaceAll(/[^RLKH-]/g, '');
const swapped = (letters: string): string => Array.from(letters, (letter) => ({ R: 'L', L: 'R' })[letter] ?? letter).join('');
const isHand = ({ limb }: Sound): boolean => limb === 'R' || limb === 'L';
/** Strokes that stand in a loop, begun anywhere. */
const holds = (text: string, cell: string): boolean => lettersOf(text).repeat(3).includes(lettersOf(cell));
const at = (sounds: readonly Sound[], slot: number): readonly Sound[] => sounds.filter((sound) => sound.slot === slot);
const barOf = ({ meter, perBeat }: ExerciseContent): number => meter.beats * perBeat;

/** An exercise, and the phrase it was made for. */
export interface Case {
  readonly exercise: Exercise;
  readonly phrase: ExerciseContent;
}
type Params<Code extends ExerciseReason['code']> = Extract<ExerciseReason, { readonly code: Code }>['params'];
type Checks = { readonly [Code in ExerciseReason['code']]: (params: Params<Code>, given: Case) => void };

/** The landing: crash on 1 of a bar, the kick with it exactly when it says so and when the stroke before is no kick. */
function landsOn(exercise: Exercise, landing: string): void {
  const sounds = soundsOf(exercise);
  const crash = sounds.filter(({ drum }) => drum === 'crash');
  expect(crash).toHaveLength(1);
  expect(crash[0]!.slot % barOf(exercise)).toBe(0);
  const kick = at(sounds, crash[0]!.slot).some(({ limb }) => limb === 'K');
  expect(kick).toBe(landing === 'both');
  const total = slotsOf(exercise.sticking);
  const before = (slot: number) => (crash[0]!.slot - slot + total) % total;
  expect(sounds.some(({ limb, slot }) => limb === 'K' && before(slot) > 0 && before(slot) <= 1)).toBe(landing === 'crash');
}

/** Bars that begin with a cymbal and hold a backbeat on the snare: bars of time. */
function timeBarsIn(exercise: Exercise): number {
  const bar = barOf(exercise);
  const sounds = soundsOf(exercise);
  const bars = Array.from({ length: slotsOf(exercise.sticking) / bar }, (_, i) => sounds.filter(({ slot }) => Math.floor(slot / bar) === i));
  return bars.filter((each) => {
    const onBeats = Array.from({ length: exercise.meter.beats }, (_, beat) =>
      each.some(({ slot, drum }) => slot % bar === beat * exercise.perBeat && /hi-hat$|crash|ride/.test(drum)),
    );
    return onBeats.every(Boolean);
  }).length;
}

const cellStands = ({ exercise }: Case, cell: string) => expect(holds(exercise.sticking, cell)).toBe(true);
const follow = (exercise: Exercise, stickings: readonly string[]) => {
  let rest = exercise.sticking;
  for (const text of stickings) {
    expect(rest).toContain(text);
    rest = rest.slice(rest.indexOf(text) + text.length);
  }
};
const summed = (lengths: readonly number[]): number => lengths.reduce((sum, length) => sum + length, 0);

export const CHECKS: Checks = {
  'reason-own': () => expect.fail('the shelf writes nothing by hand'),
  'reason-own-from': () => expect.fail('the shelf writes nothing by hand'),
  'reason-phrase': (_, { exercise, phrase }) => expect(exercise.sticking).toBe(phrase.sticking),
  'reason-whole': ({ cell }, given) => {
    expect(given.exercise.sticking).toBe(given.phrase.sticking);
    cellStands(given, cell);
  },
  'reason-cell-alone': ({ cell, strokeCount }, { exercise }) => {
    expect(exercise.sticking).toBe(cell);
    expect(soundsOf(exercise)).toHaveLength(strokeCount);
  },
  'reason-cell-space': ({ cell }, { exercise }) => {
    expect(exercise.sticking).toMatch(/^[^-].*-+$|^\{/);
    expect(exercise.sticking.startsWith(cell)).toBe(true);
    expect(slotsOf(exercise.sticking)).toBeGreaterThanOrEqual(2 * slotsOf(cell));
  },
  'reason-cell-beat': ({ cell, beats }, { exercise }) => {
    expect(exercise.sticking.startsWith(cell)).toBe(true);
    expect(slotsOf(exercise.sticking)).toBe(beats * exercise.perBeat);
  },
  'reason-cell-bar': ({ cell, bars }, { exercise }) => {
    expect(exercise.sticking.startsWith(cell)).toBe(true);
    expect(slotsOf(exercise.sticking)).toBe(bars * barOf(exercise));
  },
  'reason-under-hats': ({ cell }, { exercise }) => {
    const sounds = soundsOf(exercise);
    expect(sounds.filter(isHand).map(({ slot, drum }) => [slot % exercise.perBeat, drum])).toEqual(
      Array.from({ length: slotsOf(exercise.sticking) / exercise.perBeat }, () => [0, 'hi-hat']),
    );
    expect(
      sounds
        .filter((sound) => !isHand(sound))
        .map(({ limb }) => limb)
        .join(''),
    ).toBe(lettersOf(cell));
  },
  'reason-breath': ({ cell, restSlots }, { exercise }) => {
    const silent = exercise.sticking.replaceAll(/\{(\d+):-\}/g, (_, count) => '-'.repeat(Number(count)));
    const turned = silent + silent;
    const start = turned.indexOf('-'.repeat(restSlots) + cell);
    expect(start).toBeGreaterThanOrEqual(0);
    expect(turned[start - 1] ?? turned.at(-1)).not.toBe('-');
  },
  'reason-one-at-a-time': ({ cell, stickings }, { exercise, phrase }) => {
    follow(exercise, stickings);
    const missing = lettersOf(cell).length - 1;
    for (const text of stickings.slice(0, -1)) expect(lettersOf(text)).toHaveLength(lettersOf(phrase.sticking).length - missing);
    expect(stickings.at(-1)).toBe(phrase.sticking);
    expect(stickings).toHaveLength(lettersOf(cell).length + 1);
  },
  'reason-approach': ({ cell, stickings }, { exercise }) => {
    follow(exercise, stickings);
    expect(stickings.map((text) => slotsOf(text) - slotsOf(cell))).toEqual([2, 4, 6]);
    for (const text of stickings) expect(text.endsWith(cell)).toBe(true);
  },
  'reason-built-up': ({ stickings }, { exercise, phrase }) => {
    follow(exercise, stickings);
    expect(lettersOf(stickings[0]!)).toHaveLength(2);
    expect(stickings.at(-1)).toBe(phrase.sticking);
    for (const text of stickings) expect(phrase.sticking.startsWith(text)).toBe(true);
  },
  'reason-across-beat': ({ cell }, { exercise }) => {
    const sounds = soundsOf(exercise);
    expect(sounds.at(-1)).toMatchObject({ slot: slotsOf(exercise.sticking) - 1, limb: lettersOf(cell)[0] });
    expect(slotsOf(exercise.sticking) % exercise.perBeat).toBe(0);
    expect(sounds[0]!.slot).toBe(0);
  },
  'reason-overload': ({ threes, back }, { exercise }) => {
    follow(exercise, [threes, back]);
    expect((lettersOf(threes) + lettersOf(threes)).replaceAll(/(.)\1{2}/g, '#').includes('#')).toBe(true);
    if (lettersOf(back).length > 2) expect(withRests(back).repeat(2)).not.toMatch(/([RLKH])\1\1/);
  },
  'reason-check': ({ check, doubled, limb }, { exercise }) => {
    expect(slotsOf(check)).toBe(slotsOf(doubled));
    const count = (text: string) => Array.from(lettersOf(text)).filter((letter) => letter === limb).length;
    expect(count(doubled)).toBe(2 * count(check));
    expect(exercise.sticking.startsWith(check.repeat(barOf(exercise) / slotsOf(check)))).toBe(true);
    if (limb === 'R' || limb === 'L') expect(lettersOf(doubled)).toHaveLength(2 * lettersOf(check).length);
  },
  'reason-second-accented': (_, { exercise }) => {
    const sounds = soundsOf(exercise);
    sounds.forEach((sound, i) => {
      expect(sound.accent).toBe(i % 2 === 1);
      if (i % 2 === 1) expect(sound.limb).toBe(sounds[i - 1]!.limb);
    });
  },
  'reason-hand-to-hand': ({ model, feet, bars }, { exercise, phrase }) => {
    expect(lettersOf(model)).toMatch(/^(RL)+R?$|^(LR)+L?$/);
    expect(slotsOf(exercise.sticking)).toBe(2 * bars * barOf(exercise));
    const half = slotsOf(exercise.sticking) / 2;
    const sounds = soundsOf(exercise);
    const rhythm = (from: number) => sounds.filter(({ slot }) => Math.floor(slot / half) === from).map(({ slot }) => slot - from * half);
    expect(rhythm(0)).toEqual(rhythm(1));
    expect(sounds.filter(({ slot }) => slot < half).every(isHand)).toBe(true);
    expect(exercise.sticking.endsWith(phrase.sticking.replace(/-+$/, '')) || exercise.sticking.includes(phrase.sticking)).toBe(true);
    expect(feet).toBe(/[KH]/.test(phrase.sticking));
  },
  'reason-other-hand': ({ model, cell }, { exercise }) => {
    expect(lettersOf(model)).toBe(swapped(lettersOf(cell)));
    const letters = lettersOf(exercise.sticking);
    expect(letters.slice(0, letters.length / 2)).toBe(swapped(letters.slice(letters.length / 2)));
  },
  'reason-flat-flams': ({ flat, flamCount }, { exercise, phrase }) => {
    follow(exercise, [flat, phrase.sticking]);
    expect(soundsOf(phrase).filter(({ graces }) => graces.length === 1)).toHaveLength(flamCount);
    expect(lettersOf(flat)).toHaveLength(lettersOf(phrase.sticking).length + flamCount);
  },
  'reason-together': ({ together }, { exercise, phrase }) => {
    follow(exercise, [together, phrase.sticking]);
    const strokes = readSticking(together).value!.strokes;
    expect(strokes.filter(({ slot, index }) => strokes[index + 1]?.slot.num === slot.num)).toHaveLength(1);
    expect(strokes).toHaveLength(soundsOf(phrase).length);
  },
  'reason-one-hand': ({ limb, alone, strokeCount }, { exercise, phrase }) => {
    follow(exercise, [alone, phrase.sticking]);
    expect(lettersOf(alone)).toBe(limb.repeat(strokeCount));
    expect(soundsOf(phrase).filter((sound) => sound.limb === limb)).toHaveLength(strokeCount);
  },
  'reason-both-leads': ({ from, sticking }, { exercise }) => {
    expect(exercise.sticking).toBe(from + sticking);
    expect(lettersOf(sticking)).toBe(swapped(lettersOf(from)));
  },
  'reason-one-hand-around': ({ hand, drums }, { exercise, phrase }) => {
    const cycle = slotsOf(phrase.sticking);
    for (const { slot, drum, limb } of soundsOf(exercise).filter(isHand))
      expect(drum).toBe(limb === hand ? drums[Math.floor(slot / cycle)] : 'snare');
  },
  'reason-value': ({ perBeat, wasPerBeat }, { exercise, phrase }) => {
    expect([exercise.perBeat, phrase.perBeat]).toEqual([perBeat, wasPerBeat]);
    expect(exercise.sticking).toBe(phrase.sticking);
  },
  'reason-moved-to-hands': ({ strokeCount }, { exercise, phrase }) => {
    expect(soundsOf(exercise).every(isHand)).toBe(true);
    const runOf = (text: string) => Math.max(0, ...(withRests(text).repeat(2).match(/R+|L+/g) ?? []).map(({ length }) => length));
    expect(runOf(exercise.sticking)).toBeLessThanOrEqual(Math.max(2, runOf(phrase.sticking)));
    expect(soundsOf(phrase).filter((sound) => !isHand(sound))).toHaveLength(strokeCount);
  },
  'reason-other-lead': ({ from }, { exercise, phrase }) => {
    expect(from).toBe(phrase.sticking);
    expect(lettersOf(exercise.sticking)).toBe(swapped(lettersOf(from)));
  },
  'reason-leaning': ({ cell, second, first }, { exercise }) => {
    follow(exercise, [second, first]);
    for (const [text, place] of [
      [second, 1],
      [first, 0],
    ] as const) {
      const strokes = readSticking(text).value!.strokes;
      const loud = strokes.filter(({ ghost }) => !ghost);
      const order = strokes.length > 2 && loud[0]!.index === 0 && loud[1]!.index === strokes.length - 1 ? [...loud].reverse() : loud;
      const turned = order.filter(({ limb }) => limb === lettersOf(cell)[0]);
      expect(turned.filter(({ accent }) => accent)).toHaveLength(1);
      expect(turned[place]!.accent).toBe(true);
    }
  },
  'reason-soft-cell': ({ cell }, { exercise }) => {
    const sounds = soundsOf(exercise);
    expect(sounds.filter(({ ghost }) => ghost)).toHaveLength(lettersOf(cell).length);
    expect(sounds.filter(({ rolled }) => !rolled).every(({ ghost, accent }) => ghost !== accent)).toBe(true);
  },
  'reason-long-runs': ({ times }, { exercise, phrase }) => {
    let rest = exercise.sticking;
    for (const count of times) {
      const run = phrase.sticking.repeat(count);
      expect(rest.startsWith(run)).toBe(true);
      rest = rest.slice(run.length);
      if (!phrase.sticking.startsWith('-')) expect(rest).toMatch(/^-/);
      rest = phrase.sticking.startsWith('-') ? rest.slice(rest.indexOf(phrase.sticking)) : rest.replace(/^-+/, '');
    }
  },
  'reason-soft-surface': ({ surface }, { exercise }) => {
    const half = slotsOf(exercise.sticking) / 2;
    for (const { slot, drum, limb } of soundsOf(exercise)) expect(drum === surface).toBe(slot < half && isHand({ limb } as Sound));
  },
  'reason-crescendo': ({ bars }, { exercise }) => {
    expect(slotsOf(exercise.sticking)).toBe(bars * barOf(exercise));
    const loud = (bar: number) => soundsOf(exercise).filter(({ slot }) => Math.floor(slot / barOf(exercise)) === bar);
    expect(loud(0).every(({ ghost }) => ghost)).toBe(true);
    for (const { ghost, accent, slot } of loud(1)) expect([ghost, accent]).toEqual([slot % exercise.perBeat !== 0, false]);
    expect(loud(2).some(({ ghost, accent }) => ghost || accent)).toBe(false);
    expect(loud(3).every(({ accent }) => accent)).toBe(true);
  },
  'reason-groups': ({ lengths }, { exercise, phrase }) => {
    expect(summed(lengths)).toBe(slotsOf(phrase.sticking));
    const heads = lengths.map((_, i) => summed(lengths.slice(0, i)));
    for (const { slot, accent } of soundsOf(exercise)) expect(accent).toBe(heads.includes(slot));
  },
  'reason-varied': ({ accentCount, begun, right, left }, { exercise, phrase }) => {
    expect(lettersOf(phrase.sticking).repeat(2)).toContain(lettersOf(exercise.sticking));
    if (accentCount > 0) expect(soundsOf(exercise).filter(({ accent }) => accent)).toHaveLength(accentCount);
    if (!begun) expect(lettersOf(exercise.sticking)).toBe(lettersOf(phrase.sticking));
    for (const { limb, drum } of soundsOf(exercise)) {
      const wanted = limb === 'R' ? right : limb === 'L' ? left : '';
      if (wanted !== '') expect(drum).toBe(wanted);
    }
  },
  'reason-moving-accent': ({ strokeCount }, { exercise, phrase }) => {
    expect(slotsOf(exercise.sticking)).toBe(strokeCount * slotsOf(phrase.sticking));
    const cycle = slotsOf(phrase.sticking);
    const accents = soundsOf(exercise).filter(({ accent }) => accent);
    expect(accents).toHaveLength(strokeCount);
    expect(accents.map(({ slot }) => Math.floor(slot / cycle))).toEqual(Array.from({ length: strokeCount }, (_, i) => i));
  },
  'reason-all-soft': (_, { exercise }) => expect(soundsOf(exercise).every(({ ghost, accent }) => ghost && !accent)).toBe(true),
  'reason-accent': ({ limb, place }, { exercise }) => {
    const { strokes } = readSticking(exercise.sticking).value!;
    expect(strokes.filter(({ accent }) => accent).map((stroke) => [stroke.index + 1, stroke.limb])).toEqual([[place, limb]]);
  },
  'reason-accents': ({ places }, { exercise }) => {
    const { strokes } = readSticking(exercise.sticking).value!;
    expect(strokes.filter(({ accent }) => accent).map(({ index }) => index + 1)).toEqual(places);
  },
  'reason-doubled-kick': ({ kickCount }, { exercise, phrase }) => {
    const sounds = soundsOf(exercise);
    const kicks = sounds.filter(({ limb }) => limb === 'K');
    expect(kicks).toHaveLength(kickCount);
    expect(soundsOf(phrase).filter(({ limb }) => limb === 'K')).toHaveLength(kickCount);
    for (const kick of kicks) expect(at(sounds, kick.slot).map(({ drum }) => drum)).toContain('floor-tom');
  },
  'reason-over-feet': ({ feet }, { exercise, phrase }) => {
    const bar = barOf(exercise);
    const own = new Set(lettersOf(phrase.sticking));
    const added = soundsOf(exercise).filter((sound) => !isHand(sound) && !own.has(sound.limb));
    if (feet === 'both') expect(new Set(added.map(({ limb }) => limb)).size).toBe(2);
    else
      expect(added.map(({ slot }) => slot)).toEqual(
        Array.from({ length: slotsOf(exercise.sticking) / exercise.perBeat }, (_, beat) => beat * exercise.perBeat),
      );
    expect(added.every(({ slot }) => slot % exercise.perBeat === 0 && slot < slotsOf(exercise.sticking) && bar > 0)).toBe(true);
  },
  'reason-split': ({ first, second }, { exercise, phrase }) => {
    const moved = soundsOf(exercise).filter(({ drum }, i) => drum !== phrase.surfaces[i]);
    expect(moved.map(({ drum }) => drum)).toEqual([second]);
    expect(soundsOf(exercise).some(({ drum, limb }) => drum === first && limb === moved[0]!.limb)).toBe(true);
  },
  'reason-by-limb': ({ right, left }, { exercise }) => {
    for (const { limb, drum } of soundsOf(exercise).filter(isHand)) expect(drum).toBe(limb === 'R' ? right : left);
  },
  'reason-cycle-lower': ({ drums }, { exercise, phrase }) => {
    const cycle = slotsOf(phrase.sticking);
    for (const { slot, drum } of soundsOf(exercise).filter(isHand)) expect(drum).toBe(drums[Math.floor(slot / cycle)]);
  },
  'reason-around': ({ drums }, { exercise }) => {
    const hands = soundsOf(exercise).filter((sound) => isHand(sound) && !sound.rolled);
    if (hands.length === soundsOf(exercise).filter(isHand).length)
      expect(hands.map(({ drum }) => drum)).toEqual(hands.map((_, i) => drums[i % drums.length]));
  },
  'reason-crash-on-one': (_, { exercise }) => expect(at(soundsOf(exercise), 0).map(({ drum }) => drum)).toEqual(['crash', 'kick']),
  'reason-accents-out': ({ accentCount, right, left }, { exercise }) => {
    const accents = soundsOf(exercise).filter((sound) => sound.accent && isHand(sound));
    expect(accents).toHaveLength(accentCount);
    for (const { drum, limb } of accents) expect(drum).toBe(limb === 'R' ? right : left);
    expect([right, left].sort()).toEqual(['floor-tom', 'high-tom']);
  },
  'reason-drums': ({ drums, ways }) => expect(ways).toBe(2 ** drums.length),
  'reason-groove': ({ hand, beats, replacedOn, replaced, lengths, feet, rolls, hats, meter }, { exercise, phrase }) => {
    const sounds = soundsOf(exercise);
    for (const beat of beats) {
      expect(at(sounds, (beat - 1) * exercise.perBeat).find(({ limb }) => limb === hand)).toMatchObject({ drum: 'snare', accent: true });
    }
    const others = sounds.filter(
      ({ limb, slot, accent, rolled }) => limb === hand && !beats.includes(slot / exercise.perBeat + 1) && !accent && !rolled,
    );
    expect(others.every(({ ghost }) => ghost)).toBe(true);
    expect(sounds.some((sound) => sound.limb === hand && sound.rolled)).toBe(rolls);
    expect(summed(lengths)).toBe(barOf(exercise));
    if (meter !== '') expect(meter).toBe(`${exercise.meter.beats}/${exercise.meter.unit}`);
    if (hats === 'quarters' && feet.includes('H')) expect(sounds.filter(({ limb }) => limb === 'H')).toHaveLength(exercise.meter.beats);
    expect(replaced).toHaveLength(replacedOn.length);
    const own = new Set(lettersOf(phrase.sticking));
    expect(
      [...new Set(sounds.map(({ limb }) => limb))]
        .filter((limb) => !own.has(limb as 'K') && /[KH]/.test(limb))
        .sort()
        .join(''),
    ).toBe([...feet].sort().join(''));
  },
  'reason-moved': ({ offsets, inBar, cell }, { exercise }) => {
    expect(slotsOf(exercise.sticking)).toBe(offsets.length * barOf(exercise));
    const cellLetters = lettersOf(cell);
    const sounds = soundsOf(exercise);
    const total = slotsOf(exercise.sticking);
    const stands = (start: number) =>
      Array.from(cellLetters).every((letter, i) => at(sounds, (start + i + total) % total).some(({ limb }) => limb === letter));
    if (slotsOf(cell) === cellLetters.length) {
      for (const [bar, offset] of offsets.entries())
        for (let i = 0; i < inBar; i++) expect(stands(bar * barOf(exercise) + i * 2 * exercise.perBeat + offset)).toBe(true);
    }
  },
  'reason-moved-one': ({ places, cell }, { exercise }) => {
    const total = slotsOf(exercise.sticking);
    for (const [i, slot] of places.entries())
      expect(at(soundsOf(exercise), (slot + total) % total).map(({ limb }) => limb)).toContain(lettersOf(cell)[i]);
  },
  'reason-fill-bar': ({ lengths, landing, timeBars }, { exercise }) => {
    expect(summed(lengths)).toBe(barOf(exercise));
    expect(exercise.bars).toBe(timeBars + 1);
    expect(timeBarsIn(exercise)).toBe(timeBars);
    landsOn(exercise, landing);
  },
  'reason-resolved': ({ lengths, landing }, { exercise, phrase }) => {
    expect(summed(lengths)).toBe(barOf(exercise));
    expect(barOf(exercise) % slotsOf(phrase.sticking)).toBeGreaterThan(0);
    expect(exercise.bars).toBe(2);
    landsOn(exercise, landing);
  },
  'reason-fill-short': ({ beats, landing, sticking }, { exercise }) => {
    expect(slotsOf(sticking)).toBe(beats * exercise.perBeat);
    expect(exercise.sticking.endsWith(sticking)).toBe(true);
    expect(exercise.bars).toBe(2);
    landsOn(exercise, landing);
  },
  'reason-fill-two-bars': ({ lengths, landing }, { exercise }) => {
    expect(summed(lengths)).toBe(2 * barOf(exercise));
    expect(timeBarsIn(exercise)).toBe(2);
    expect(exercise.bars).toBe(4);
    landsOn(exercise, landing);
  },
  'reason-time-and-phrase': ({ bars, landing }, { exercise }) => {
    expect(exercise.bars).toBe(2 * bars);
    expect(timeBarsIn(exercise)).toBe(bars);
    landsOn(exercise, landing);
  },
  'reason-in-piece': ({ timeBars, bars, landing }, { exercise }) => {
    expect(exercise.bars).toBe(timeBars + bars);
    expect(timeBarsIn(exercise)).toBeGreaterThanOrEqual(timeBars);
    landsOn(exercise, landing);
  },
  'reason-free': ({ cell, bars }, { exercise }) => {
    expect(exercise.bars).toBe(2 * bars);
    const bar = barOf(exercise);
    const later = soundsOf(exercise).filter(({ slot }) => slot >= bars * bar);
    expect(later.map(({ limb }) => limb).join('')).toBe(lettersOf(cell).repeat(bars));
    for (const { slot } of later) expect(slot % bar).toBeLessThan(slotsOf(cell));
  },
  'reason-in-time': ({ cell, beat }, { exercise }) => {
    const bar = barOf(exercise);
    const end = bar + (beat - 1) * exercise.perBeat;
    const sounds = soundsOf(exercise).filter(({ slot }) => slot >= end - slotsOf(cell) && slot < end);
    const letters = lettersOf(cell);
    expect(
      sounds
        .filter(({ limb }) => letters.includes(limb))
        .map(({ limb }) => limb)
        .join(''),
    ).toBe(letters);
    expect(at(soundsOf(exercise), end)).toContainEqual(expect.objectContaining({ drum: 'snare', accent: true }));
  },
  'reason-feet-in-time': ({ kickCount }, { exercise, phrase }) => {
    expect(soundsOf(phrase).filter((sound) => !isHand(sound))).toHaveLength(kickCount);
    expect(
      soundsOf(exercise)
        .filter(isHand)
        .every(({ drum }) => drum === 'ride' || drum === 'snare'),
    ).toBe(true);
  },
  'reason-rudiment': ({ name, number, word, times, hold, hand, foot, lead }, { exercise }) => {
    const rudiment = RUDIMENTS[number - 1]!;
    expect(rudiment.name).toBe(name);
    const written = stickingOfRudiment(rudiment, lead as 'R' | 'L');
    expect(lettersOf(exercise.sticking)).toBe(hand === '' ? lettersOf(written.text) : lettersOf(written.text).replaceAll(hand, foot));
    const sounding = (count: boolean) =>
      soundsOf(exercise)
        .map(({ limb, graces }) => (count ? graces.join('').toLowerCase() : '') + limb)
        .join('');
    const loop = sounding(hold !== 'graces-between');
    if (hold === 'graces-counted') expect(loop.toUpperCase().repeat(2)).toContain(word);
    else expect(loop.repeat(3).split(word).length - 1).toBeGreaterThanOrEqual(3 * times - 2);
    if (hold !== 'graces-counted') expect(times).toBeGreaterThan(0);
  },
  'reason-linked': ({ from, to, joinRun, joinLimb, link, linkBack }, { exercise }) => {
    const end = new RegExp(`${joinLimb}*$`).exec(withRests(from))![0].length;
    const start = new RegExp(`^${joinLimb}*`).exec(withRests(to))![0].length;
    expect(end + start).toBe(joinRun);
    follow(exercise, [from, ...(link === '' ? ['-'] : [link]), to]);
    const loop = withRests(exercise.sticking);
    if (link !== '' && linkBack !== '') expect(loop.repeat(2)).not.toContain(joinLimb.repeat(joinRun));
  },
  'reason-inversion': ({ from, joinRun, joinLimb, cell }, { exercise, phrase }) => {
    expect(from).toBe(phrase.sticking);
    expect((lettersOf(from) + lettersOf(from)).includes(lettersOf(exercise.sticking))).toBe(true);
    if (joinRun > 0) expect(lettersOf(from) + lettersOf(exercise.sticking)).toContain(joinLimb.repeat(joinRun));
    cellStands({ exercise, phrase }, cell);
  },
};

/** Fails where the reason of an exercise claims what its strokes do not do. */
export function holdsTrue({ exercise, phrase }: Case): void {
  const check = CHECKS[exercise.reason.code] as (params: unknown, given: Case) => void;
  try {
    check(exercise.reason.params, { exercise, phrase });
  } catch (error) {
    const failed = error instanceof Error ? error.message : String(error);
    throw new Error(`${say(exercise.title)}\n${exercise.sticking}\n${say(exercise.reason)}\n${failed}`);
  }
}
