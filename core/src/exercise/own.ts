/** Exercises that a drummer wrote. */
import { barsUntilMet, contentId, stickingOfContent } from './content.ts';
import type { Exercise, ExerciseContent, Family } from './exercise.ts';

interface OwnOptions {
  readonly family?: Family;
  readonly from?: string;
}

/**
 * An exercise from what somebody wrote. It has the id of its content, as the shelf's have.
 * @param content of `readContent`.
 * @param titleText as typed; '' shows the sticking.
 * @param options `family`: default 'pad'. `from`: what it was made of is called, where it is another exercise changed.
 */
export function ownExercise(content: ExerciseContent, titleText: string, { family = 'pad', from }: OwnOptions = {}): Exercise {
  const { sticking, surfaces, perBeat, meter } = content;
  const own: ExerciseContent = { sticking, surfaces, perBeat, meter };
  const text = titleText.trim() === '' ? sticking : titleText.trim();
  return {
    ...own,
    id: contentId(own),
    family,
    bars: barsUntilMet(stickingOfContent(own).slotCount, perBeat, meter),
    title: { code: 'title-own', params: { text } },
    reason: from === undefined ? { code: 'reason-own', params: {} } : { code: 'reason-own-from', params: { text: from } },
  };
}
