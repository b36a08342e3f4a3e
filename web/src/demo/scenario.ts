/** The story of the demo: who plays, what will not hold, with what, and what she writes down. Everybody and everything in it is invented. */
import type { SetupBody } from '@evenhand/core/diary';

/** The phrase that breaks down, in a number of a musical that was never written. */
export const POINT = {
  name: 'The storm in number eleven',
  sticking: 'RLRLKK',
  perBeat: 4,
  /** The tempo it is wanted at, sixteenths. */
  tempoBpm: 92,
  /** The two kicks, strokes 5 and 6. */
  cell: { first: 4, last: 5 },
} as const;

/** What she knew on the first day: a tempo at which it still held. */
export const FIRST_TEMPO_BPM = 70;

export const WEEKS = 5;
export const DAYS_A_WEEK = 5;
export const MINUTES = 12;

/** Sessions that lie behind her; the next one is today's. */
export const SESSIONS_DONE = 10;

/** The planned session, from 0, that did not take place; all after it moved on. */
export const MISSED_SESSION = 6;

/** The session, from 0, without a microphone: on a pad in the dressing room, by her own word. */
export const OWN_WORD_SESSION = 4;

/** When a session begins, minutes after midnight, in turn: before rehearsal, after the show, on a free evening. */
export const BEGINS_AT_MINUTES: readonly number[] = [17 * 60 + 40, 11 * 60 + 5, 22 * 60 + 50, 16 * 60 + 15];

export const SETUP: SetupBody = {
  sticks: 'hickory, the thin pair',
  drums: 'the small kit of the pit, snare muffled with a cloth',
  pedal: 'single, felt beater',
  heel: 'up',
  phonePlace: 'on the stand, an arm to the left of the snare',
};

/** Her line after each session. None tells a figure: those come from what was heard. */
export const NOTES: readonly string[] = [
  'So this is what it sounds like. The second kick runs away as soon as the storm gets going.',
  'Slowly it is there. Odd to hear the two kicks on their own for once.',
  'Kept the heel up and let the leg drop twice instead of pushing. Better for a while.',
  'Late, after the show, tired legs. Short and soft, went home.',
  'Dressing room, pad and a shoe box. No sound taken, so this is only my word.',
  'The take of this week felt calmer than the first. Will listen on the train.',
  'Had to skip a day: understudy rehearsal until midnight. Nothing lost, it says.',
  'Counting the last stroke of the left hand into the kick helps.',
  'Two good rounds, then I hurried again. Shoulders.',
  'In tonight’s show I did not think about it until it was over.',
];
