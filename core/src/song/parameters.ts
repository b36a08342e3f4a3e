/** Numbers that decide about recordings to play over. */

/** From one value of the beat curve to the next, s. Assumption: half of what is heard as together (10 ms) is fine enough. */
export const HOP_SEC = 0.005;

/** Window of the spectra behind the curve, s. @source [Dixon2006] 46 ms; half of it, since drums come sooner than chords */
export const WINDOW_SEC = 0.023;

/** Bands of the curve, Hz. Assumption: from the lowest kick to where hi-hats are. */
export const BANDS = { lowHz: 40, highHz: 10_000, count: 20 } as const;

/** Up to here a band counts as low: kick and bass, which mark 1 more often than 2. Assumption. */
export const LOW_BAND_HZ = 130;

/** How much louder than the quietest tenth a band has to be to count, as a factor of power: keeps noise from making beats. Assumption: 20 dB. */
export const FLOOR_FACTOR = 100;

/** The mean of so many seconds on either side is taken from the curve, so that a loud chorus weighs no more than a verse. Assumption: a beat at 60. */
export const LOCAL_SEC = 1;

/** Beats a minute that a recording may have. Assumption: outside, one counts in halves or doubles. */
export const TEMPO_RANGE_BPM = { low: 45, high: 210 } as const;

/** Steps of the first search, share of the tempo. Assumption: half of what the finer search covers. */
export const TEMPO_STEP_SHARE = 0.01;

/** The tempo at which people count most readily, and how fast they leave it, in octaves. @tuned bench/song: the best of five settings over all its recordings; the others find one to four fewer */
export const COUNTED = { tempoBpm: 100, octaves: 0.75 } as const;

/** Beats of the bars that a recording may repeat itself in. Common practice, no source. */
export const BARS: readonly number[] = [4, 3];

/** How far around the first find the finer search goes, share of the tempo. Assumption: two of its steps. */
export const FINE_SHARE = 0.025;

/** Beat, half and quarter of a beat: what the finer search looks at. Assumption: sixteenths are the finest that most music has. */
export const FINE_PARTS: readonly number[] = [1, 2, 4];

/** Length of a stretch whose own tempo is looked at, s. Assumption: four bars at 120. */
export const STRETCH_SEC = 8;

/** Stretches whose tempo leaves that of the whole by more are no steady tempo. @source [Drake1993] the smallest step of tempo that is noticed is about 2 % */
export const STEADY_SHARE = 0.02;

/** Shortest recording whose tempo is looked for, s. Assumption: two bars of four at 60. */
export const SHORTEST_SEC = 8;

/** How far the tempo of a stretch is looked for from that of the whole, share. Assumption: who plays without a click and moves by a tenth has noticed. */
export const MOVES_SHARE = 0.1;

/** How clearly the tempo has to repeat itself: correlation of the curve with itself a beat later. Noise and held notes stay under it, and 56 of the 57 recordings of bench/song over it. @tuned bench/song */
export const LEAST_STRENGTH = 0.07;

/** How strictly beats keep their distance when the tempo moves. @source [Ellis2007] 680 with squared logarithms; from memory */
export const TIGHTNESS = 680;

/** Fewest taps that make a tempo: four beats of one bar and the next 1. Common practice, no source. */
export const LEAST_TAPS = 5;

/** A tap further from the line through the others, as a share of a beat, is a slip. Assumption: a quarter of a beat. */
export const TAP_SLIP_SHARE = 0.25;

/** How much the low bands weigh beside all of them where the beat is looked for, once its tempo is known. @tuned bench/song */
export const LOW_SHARE = 1;
