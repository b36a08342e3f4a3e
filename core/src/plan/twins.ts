/** What two exercises share: whether they are near-twins, and what a new one keeps of the phrase. */
import type { ExerciseContent } from '../exercise/index.ts';
import { TWIN_SHARE } from './parameters.ts';

/** What an exercise keeps of another: its movement, its rhythm, or neither. */
export type Shared = 'sticking' | 'rhythm' | 'nothing';

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

/** What `exercise` keeps of `phrase`: the sticking (begun anywhere), at least where strokes fall, or nothing of either. */
export function sharedWith(exercise: ExerciseContent, phrase: ExerciseContent): Shared {
  const [own, its] = [lettersOf(exercise), lettersOf(phrase)];
  if (own.length === its.length && isTurned(own, its)) return 'sticking';
  return exercise.perBeat === phrase.perBeat && rhythmOf(own) === rhythmOf(its) ? 'rhythm' : 'nothing';
}

/** Whether the strokes of the phrase stand in an exercise as they are, from its first to its last. */
export const holdsPhrase = (exercise: ExerciseContent, phrase: ExerciseContent): boolean => lettersOf(exercise).repeat(2).includes(lettersOf(phrase));

/** Letters and rests in order: `>R{2:RLR}-` is RRLR-. */
const lettersOf = ({ sticking }: ExerciseContent): string => sticking.replaceAll(/[^RLKH-]/g, '');

const isTurned = (a: string, b: string): boolean => (a + a).includes(b);

const rhythmOf = (letters: string): string => letters.replaceAll(/[RLKH]/g, 'x');
