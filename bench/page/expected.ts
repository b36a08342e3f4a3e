/** What must be read back from an exported exercise, worked out from its sticking and from published tables, never from the code that exports. */
import type { ExerciseContent } from '../../core/src/exercise/index.ts';
import { drumsOf } from '../../core/src/kit/index.ts';
import { readSticking, type WrittenStroke } from '../../core/src/sticking/index.ts';

/** What any reader finds in an exported exercise, as lines of text so that two readings compare. */
export interface Reading {
  /** A line for every head: onset in quarters, steps from the middle line, shape, ghost. */
  readonly heads: readonly string[];
  /** A line for every small note and letter, and for every onset with an accent or a roll. */
  readonly signs: readonly string[];
}

/** A head with what stands at it. */
export interface Head {
  /** Onset in quarters from the start, as a fraction in lowest terms. */
  readonly onset: string;
  /** Steps from the middle line. */
  readonly step: number;
  readonly shape: string;
  readonly ghost: boolean;
  readonly accent: boolean;
  readonly roll: 'none' | 'diddle' | 'buzz';
}

/** Heads, small notes by their onset and step, and letters by their onset, as a reading. */
export function readingOf(heads: readonly Head[], graces: readonly string[], letters: readonly string[]): Reading {
  const signs = heads.flatMap(({ onset, accent, roll }) => [
    ...(accent ? [`${onset} accent`] : []),
    ...(roll === 'none' ? [] : [`${onset} ${roll}`]),
  ]);
  return {
    heads: heads.map(({ onset, step, shape, ghost }) => `${onset} ${step} ${shape}${ghost ? ' ghost' : ''}`).sort(),
    signs: [...new Set(signs), ...graces.map((each) => `${each} grace`), ...letters.map((each) => `${each} letter`)].sort(),
  };
}

const greatest = (a: number, b: number): number => (b === 0 ? Math.abs(a) : greatest(b, a % b));

/** A fraction in lowest terms. */
export const fraction = (num: number, den: number): string => {
  const shared = greatest(num, den) || 1;
  return `${num / shared}/${den / shared}`;
};

/** Steps from the middle line and heads, typed in from FACTS.md 10 (Weinberg 1994); those after the blank line from common practice, no source. */
const PLACES: Readonly<Record<string, readonly [step: number, head: string, key: number]>> = {
  kick: [-3, 'normal', 36],
  'floor-tom': [-1, 'normal', 43],
  snare: [1, 'normal', 38],
  'mid-tom': [2, 'normal', 47],
  'high-tom': [3, 'normal', 50],
  ride: [4, 'x', 51],
  'hi-hat': [5, 'x', 42],
  crash: [6, 'x', 49],
  'hi-hat-foot': [-5, 'x', 44],
  'cross-stick': [1, 'x', 37],

  pad: [1, 'normal', 38],
  rim: [1, 'triangle', 40],
  'open-hi-hat': [5, 'circle-x', 46],
  'ride-bell': [4, 'diamond', 53],
};

function placeOf(content: ExerciseContent, name: string): readonly [number, string, number | null] {
  const known = PLACES[name];
  if (known) return known;
  // A drum that no table knows stands on the middle line; which head tells it from others is ours to choose.
  return [0, drumsOf(content.surfaces).get(name)!.head, null];
}

/** Slots of whole cycles until they meet the bar line: arithmetic, least common multiple. */
export function wholeSlots({ sticking, perBeat, meter }: ExerciseContent): { readonly slots: number; readonly cycle: number } {
  const cycle = readSticking(sticking).value!.slotCount;
  const bar = meter.beats * perBeat;
  return { slots: (cycle / greatest(cycle, bar)) * bar, cycle };
}

/** Everything in the whole cycles: a diddle is one head, unless a bar line cuts its group or it fills a group alone, and then it is two. */
export function expectedReading(content: ExerciseContent): Reading {
  const { slots, cycle } = wholeSlots(content);
  const { strokes } = readSticking(content.sticking).value!;
  const froms = Array.from({ length: slots / cycle }, (_, i) => i * cycle);
  const found = froms.flatMap((from) => strokes.map((stroke) => expectedStroke(content, stroke, from))).filter((each) => each !== null);
  return readingOf(
    found.map(({ head }) => head),
    found.flatMap(({ graces }) => graces),
    found.map(({ letters }) => letters),
  );
}

/** What stands for a stroke of the cycle that begins at slot `from`; null for what the slash of a diddle says. */
function expectedStroke(content: ExerciseContent, stroke: WrittenStroke, from: number) {
  const split = stroke.diddle !== null && isSplit(content, stroke.slot.num / stroke.slot.den, from);
  if (stroke.diddle === 'second' && !split) return null;
  const slashed = stroke.diddle !== null && !split;
  const [step, shape] = placeOf(content, content.surfaces[stroke.index]!);
  const limb = slashed ? stroke.limb.repeat(2) : stroke.limb;
  const onset = quarters(content, from * stroke.slot.den + stroke.slot.num, stroke.slot.den);
  const roll: Head['roll'] = stroke.buzz ? 'buzz' : slashed ? 'diddle' : 'none';
  const head: Head = { onset, step, shape, ghost: stroke.ghost, accent: stroke.accent, roll };
  return { head, graces: stroke.graces.map(() => `${onset} ${step}`), letters: `${onset} ${stroke.ghost ? `(${limb})` : limb}` };
}

const quarters = ({ perBeat, meter }: ExerciseContent, num: number, den: number): string => fraction(num * 4, den * perBeat * meter.unit);

/** Whether a diddle here is written as its two strokes: its group is cut by a bar line, or holds nothing else over several slots. */
function isSplit({ sticking, perBeat, meter }: ExerciseContent, slot: number, from: number): boolean {
  const bar = meter.beats * perBeat;
  const group = groupsIn(sticking).find(({ start, slots }) => start <= slot && slot < start + slots);
  if (!group) return false;
  const first = Math.floor((from + group.start) / bar);
  const last = Math.floor((from + group.start + group.slots - 1) / bar);
  return first !== last || (group.events === 1 && group.slots > 1);
}

/** Groups of a canonical sticking, read off its text. */
function groupsIn(sticking: string): readonly { readonly start: number; readonly slots: number; readonly events: number }[] {
  const groups: { start: number; slots: number; events: number }[] = [];
  let slot = 0;
  for (const [part, count, inside] of sticking.matchAll(/\{(\d+):([^}]*)\}|-|[^{}-][^{}]*?(?=\{|$)/g)) {
    const events = countEvents(inside ?? part);
    if (count !== undefined) groups.push({ start: slot, slots: Number(count), events });
    slot += count === undefined ? events : Number(count);
  }
  return groups;
}

/** Events of plain text: strokes joined by plus count once, rests too. */
const countEvents = (text: string): number => (text.match(/-|[RLKH]/g) ?? []).length - (text.match(/\+/g) ?? []).length;

/** Keys of the drums of a content that the General MIDI map knows, each once. */
export const expectedKeys = ({ surfaces }: ExerciseContent): readonly number[] =>
  [...new Set(surfaces)].flatMap((name) => PLACES[name]?.[2] ?? []).sort((a, b) => a - b);

/** A MIDI note as any reader finds it. */
export interface ReadMidiNote {
  readonly tick: number;
  readonly key: number;
  readonly velocity: number;
}

/** Velocities we promise in docs/formats/exports.md. */
const VELOCITIES = { accent: 113, plain: 80, ghost: 48, grace: 50 };
const TICKS = 3360;

/** Keys of drums that the General MIDI map does not know, as docs/formats/exports.md promises. */
const OTHER_KEYS = [76, 77, 75];

/** Every main stroke as a MIDI note, and its small notes 47 ms or 59 and 29.5 ms before it (median of real flams and drags, FACTS.md 2), at a tempo. */
export function expectedMidi(content: ExerciseContent, tempoBpm: number): readonly ReadMidiNote[] {
  const { slots, cycle } = wholeSlots(content);
  const { strokes } = readSticking(content.sticking).value!;
  const { perBeat, meter } = content;
  const beatTicks = (TICKS * 4) / meter.unit;
  const lead = strokes.some(({ slot, graces }) => slot.num === 0 && graces.length > 0) ? meter.beats * beatTicks : 0;
  const unknown = [...new Set(content.surfaces.filter((name) => !PLACES[name]))];
  const notes: ReadMidiNote[] = [];
  for (let from = 0; from < slots; from += cycle) {
    for (const { slot, index, accent, ghost, graces } of strokes) {
      const name = content.surfaces[index]!;
      const key = placeOf(content, name)[2] ?? OTHER_KEYS[unknown.indexOf(name) % OTHER_KEYS.length]!;
      const tick = lead + Math.round(((from + slot.num / slot.den) / perBeat) * beatTicks);
      const leads = graces.length === 1 ? [0.047] : graces.map((_, i) => (0.059 * (graces.length - i)) / graces.length);
      for (const sec of leads.slice(0, graces.length)) {
        notes.push({ tick: tick - Math.round((sec * beatTicks * tempoBpm) / 60), key, velocity: VELOCITIES.grace });
      }
      notes.push({ tick, key, velocity: accent ? VELOCITIES.accent : ghost ? VELOCITIES.ghost : VELOCITIES.plain });
    }
  }
  return notes;
}
