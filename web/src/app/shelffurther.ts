/** A dozen more for a shelf whose written exercises have all been seen. */
import { type Exercise, type ExerciseContent, exercisesBeyond, type Focus, type ShelfOptions } from '@evenhand/core/exercise';

/** As many as come at once. */
const DOZEN = 12;

/** The next variations on the drums at hand that are not there yet; fewer where there are no more. */
export function furtherDozen(
  content: ExerciseContent,
  focus: Focus,
  { there, drums, ...sides }: ShelfOptions & { readonly there: readonly Exercise[] },
): readonly Exercise[] {
  const found: Exercise[] = [];
  for (const each of exercisesBeyond(content, focus, { ...sides, known: new Set(there.map(({ id }) => id)) })) {
    if (!drums || each.surfaces.every((drum) => drums.includes(drum))) found.push(each);
    if (found.length >= DOZEN) break;
  }
  return found;
}
