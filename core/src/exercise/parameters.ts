/** Numbers that decide about exercises. */

/** Most slots a beat can hold. Assumption: 64 is past every written subdivision (hundred-twenty-eighths start at 32). */
export const PER_BEAT_LIMIT = 64;

/** Bits kept of the hash that names an exercise: as many as a record's id has. Decided in docs/decisions/0011. */
export const ID_BITS = 128;

/** Bars that whole cycles may take when one thing is set beside another. Assumption: longer blocks are lost track of. */
export const HOME_BARS = 2;

/** Most beats of a bar made for whole cycles. Assumption: 7/4 is still counted. */
export const HOME_BEATS = 7;

/** Other note values a phrase is worth playing in, slots per beat to slots per beat, the nearest first. Common practice, no source. */
export const NOTE_VALUES: Readonly<Record<number, readonly number[]>> = { 2: [3, 4], 3: [4, 6], 4: [3, 6], 6: [4], 8: [6] };

/** Drums from high to low, as fills go down them. Common practice, no source. */
export const ROUND: readonly string[] = ['snare', 'high-tom', 'mid-tom', 'floor-tom'];

/** Most strokes of a phrase whose accents are laid out two at a time: 66 ways for 12. Assumption. */
export const ACCENTED_TOGETHER_LIMIT = 12;

/** Most strokes that are laid over two drums in every way: 16 ways. Assumption. */
export const ORCHESTRATED_LIMIT = 4;

/** Most starts that are made into a groove of the same backbeat. Assumption: a third one teaches nothing new. */
export const GROOVE_STARTS = 2;

/** Most places of a beat that the cell goes through in one exercise, a bar each. Assumption: four bars are one page. */
export const MOVED_PLACES = 4;

/** Bars of time and of the phrase beside each other, the usual first. Common practice, no source. */
export const MUSIC_BARS: readonly number[] = [2, 4];

/** Bars of a place in a piece when none are told. Common practice, no source: most parts of songs are eight. */
export const PIECE_BARS = 8;

/** From so many slots per beat on, strokes in neighbouring slots count as a burst. Assumption: eighths can be kept up at any tempo of these exercises. */
export const BURST_FROM_PER_BEAT = 3;

/** A burst of one limb that every phrase may have. Assumption: three in a row is the triple stroke roll. */
export const BURST_LEAST = 3;

/** What a family that has had a turn waits for the next, in turns, and what it waits more when it was the last. @tuned by the first fifteen for RLRLKK and RLRRLRLL, judged by eye. */
export const FAMILY_WAIT = 2;
export const FAMILY_LAST_WAIT = 4;

/** Longest phrase that is built up stroke by stroke. Assumption: two beats of sixteenths are taken in at once. */
export const BUILT_UP_LIMIT = 8;

/** Turns that ideas for a pair inside a longer cell wait behind those for the cell. Assumption: the cell that was asked for comes first. */
export const INNER_WAIT = 6;

/** From a grace to the stroke it leans on: median of real flams and drags. @source [Gillick2019] 47 ms and 59 ms, computed from it */
export const FLAM_SEC = 0.047;
export const DRAG_SEC = 0.059;

/** How often the phrase is played without a rest in the runs that grow. Assumption: four times is longer than most places in music. */
export const LONG_RUNS: readonly number[] = [1, 2, 4];

/** What gives no rebound back. Everybody has one: it counts as at hand. Common practice, no source. */
export const SOFT_DRUM = 'towel';

/** Bars over which the volume grows. @source [JobBrief] crescendo over four bars */
export const CRESCENDO_BARS = 4;

/** Fewest groups whose first strokes are worth an accent each. Assumption: two are a half and a half, and heard anyway. */
export const GROUPS_LEAST = 3;

/** Other meters that a phrase of a common-time bar is set in as a groove; `perQuarter` slots are kept, so that a beat of eighths has half of them. Common practice, no source. */
export const OTHER_METERS: readonly { readonly beats: number; readonly unit: number }[] = [
  { beats: 3, unit: 4 },
  { beats: 6, unit: 8 },
  { beats: 7, unit: 8 },
];

/** Exercises in the teacher's menu, which has every family. @source [JobBrief] the first dozen, as a teacher would write it */
export const MENU = 12;

/** Days after which an exercise is as good as new for the order. Assumption: two weeks. */
export const LATELY_DAYS = 14;

/** Drums that a hand may go to beyond the written shelf. Common practice, no source. */
export const BEYOND_DRUMS: readonly string[] = ['high-tom', 'mid-tom', 'floor-tom', 'hi-hat', 'ride'];
