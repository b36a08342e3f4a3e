/** Exercises to plan with: invented, of every family, with feet and without. */
import { contentId, type Exercise, type ExerciseContent, type Family } from '../exercise/index.ts';

const drumOf: Readonly<Record<string, string>> = { R: 'snare', L: 'snare', K: 'kick', H: 'hi-hat-foot' };

/** An exercise of a family; strokes fall on the usual drums unless others are given. */
export function exercise(
  family: Family,
  sticking: string,
  { surfaces, perBeat = 4 }: { readonly surfaces?: readonly string[]; readonly perBeat?: number } = {},
): Exercise {
  const letters = Array.from(sticking.replaceAll(/[^RLKH]/g, ''));
  const content: ExerciseContent = { sticking, surfaces: surfaces ?? letters.map((limb) => drumOf[limb]!), perBeat, meter: { beats: 4, unit: 4 } };
  return {
    ...content,
    id: contentId(content),
    family,
    bars: 1,
    title: { code: 'title-whole', params: { sticking } },
    reason: { code: 'reason-whole', params: { cell: sticking } },
  };
}

/** Hands and one foot: two of the hands, two of the foot. */
export const PHRASE = exercise('inversion', 'RLRLKK');

/** Hands only. */
export const HAND_PHRASE = exercise('inversion', 'RLRRLRLL');

/** Three or four of each family. */
export const SHELF: readonly Exercise[] = [
  exercise('pad', 'KK--'),
  exercise('pad', 'RLRL'),
  exercise('pad', 'RR-LL-'),
  exercise('rudiment', 'RRLL'),
  exercise('rudiment', 'RRKK'),
  exercise('rudiment', 'RLRRLRLL'),
  exercise('dynamics', '>RLRLKK'),
  exercise('dynamics', 'R>L>RLKK'),
  exercise('inversion', 'LRLKKR'),
  exercise('inversion', 'KKRLRL'),
  PHRASE,
  exercise('kit', 'RLRLKK', { surfaces: ['high-tom', 'snare', 'floor-tom', 'snare', 'kick', 'kick'] }),
  exercise('kit', 'RLRL', { surfaces: ['ride', 'snare', 'ride', 'snare'], perBeat: 3 }),
  exercise('groove', 'R-RKL-RK'),
  exercise('groove', 'RKR-LKR-'),
  exercise('fill', 'RLRLKKRLRLKKRLKK'),
  exercise('fill', 'RLKRLKRLRLKKRLRL'),
  exercise('use', 'R-R-L-R-RLRLKKRL'),
  exercise('use', 'R-R-L-R-R-RLRLKK'),
];
