/** The part of an address that holds an exercise; it stands behind the #, so it is sent to nobody. */
export const EXERCISE_MARK = '#exercise?';

/** Whether an address means to hold an exercise. */
export const holdsExercise = (hash: string): boolean => hash.startsWith(EXERCISE_MARK);
