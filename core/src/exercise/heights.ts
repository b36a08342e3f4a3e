/** Stroke types from accents: how high a stick starts, and where it stays for the next stroke of the same hand. Common practice, no source. */
import { stickingOfContent } from './content.ts';
import type { ExerciseContent } from './exercise.ts';

/** `full` starts and ends high, `down` starts high and stays low, `tap` starts and ends low, `up` starts low and is lifted. */
export type StrokeType = 'full' | 'down' | 'tap' | 'up';

/** The type of each main stroke of a cycle that is repeated, by index; null for the feet. */
export function strokeTypes(content: ExerciseContent): readonly (StrokeType | null)[] {
  const { strokes } = stickingOfContent(content);
  return strokes.map(({ limb, accent }, i) => {
    if (limb === 'K' || limb === 'H') return null;
    const after = [...strokes.slice(i + 1), ...strokes.slice(0, i + 1)].find((next) => next.limb === limb)!;
    if (accent) return after.accent ? 'full' : 'down';
    return after.accent ? 'up' : 'tap';
  });
}
