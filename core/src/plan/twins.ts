/** What two exercises share: whether they are near-twins, and what a new one keeps of the phrase. */
import type { ExerciseContent } from '../exercise/index.ts';
import type { Kept } from '../tempo/index.ts';
import { TWIN_SHARE } from './parameters.ts';

/**
 * Whether two exercises are so alike that practising one after the other may blur the first: the same letters in the same or a turned order,
 * or all but an eighth of them, whatever the drums, the volume and the note values are.
 */
export function nearTwins(a: ExerciseContent, b: ExerciseContent): boolean {
  const [first, second] = [lettersOf(a), lettersOf(b)];
  if (first.length !== second.length) return false;
  if (isTurned(first, second)) return true;
  const different = Array.from(first).filter((letter, i) => letter !== second[i]).length;
  return different <= first.length * TWIN_SHARE;
}

/**
 * What `exercise` keeps of `phrase`: the sticking (begun anywhere), at least where strokes fall, or nothing of either; and whether it stays on
 * the drums that the phrase is played on.
 */
export function keptOf(exercise: ExerciseContent, phrase: ExerciseContent): Kept {
  const [own, its] = [lettersOf(exercise), lettersOf(phrase)];
  const drums = exercise.surfaces.every((drum) => phrase.surfaces.includes(drum)) ? 'same' : 'other';
  if (own.length === its.length && isTurned(own, its)) return { of: 'sticking', drums };
  return { of: exercise.perBeat === phrase.perBeat && rhythmOf(own) === rhythmOf(its) ? 'rhythm' : 'nothing', drums };
}

/** Whether the strokes of the phrase stand in an exercise as they are, from its first to its last. */
export const holdsPhrase = (exercise: ExerciseContent, phrase: ExerciseContent): boolean => lettersOf(exercise).repeat(2).includes(lettersOf(phrase));

/** Letters and rests in order: `>R{2:RLR}-` is RRLR-. */
const lettersOf = ({ sticking }: ExerciseContent): string => sticking.replaceAll(/[^RLKH-]/g, '');

const isTurned = (a: string, b: string): boolean => (a + a).includes(b);

const rhythmOf = (letters: string): string => letters.replaceAll(/[RLKH]/g, 'x');
