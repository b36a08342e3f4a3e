/** Numbers that decide how a sheet looks. Lengths in px; a staff space is 10 px. All assumptions of ours, judged by eye, unless a source stands beside. */

/** Most bars written out; a longer cycle ends in a repeat all the same, and `barsInAll` says so. */
export const BAR_LIMIT = 4;

/** Shortest note value written: 128ths, the shortest VexFlow has rests for. Faster strokes stand in brackets. */
export const SHORTEST = 128;

/** Space between staff lines: what VexFlow draws at. */
export const SPACE = 10;

/** Widest sheet when no width is told. */
export const WIDTH = 800;

/** Least clear space between a note and what stands left of the next. */
export const GAP = 7;

/** The same where a whole bar only fits a line when its notes stand closer: a bar of sixteenths on a phone. */
export const TIGHT_GAP = 4.5;

/** Widest a beat grows when a line has room to spare. */
export const BEAT_LIMIT = 260;

/** Beats of room that a bar takes which stands as a sign. */
export const REPEAT_BEATS = 1;

/** From a bar line to the first note of the bar, before any graces. */
export const BAR_PAD = 14;

/** From the last note's time to a final repeat sign, so that its dots stand clear. */
export const END_PAD = 9;

/** Size of tuplet numbers, points as VexFlow counts them (30 for heads). */
export const TUPLET_SIZE = 21;

/** From the highest note head to the beam: three and a half spaces and a little, the usual stem (common practice, no source). */
export const STEM = 36;

/** What a stem with flags grows by when a roll is written through it: flags hang three spaces, and the slash stands clear under them. */
export const ROLLED_FLAG_STEM = 17;

/** What each beam over two adds to a stem. */
export const STEM_PER_BEAM = 8;

/** Height of the lane for accents, for one row of tuplet numbers, for one row of letters, of the legend. */
export const ACCENT_LANE = 13;
export const TUPLET_LANE = 16;
export const LETTER_LANE = 18;

/** Between the feet of tuplet brackets and what stands below them: an accent beside a bracket must not touch it. */
export const TUPLET_CLEAR = 4;

/** Height of a row of the legend. */
export const LEGEND_LANE = 20;

/** Letter size in the sticking row, and of graces in it. */
export const LETTER_SIZE = 15;
export const GRACE_LETTER_SIZE = 11;

/** Letter size of counting and stroke types, and the height of a row of them. */
export const COUNT_SIZE = 12;
export const COUNT_LANE = 16;

/** Space a single grace note takes, with the distance to its stroke. */
export const GRACE_STEP = 11;
export const GRACE_PAD = 5;

/** Around everything. */
export const MARGIN = 6;

/** Ticks of a quarter in MIDI files: holds 128ths, and threes, fives and sevens of sixteenths. Arithmetic: 2^5 · 3 · 5 · 7. */
export const PPQ = 3360;

/** Length of a note in MIDI files, ticks: a 32nd, since drums ring by themselves. Assumption. */
export const NOTE_TICKS = PPQ / 8;

/** Beats per minute of a MIDI file when none is told. Assumption: one a second, for any phrase to be learnt at. */
export const TEMPO_BPM = 60;

/** Velocities, 1 to 127. Plain: assumption. The others lie 6 dB above, 9 dB and 8 dB below it by a square law. @source [Dannenberg2006] the standard itself gives velocity no volume */
export const VELOCITY = { accent: 113, plain: 80, ghost: 48, grace: 50 } as const;

/** Keys of drums that have none of their own: wood blocks and claves. @source [GM1] percussion map */
export const UNKNOWN_KEYS: readonly number[] = [76, 77, 75];
