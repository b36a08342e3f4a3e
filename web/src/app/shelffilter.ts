/** What of the shelf is shown: one kind, without the feet, on one drum. */
import { type Exercise, type Family, stickingOfContent } from '@evenhand/core/exercise';

/** What a drummer asks to see. */
export interface ShelfFilter {
  /** One kind, or every. */
  readonly family: Family | 'every';
  readonly withoutFeet: boolean;
  /** The hands on one drum, as on a pad. */
  readonly oneDrum: boolean;
}

export const EVERYTHING: ShelfFilter = { family: 'every', withoutFeet: false, oneDrum: false };

/** The exercises that are asked for, in their order. */
export const narrowed = (exercises: readonly Exercise[], { family, withoutFeet, oneDrum }: ShelfFilter): readonly Exercise[] =>
  exercises.filter(
    (each) => (family === 'every' || each.family === family) && !(withoutFeet && hasFeet(each)) && !(oneDrum && handDrumsOf(each).size > 1),
  );

/** Kinds that are on the shelf, in the order in which they first come. */
export const familiesOn = (exercises: readonly Exercise[]): readonly Family[] => [...new Set(exercises.map(({ family }) => family))];

const hasFeet = ({ sticking }: Exercise): boolean => /[KH]/.test(sticking);

/** Drums that a hand plays. */
function handDrumsOf(exercise: Exercise): ReadonlySet<string> {
  const { strokes } = stickingOfContent(exercise);
  return new Set(strokes.filter(({ limb }) => limb === 'R' || limb === 'L').map(({ index }) => exercise.surfaces[index]!));
}
