/** What stands for an exercise where it cannot be played as it is: its hands on one pad, its feet moved to the hands or left out. */
import { type Exercise, ownExercise } from '../exercise/index.ts';
import { feetToHands, readSticking } from '../sticking/index.ts';
import type { FeetAnswer } from './place.ts';

/** The one drum of a place without a kit. */
const PAD = 'pad';

/** How its title says where it is played now. */
export type NameStandIn = (title: Exercise['title'], how: 'pad' | 'movedToHands' | 'handsOnly') => string;

/**
 * A stand-in for each exercise that needs one, by its id; those that cannot be turned have none.
 * @param place `onlyPad`: all hands on one drum; `feet`: what was answered.
 */
export function standIns(
  exercises: readonly Exercise[],
  place: { readonly onlyPad: boolean; readonly feet: FeetAnswer | undefined },
  nameOf: NameStandIn,
): Readonly<Record<string, Exercise>> {
  return Object.fromEntries(
    exercises.flatMap((exercise) => {
      const stand = standIn(exercise, place, nameOf);
      return stand ? [[exercise.id, stand] as const] : [];
    }),
  );
}

function standIn(
  exercise: Exercise,
  { onlyPad, feet }: { readonly onlyPad: boolean; readonly feet: FeetAnswer | undefined },
  nameOf: NameStandIn,
): Exercise | null {
  const feetGo = /[KH]/.test(exercise.sticking) && (feet === 'movedToHands' || feet === 'handsOnly');
  const text = feetGo ? withoutFeet(exercise.sticking, feet) : exercise.sticking;
  const sticking = readSticking(text).value;
  // Of an exercise whose hands have less than half of the strokes nothing worth playing is left.
  const before = readSticking(exercise.sticking).value?.strokes.length ?? 0;
  if (!sticking || sticking.strokes.length * 2 < before || sticking.strokes.length === 0) return null;
  const drumOf = (index: number, limb: string) => {
    if ('KH'.includes(limb)) return exercise.surfaces[index]!;
    return onlyPad || feetGo ? PAD : exercise.surfaces[index]!;
  };
  const surfaces = sticking.strokes.map(({ index, limb }) => drumOf(index, limb));
  const { perBeat, meter, family } = exercise;
  const how = feetGo ? feet : 'pad';
  return ownExercise({ sticking: sticking.text, surfaces, perBeat, meter }, nameOf(exercise.title, how), { family });
}

/** The sticking with its feet gone: in the hands (`feetToHands`), or silent, a foot beside a hand dropped. `RLRLKK` for hands only is RLRL--. */
export function withoutFeet(sticking: string, feet: 'movedToHands' | 'handsOnly'): string {
  if (feet === 'movedToHands') return feetToHands(sticking);
  const hands = sticking.replaceAll(/\+(>?\(?[KH]\)?)/g, '').replaceAll(/(>?\(?[KH]\)?)\+/g, '');
  return hands.replaceAll(/>?\(?[KH]\)?\/?z?/g, '-');
}
