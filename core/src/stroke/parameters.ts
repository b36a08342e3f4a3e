/** Numbers that decide how the ear hears; all lengths in seconds so that any sample rate works. */

/** Distance of two analysis frames. @tuned bench/ear */
export const HOP_SEC = 0.001;
/** Wished lengths of the windows whose spectra are averaged. A second one of 11.6 ms made no difference. @tuned bench/ear */
export const WINDOW_SECS = [0.0058] as const;
/** Bands: without those under 400 Hz kicks are lost. @tuned bench/ear */
export const BAND_COUNT = 24;
export const BAND_LOW_HZ = 100;
export const BAND_HIGH_HZ = 16000;
/** Share of frames in which a band is taken to hold nothing but noise. @tuned bench/ear */
export const FLOOR_QUANTILE = 0.2;
/** What is compared: the mean log energy of the frames just after with that of the frames before. @tuned bench/ear */
export const AFTER_FRAMES = 4;
export const BEFORE_NEAR_FRAMES = 3;
export const BEFORE_FAR_FRAMES = 12;
/** Prediction filter and the stretch it learns from. @tuned bench/ear */
export const PREDICT_ORDER = 24;
export const PREDICT_SEC = 0.025;
export const PREDICT_GAP_SEC = 0.003;
/** How far around the coarse time the fine one is looked for: a second bump of the same sound often follows 8 ms later. @tuned bench/ear */
export const REFINE_BEFORE_SEC = 0.006;
export const REFINE_AFTER_SEC = 0.005;
/** What is believed beforehand of fine − coarse, and how much a sample of the residual counts beside it (neighbours are not independent). @tuned bench/ear */
export const REFINE_PRIOR_SEC = -0.0015;
export const REFINE_PRIOR_SD_SEC = 0.0015;
export const REFINE_SAMPLE_WEIGHT = 0.15;
/** Length over which a stroke's volume is taken. @source docs/ear.md, definitions */
export const VOLUME_SEC = 0.02;
/** Novelty below which nothing is a candidate. @tuned bench/ear */
export const CANDIDATE_FLOOR = 0.25;
/** Peaks nearer than this are one. @tuned bench/ear */
export const PEAK_REACH_FRAMES = 4;
/** The ear remembers a minute, and lets nine tenths of it go when full; candidates nearer to the end wait for the next round. Assumption. */
export const MEMORY_FRAMES = 60_000;
export const FORGET_FRAMES = 54_000;
export const SEAM_FRAMES = 500;
/** Causal pass: delay after a peak (enough for its 20 ms of volume), and how its floors move per frame. Assumption. */
export const LIVE_THRESHOLD = 0.85;
export const LIVE_LAG_FRAMES = 30;
export const LIVE_FALL = 0.05;
export const LIVE_RISE = 1.0005;
/** A later bump this soon after an earlier one belongs to it when the earlier reaches this share of its height. Real flams are wider. @tuned bench/ear */
export const SAME_SOUND_SEC = 0.012;
export const SAME_SOUND_SHARE = 0.6;
/** How loud it was at any moment (loudness.ts): rows of 5 ms, bands in threes. Half and double of either change little. @tuned bench/listen */
export const LOUDNESS_ROW_FRAMES = 5;
export const LOUDNESS_BAND_MERGE = 3;
/** Sounds learnt from the take (sounds.ts, three): in what grid, over what length. Frames of 2 ms, pairs of bands. @tuned bench/ear */
export const SOUND_HOP_FRAMES = 2;
export const SOUND_BAND_MERGE = 3;
export const SOUND_ROWS_BEFORE = 2;
export const SOUND_ROWS = 62;
export const SOUND_ATTACK_ROWS = 8;
export const SOUND_NORM_ROWS = 10;
export const SOUND_EVIDENCE_ROWS = 6;
export const SOUND_ROUNDS = 16;
export const SOUND_GAIN_FLOOR = 1e-6;
export const SOUND_TEACH_GAIN = 1e-3;
export const TEACHER_HEIGHT = 1;
export const TEACHER_SHARE = 0.15;
export const TEACHERS_LEAST = 12;
/**
 * Past its end a sound falls on, per row, as over its last rows (ringing.ts). A slower fall than `RING_MOST` is other strokes that got into the
 * sound, not ringing: then `RING_DOUBT` is taken. @tuned bench/ear/fit.ts
 */
export const RING_ROWS = 15;
export const RING_DOUBT = 0.8;
export const RING_MOST = 0.97;
/** Click bleed: how many clicks of a voice are needed to know its sound, how many of the quietest are kept, over what time their loudness is taken, the stretch of it that is taken out, and over how much of its end less and less is: where all of it ended at once, what the room rings on was heard as a stroke there. Assumptions, held by clicks.test.ts and @tuned bench/click. */
export const CLICKS_NEEDED = 3;
export const CLICKS_KEPT = 12;
export const CLICK_SMOOTH_SEC = 0.0015;
export const CLICK_SURE = 0.9;
export const CLICK_ROUNDS = 5;
export const CLICK_BEFORE_SEC = 0.002;
export const CLICK_SEC = { least: 0.06, most: 0.15 } as const;
export const CLICK_FADE_SHARE = 0.5;
/** Log odds that a candidate is a stroke timed within 5 ms: weights of its features (judge.ts) and their constant. @tuned bench/ear/fit.ts */
export const ODDS = { surprise: 2.441, standing: 3.603, fit: 1.001, rise: 0.921, tail: -0.27, height: -1.05, constant: -8.959 } as const;
/** Share of candidates that are strokes in the takes the odds were learnt on, and how many candidates' worth that counts in a new take. @tuned bench/ear/fit.ts */
export const STROKE_SHARE = 0.197;
export const STROKE_SHARE_WEIGHT = 40;
export const STROKE_SHARE_MOST = 0.55;
/**
 * Candidates less sure than this are not told: measurement takes none of under .02 for a stroke, wherever it is expected, and they are half of all.
 * @tuned bench/ear
 */
export const CONFIDENCE_LEAST = 0.01;
/** Odds of a stroke told nothing. @tuned bench/ear/fit.ts */
export const STROKE_PROBABILITY = 0.45;
/** Mean energy of the noise over its floor, which is a low quantile of it. @tuned bench/ear */
export const SOUND_NOISE = 1.9;
export const ECHO_SHARE = 0.3;
export const ECHO_ROWS = 25;
/** The onset's definition: a tenth of the stroke's own peak. @source docs/ear.md, definitions. Where the peak is looked for, and how far the onset may move. @tuned bench/ear */
export const ONSET_SHARE = 0.1;
export const ONSET_PEAK_SEC = 0.015;
export const ONSET_BEFORE_SEC = 0.006;
export const ONSET_GAP_SEC = 0.0003;
export const ONSET_LATEST_SEC = 0.002;
export const ONSET_HIDDEN_MOST = 0.4;
export const ONSET_EARLIEST_SEC = 0.0025;
export const ONSET_SLOW_HZ = 1000;
/** White hiss (made, 60 s): mean of ln(1 + heard/floor) stays under the first, its highest novelty in a minute under the second. @tuned bench/ear/fit.ts */
export const HISS_TAIL = 1.5;
export const HISS_HEIGHT = 1.2;
export const HISS_PROBABILITY = 0.3;
export const HISS_REACH_SEC = 0.25;
export const HISS_PRE_ECHO_SEC = 0.025;
/** A soft stroke among hiss makes it at least so much louder over 20 ms: hiss at 22.05 kHz differs from one 20 ms to the next by .4 dB (arithmetic). @tuned bench/listen */
export const HISS_VOLUME_RISE_DB = 1;
/** Novelty (nats, mean over all bands) that no ring or hiss reaches: 13 dB up in every band. @tuned bench/ear/fit.ts */
export const PLAIN_HEIGHT = 3;
export const PLAIN_PROBABILITY = 0.95;
/** Where the energy lies (0 lowest band, 1 past the highest): kicks of five takes at .08–.11, every other drum at .11–.32. @tuned bench/ear */
export const KICK_PLACE = 0.112;
export const KICK_PLACE_STEP = 0.004;
/** Cymbals: nearly all energy in the upper half. Assumption; no annotated take holds one. */
export const CYMBAL_PLACE = 0.55;
export const CYMBAL_PLACE_STEP = 0.04;
/** The rest overlap: how often each is played. Assumption. */
export const REST_ODDS = { standing: 0, snare: 0.5, tom: 0.25, pad: 0.25 } as const;
/**
 * The low sound (surprise.ts): a sample per frame, and a prediction learnt at each from the 60 before. Lower or higher by a third in any of
 * them changes little. @tuned bench/ear
 */
export const LOW_CUT_HZ = 350;
export const LOW_REACH_FRAMES = 4;
export const FORETELL_ORDER = 10;
export const FORETELL_FRAMES = 60;
export const FORETELL_GAP_FRAMES = 1;
export const FORETELL_RIDGE = 1e-3;
/** What is compared, as for the novelty; and how many times the floor are added on either side, or noise alone would surprise. @tuned bench/ear */
export const SURPRISE_AFTER_FRAMES = 6;
export const SURPRISE_BEFORE_NEAR_FRAMES = 3;
export const SURPRISE_BEFORE_FAR_FRAMES = 20;
export const SURPRISE_GUARD = 2;
/** Surprise below which nothing is a candidate by it alone, and how far such a one must lie from others. @tuned bench/ear */
export const SURPRISE_FLOOR = 0.5;
export const SURPRISE_APART_SEC = 0.005;
export const SURPRISE_SAME_FRAMES = 12;
/** How long after an onset the surprise is at its highest, and how far around that it is looked for. @tuned bench/ear */
export const SURPRISE_LAG_FRAMES = 1;
export const SURPRISE_NEAR_FRAMES = 2;
/** Standing over the noise past which more says nothing, and under which a candidate may be noise. @tuned bench/ear/fit.ts */
export const STANDING_MOST = 1.5;
/** Height of the novelty of a candidate that has next to none. */
export const HEIGHT_LEAST = 0.02;
/** A candidate of less than this share of the height of a plain one just after it is only that one, heard too soon. @tuned bench/ear */
export const FORE_ECHO_SHARE = 0.3;
/** From the log odds of a stroke to those told as confidence: fitted to takes left out of the learning [Platt1999]. @tuned bench/ear/fit.ts */
export const CALIBRATION = { slope: 1.33, shift: 0.44 } as const;
