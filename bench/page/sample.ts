/** Exercises for the proofs of the page: of every family, for many phrases and cells, drawn by a seed. */
import { defaultFocus, type ExerciseContent, exercisesFor, type Family, readContent, readFocus } from '../../core/src/exercise/index.ts';
import { type Random, seededRandom } from '../../core/src/random.ts';
import { RUDIMENTS, readSticking, stickingOfRudiment } from '../../core/src/sticking/index.ts';

export const FAMILIES: readonly Family[] = ['rudiment', 'pad', 'groove', 'fill', 'kit', 'dynamics', 'inversion', 'use'];

/** One exercise of the sample. */
export interface Sampled {
  readonly family: Family | 'phrase';
  readonly content: ExerciseContent;
}

/** Phrases that the shelf is asked about, as a drummer would type them; the drums of some are their own. */
const PHRASES: readonly (readonly [text: string, perBeat: number, surfaces?: string, meter?: { beats: number; unit: number }])[] = [
  ['RLRLKK', 4],
  ['RLRRLRLL', 4],
  ['RLL', 3],
  ['lRLrLR', 4],
  ['RLRRLKK', 4],
  ['RLKRLK', 6],
  ['>RLR(L)KK', 4, 'R=ride L=snare'],
  ['llRLrrLR', 2],
  ['RLRLRLR', 4, '', { beats: 7, unit: 8 }],
  ['R/LRL/RL', 4],
  ['RKLK', 4, 'R=floor-tom L=mid-tom'],
  ['RLRLHK', 4],
  ['RLRRL', 5],
  ['RLK', 2, '', { beats: 6, unit: 8 }],
  ['RzLzRLRL', 4],
  ['RRLLKK', 8],
];

/** Stickings with everything the language has, groups that bar lines cut among them. */
const CUT: readonly (readonly [text: string, perBeat: number, surfaces?: string])[] = [
  ['RLR{2:RLR}', 4],
  ['{3:RL}K', 4],
  ['{5:R/L(R)}', 4],
  ['R+K{4:RLRLR}L', 4, 'R=hi-hat'],
  ['{2:R/}K', 3],
  ['RL{3:RLRL/}K', 4],
  ['l>R{4:rLRz}K+H', 5],
  ['{7:RLRLR}K', 6, 'R=djembe L=cowbell'],
  ['{3:R+KLH}', 2, 'R=open-hi-hat'],
  ['(R){6:>RLK+HRL}R/-', 7],
];

/** So many exercises, every family in turn, each from the shelf for a phrase and cell drawn by the seed, none twice. */
export function sampleOf(count: number, seed: number): readonly Sampled[] {
  const random = seededRandom(seed);
  const shelves = new Map<string, readonly Sampled[]>();
  const seen = new Set<string>();
  const sample: Sampled[] = [];
  for (let turn = 0; sample.length < count && turn < 60 * count; turn++) {
    const family = FAMILIES[turn % FAMILIES.length]!;
    const found = pick(
      shelfOf(random, shelves).filter((each) => each.family === family),
      random,
    );
    const key = found && JSON.stringify(found.content);
    if (!found || seen.has(key!)) continue;
    seen.add(key!);
    sample.push(found);
  }
  return sample;
}

const pick = <Each>(from: readonly Each[], random: Random): Each | undefined => from[Math.floor(random() * from.length)];

function shelfOf(random: Random, shelves: Map<string, readonly Sampled[]>): readonly Sampled[] {
  const [text, perBeat, surfaces = '', meter] = pick(PHRASES, random)!;
  const sticking = readSticking(text).value!;
  const first = Math.floor(random() * sticking.strokes.length);
  const cell = random() < 0.5 ? null : { first, last: (first + 1) % sticking.strokes.length };
  const key = `${text} ${perBeat} ${JSON.stringify(cell)}`;
  const known = shelves.get(key);
  if (known) return known;
  const content = readContent(sticking, { perBeat, surfaces, ...(meter ? { meter } : {}) }).value!;
  const focus = cell ? readFocus(cell, sticking).value! : defaultFocus(sticking);
  const made = exercisesFor(content, focus).exercises.map((each) => ({ family: each.family, content: plainContent(each) }));
  shelves.set(key, made);
  return made;
}

const plainContent = ({ sticking, surfaces, perBeat, meter }: ExerciseContent): ExerciseContent => ({ sticking, surfaces, perBeat, meter });

const METERS = [
  { beats: 4, unit: 4 },
  { beats: 3, unit: 4 },
  { beats: 5, unit: 4 },
  { beats: 6, unit: 8 },
  { beats: 2, unit: 4 },
];

/** Phrases that bar lines cut, each in several meters: the first ten are all of them in 4/4. */
export const cutSample = (): readonly Sampled[] =>
  METERS.flatMap((meter) =>
    CUT.map(([text, perBeat, surfaces = '']) => ({
      family: 'phrase' as const,
      content: readContent(readSticking(text).value!, { perBeat, surfaces, meter }).value!,
    })),
  );

/** The 40 rudiments on both leads. */
export const rudimentSample = (): readonly ExerciseContent[] =>
  RUDIMENTS.flatMap((rudiment) =>
    (['R', 'L'] as const).map((lead) => readContent(stickingOfRudiment(rudiment, lead), { perBeat: rudiment.perBeat }).value!),
  );
