/** The phrase being typed: what it reads as, what is wrong with it, and how one key mends it. */
import { COMMON_TIME, countedAs, type ExerciseContent } from '@evenhand/core/exercise';
import type { Shape } from '@evenhand/core/finding';
import { DEFAULT_DRUMS, DRUMS } from '@evenhand/core/kit';
import type { Reading } from '@evenhand/core/problem';
import { toNumber } from '@evenhand/core/rational';
import { type Limb, readSticking, type Sticking, type StickingProblem, type WrittenStroke } from '@evenhand/core/sticking';

/** What the drummer typed and chose. */
export interface Phrase {
  readonly sticking: string;
  readonly perBeat: number;
  /** As typed; may be no number yet. */
  readonly tempo: string;
  readonly drums: Readonly<Record<Limb, string>>;
  /** What is meant beside evenness, and so is no fault. */
  readonly shapes: readonly Shape[];
  /** First and last main stroke of the fill, from 0; null: those on the toms, if there are such. */
  readonly fill: { readonly first: number; readonly last: number } | null;
}

/** What may be meant, in the order it is shown. The core's own list would bring all that is found with the first screen. */
export const SHAPES = ['leaning', 'first-accented', 'swing', 'laid-back', 'ghosted'] as const satisfies readonly Shape[];

/** What a take is judged against beside its strokes. */
export interface Wanted {
  readonly shapes: readonly Shape[];
  /** Main strokes of the fill, from 0. */
  readonly fill: readonly number[];
}

/** What the phrase says of how it is meant. */
export const wantedOf = ({ shapes, fill }: Pick<Phrase, 'shapes' | 'fill'>): Wanted => ({
  shapes,
  fill: fill ? Array.from({ length: Math.max(0, fill.last - fill.first + 1) }, (_, i) => fill.first + i) : [],
});

/** Subdivisions on offer, in slots per beat. */
export const SUBDIVISIONS: readonly number[] = [2, 3, 4, 5, 6, 7, 8];

/** Slowest and fastest tempo that makes sense to a drummer, in beats per minute. Assumption. */
export const TEMPO_RANGE_BPM = { lowest: 20, highest: 320 } as const;

/** Drums on offer, by name. */
export const DRUM_NAMES: readonly string[] = DRUMS.map((drum) => drum.name);

export const LIMBS: readonly Limb[] = ['R', 'L', 'K', 'H'];

/** An untouched phrase. */
export const emptyPhrase: Phrase = {
  sticking: '',
  perBeat: 4,
  tempo: '96',
  drums: DEFAULT_DRUMS,
  shapes: [],
  fill: null,
};

/** The sticking as the core reads it. */
export const readingOf = (phrase: Phrase): Reading<Sticking, StickingProblem> => readSticking(phrase.sticking);

/** Tempo in beats per minute, or null while what is typed is none. */
export function tempoOf(phrase: Pick<Phrase, 'tempo'>): number | null {
  const tempoBpm = Number(phrase.tempo.replace(',', '.'));
  return tempoBpm >= TEMPO_RANGE_BPM.lowest && tempoBpm <= TEMPO_RANGE_BPM.highest ? tempoBpm : null;
}

/** Limbs that the sticking uses, in the order R L K H. */
export const limbsOf = (sticking: Sticking): readonly Limb[] => LIMBS.filter((limb) => sticking.strokes.some((stroke) => stroke.limb === limb));

/** What is to be played, as the exercise stage takes it. */
export const contentOf = (phrase: Phrase, sticking: Sticking): ExerciseContent => ({
  sticking: sticking.text,
  surfaces: sticking.strokes.map((stroke) => phrase.drums[stroke.limb]),
  perBeat: phrase.perBeat,
  meter: COMMON_TIME,
});

/** The phrase of a sticking point that the diary holds: each limb on the drum of its first stroke. */
export function phraseOf(point: {
  readonly sticking: string;
  readonly surfaces: readonly string[];
  readonly perBeat: number;
  readonly tempoBpm: number;
  readonly shapes?: readonly string[];
  readonly fill?: { readonly first: number; readonly last: number };
}): Phrase {
  const strokes = readSticking(point.sticking).value?.strokes ?? [];
  const drumOf = (limb: Limb) => point.surfaces[strokes.find((stroke) => stroke.limb === limb)?.index ?? -1] ?? DEFAULT_DRUMS[limb];
  return {
    sticking: point.sticking,
    perBeat: point.perBeat,
    tempo: String(point.tempoBpm),
    drums: { R: drumOf('R'), L: drumOf('L'), K: drumOf('K'), H: drumOf('H') },
    shapes: SHAPES.filter((shape) => point.shapes?.includes(shape)),
    fill: point.fill ?? null,
  };
}

/** What one key would change: the whole text after, and what to call it; null when the problem has no one answer. */
export interface Mending {
  readonly text: string;
  /** What is put in; empty when something is only taken out. */
  readonly puts: string;
  readonly takesOut: string;
}

/** The mending that a problem of the sticking offers. */
export function mendingOf(text: string, problem: StickingProblem): Mending | null {
  if (problem.code === 'sticking-reads-as-grace') return { text: problem.params.suggestion, puts: problem.params.suggestion, takesOut: '' };
  if (problem.code === 'sticking-unknown-character' && problem.params.suggestion && problem.at !== undefined) {
    const { character, suggestion } = problem.params;
    const puts = suggestion.trim();
    return { text: text.slice(0, problem.at) + puts + text.slice(problem.at + character.length), puts, takesOut: character };
  }
  return null;
}

/** One slot of the counting line: what is said there and which strokes fall on it. */
export interface CountedSlot {
  readonly count: string;
  readonly onBeat: boolean;
  /** Its letters as they were typed, without accents: `lR`, `(R)`, `Rz`, `R+K`; of a diddle both strokes. */
  readonly written: string;
  readonly accent: boolean;
}

/** The cycle laid under the count, from 1; strokes between slots stand with the slot before them. */
export function countedSlots(sticking: Sticking, perBeat: number): readonly CountedSlot[] {
  return Array.from({ length: sticking.slotCount }, (_, slot) => {
    const within = slot % perBeat;
    const count = countedAs({ beat: Math.floor(slot / perBeat), within, perBeat });
    const here = sticking.strokes.filter((stroke) => Math.floor(toNumber(stroke.slot)) === slot);
    const written = here.map((stroke, k) => `${isTogether(stroke, here[k - 1]) ? '+' : ''}${lettersOf(stroke)}`).join('');
    return { count, onBeat: within === 0, written: written || '–', accent: here.some(({ accent }) => accent) };
  });
}

const isTogether = ({ slot }: WrittenStroke, before: WrittenStroke | undefined): boolean =>
  before !== undefined && toNumber(before.slot) === toNumber(slot);

const lettersOf = ({ limb, graces, ghost, buzz }: WrittenStroke): string =>
  `${graces.join('').toLowerCase()}${ghost ? `(${limb})` : limb}${buzz ? 'z' : ''}`;
