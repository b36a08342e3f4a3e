/** From what a drummer types to the content of an exercise, its id, its strokes in time and its length in bars. */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import { InvariantError } from '../errors.ts';
import { DEFAULT_DRUMS, plainName } from '../kit/index.ts';
import type { Reading } from '../problem.ts';
import { divide, lcm, rational } from '../rational.ts';
import { type Limb, readSticking, type Sticking } from '../sticking/index.ts';
import type { ExerciseContent, ExerciseProblem, ExpectedCycle, Meter } from './exercise.ts';
import { ID_BITS, PER_BEAT_LIMIT } from './parameters.ts';

/** The meter when none is told. */
export const COMMON_TIME: Meter = { beats: 4, unit: 4 };

/**
 * Reads the drums of a sticking. Never throws.
 * @param text one name per main stroke (`snare snare kick`), or one per limb (`R=ride L=snare`; limbs left out keep theirs); names hold no spaces.
 *   Empty: one drum for the hands, the kick, the hi-hat's pedal.
 * @returns a name per main stroke, by index.
 */
export function readSurfaces(text: string, sticking: Sticking): Reading<readonly string[], ExerciseProblem> {
  const words = text.split(/[\s,]+/).filter((word) => word !== '');
  if (words.length === 0 || words.some((word) => word.includes('='))) return surfacesByLimb(words, sticking);
  if (words.length === sticking.strokes.length) return { value: words.map(plainName), problems: [] };
  const params = { strokeCount: sticking.strokes.length, surfaceCount: words.length };
  return { value: null, problems: [{ code: 'surfaces-count', severity: 'refused', params }] };
}

function surfacesByLimb(words: readonly string[], sticking: Sticking): Reading<readonly string[], ExerciseProblem> {
  const drums: Record<Limb, string> = { ...DEFAULT_DRUMS };
  for (const word of words) {
    const [limb = '', name = ''] = word.split('=');
    if (!(limb in drums) || name === '') {
      return { value: null, problems: [{ code: 'surfaces-limb', severity: 'refused', params: { limb: word } }] };
    }
    drums[limb as Limb] = plainName(name);
  }
  return { value: sticking.strokes.map(({ limb }) => drums[limb]), problems: [] };
}

/** What may be said beside a sticking. */
export interface ContentOptions {
  /** Slots per beat, a whole number from 1 to 64. */
  readonly perBeat: number;
  /** As `readSurfaces` takes it; default none. */
  readonly surfaces?: string;
  /** Default 4/4. */
  readonly meter?: Meter;
}

/** The content of an exercise from a sticking and what is said beside it. Never throws. */
export function readContent(sticking: Sticking, options: ContentOptions): Reading<ExerciseContent, ExerciseProblem> {
  const { perBeat, surfaces = '', meter = COMMON_TIME } = options;
  const drums = readSurfaces(surfaces, sticking);
  const problems: ExerciseProblem[] = [...drums.problems];
  if (!Number.isInteger(perBeat) || perBeat < 1 || perBeat > PER_BEAT_LIMIT) {
    problems.push({ code: 'per-beat-range', severity: 'refused', params: { perBeat, limit: PER_BEAT_LIMIT } });
  }
  if (drums.value === null || problems.length > 0) return { value: null, problems };
  return { value: { sticking: sticking.text, surfaces: drums.value, perBeat, meter }, problems };
}

/** The sticking of a content. Content is made from stickings that were read, so this reads. */
export function stickingOfContent(content: ExerciseContent): Sticking {
  const { value } = readSticking(content.sticking);
  if (!value) throw new InvariantError(`content holds the sticking ${content.sticking}, which does not read`);
  return value;
}

/**
 * The id of a content: 128 bits of the SHA-256 of its canonical JSON, as 32 hexadecimal digits.
 * Fields stand in the order meter, perBeat, sticking, surfaces; nothing else enters.
 */
export const contentId = (content: ExerciseContent): string => bytesToHex(sha256(utf8ToBytes(canonicalOf(content)))).slice(0, ID_BITS / 4);

/** The canonical JSON of a content: equal exactly for equal contents. */
export function canonicalOf({ meter, perBeat, sticking, surfaces }: ExerciseContent): string {
  return JSON.stringify({ meter: { beats: meter.beats, unit: meter.unit }, perBeat, sticking, surfaces });
}

/** One cycle of a content in beats: what measurement matches a take against. */
export function expectedCycle(content: ExerciseContent): ExpectedCycle {
  const { strokes, slotCount } = stickingOfContent(content);
  const perBeat = rational(content.perBeat);
  return {
    lengthBeats: rational(slotCount, content.perBeat),
    strokes: strokes.map(({ index, limb, slot, accent, ghost, buzz, graces }) => {
      const surface = content.surfaces[index]!;
      return { index, limb, surface, beat: divide(slot, perBeat), accent, ghost, buzz, graceCount: graces.length };
    }),
  };
}

/** Bars until the start of the cycle falls on a bar line again. */
export function barsUntilMet(slotCount: number, perBeat: number, meter: Meter = COMMON_TIME): number {
  const barSlots = meter.beats * perBeat;
  return lcm(slotCount, barSlots) / barSlots;
}
