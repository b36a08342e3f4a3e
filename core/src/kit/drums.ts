/**
 * Drums by name: where each stands on the staff, its note head, its General MIDI key.
 *
 * Origin of the table: staff positions and heads from Weinberg, "Guidelines for Drumset Notation", Percussive Notes, June 1994
 * (@source [Weinberg1994]), pitches read as in treble clef; keys from the General MIDI percussion map (@source [GM1]).
 * Departures: rim, ride bell and open hi-hat take the place of their drum with another head, as common practice has it (no source);
 * a pad has no place of its own there and takes the snare's.
 */

/** Note heads a drum can have. */
export type Head = 'normal' | 'x' | 'circle-x' | 'diamond' | 'triangle';

/** A drum as it is written and sent. */
export interface Drum {
  /** Its name in stickings, files and options: small letters, hyphens. */
  readonly name: string;
  /** Where its head stands, as a pitch read in treble clef. */
  readonly pitch: string;
  /** The same in steps from the middle line (B4), up positive: two steps are one staff space. */
  readonly step: number;
  readonly head: Head;
  /** General MIDI percussion key, 35 to 81, or null when there is none for it. */
  readonly midiKey: number | null;
}

const drum = (name: string, pitch: string, rest: { head?: Head; midiKey: number | null }): Drum => ({
  name,
  pitch,
  step: stepOf(pitch),
  head: rest.head ?? 'normal',
  midiKey: rest.midiKey,
});

/** Steps from B4 of a natural pitch such as `F4`. */
function stepOf(pitch: string): number {
  const letter = 'CDEFGAB'.indexOf(pitch[0]!);
  return letter + 7 * Number(pitch.slice(1)) - (6 + 7 * 4);
}

/** The drums known by name. */
export const DRUMS: readonly Drum[] = [
  drum('kick', 'F4', { midiKey: 36 }),
  drum('snare', 'C5', { midiKey: 38 }),
  drum('cross-stick', 'C5', { head: 'x', midiKey: 37 }),
  drum('rim', 'C5', { head: 'triangle', midiKey: 40 }),
  drum('pad', 'C5', { midiKey: 38 }),
  drum('floor-tom', 'A4', { midiKey: 43 }),
  drum('mid-tom', 'D5', { midiKey: 47 }),
  drum('high-tom', 'E5', { midiKey: 50 }),
  drum('hi-hat', 'G5', { head: 'x', midiKey: 42 }),
  drum('open-hi-hat', 'G5', { head: 'circle-x', midiKey: 46 }),
  drum('hi-hat-foot', 'D4', { head: 'x', midiKey: 44 }),
  drum('ride', 'F5', { head: 'x', midiKey: 51 }),
  drum('ride-bell', 'F5', { head: 'diamond', midiKey: 53 }),
  drum('crash', 'A5', { head: 'x', midiKey: 49 }),
];

/** Other names for the same drum. */
const ALIASES: Readonly<Record<string, string>> = {
  'bass-drum': 'kick',
  bass: 'kick',
  tom: 'mid-tom',
  hihat: 'hi-hat',
  hat: 'hi-hat',
  'hihat-foot': 'hi-hat-foot',
  'pedal-hi-hat': 'hi-hat-foot',
  crossstick: 'cross-stick',
};

/**
 * Where a drum without a place of its own stands: the middle line, which the table leaves free, with a diamond head. A legend has to name it.
 * Assumption: our own choice, no source.
 */
const UNKNOWN = { pitch: 'B4', head: 'diamond', midiKey: null } as const;

/**
 * The drum of a name. A name that is not known is a drum of its own, on the middle line with a diamond head and without a MIDI key.
 * @param name e.g. `snare`, `Floor Tom`, `djembe-slap`; case, spaces and underscores do not matter.
 */
export function drumNamed(name: string): Drum {
  const key = plainName(name);
  const known = DRUMS.find((entry) => entry.name === (ALIASES[key] ?? key));
  return known ?? drum(key, UNKNOWN.pitch, UNKNOWN);
}

/** Heads that tell several unknown drums apart, in the order they come; more than four share the last. */
const UNKNOWN_HEADS: readonly Head[] = ['diamond', 'triangle', 'x', 'circle-x'];

/**
 * The drums of some names, by name as given. Unknown ones stand on the middle line with a head each.
 * @param names in any order, repeated or not.
 */
export function drumsOf(names: readonly string[]): ReadonlyMap<string, Drum> {
  const each = [...new Set(names)];
  const unknown = [...new Set(each.filter((name) => !isKnownDrum(name)).map(plainName))];
  const headOf = (name: string): Head => UNKNOWN_HEADS[Math.min(unknown.indexOf(plainName(name)), UNKNOWN_HEADS.length - 1)]!;
  return new Map(each.map((name) => [name, isKnownDrum(name) ? drumNamed(name) : { ...drumNamed(name), head: headOf(name) }]));
}

/** Whether a name stands in the table. */
export const isKnownDrum = (name: string): boolean => DRUMS.some((entry) => entry.name === drumNamed(name).name);

/** A name as drums are told apart by: `Floor Tom` and `floor_tom` are `floor-tom`. */
export const plainName = (name: string): string =>
  name
    .trim()
    .toLowerCase()
    .replaceAll(/[\s_]+/g, '-');

/** The drum a limb plays when nothing else is said: one drum for both hands, the kick, the hi-hat's pedal. */
export const DEFAULT_DRUMS = { R: 'snare', L: 'snare', K: 'kick', H: 'hi-hat-foot' } as const;

/** A name as it is read: `floor-tom` is "floor tom", but a hi-hat and a cross-stick keep their hyphen. */
export const readName = (name: string): string => name.replaceAll(/(?<!\bhi|\bcross)-/g, ' ');
