/** Numbers that decide how the ear hears; all lengths in seconds so that any sample rate works. */

/** Distance of two analysis frames. @tuned bench/ear */
export const HOP_SEC = 0.001;
/** Wished lengths of the two windows whose spectra are averaged. @tuned bench/ear */
export const WINDOW_SECS = [0.0058, 0.0116] as const;
/** Bands: without those under 400 Hz kicks are lost. @tuned bench/ear */
export const BAND_COUNT = 30;
export const BAND_LOW_HZ = 60;
export const BAND_HIGH_HZ = 16000;
/** Share of frames in which a band is taken to hold nothing but noise. @tuned bench/ear */
export const FLOOR_QUANTILE = 0.2;
/** What is compared: the mean log energy of the frames just after with that of the frames before. @tuned bench/ear */
export const AFTER_FRAMES = 3;
export const BEFORE_NEAR_FRAMES = 3;
export const BEFORE_FAR_FRAMES = 12;
/** Prediction filter and the stretch it learns from. @tuned bench/ear */
export const PREDICT_ORDER = 24;
export const PREDICT_SEC = 0.04;
export const PREDICT_GAP_SEC = 0.003;
/** How far around the coarse time the fine one is looked for. @tuned bench/ear */
export const REFINE_BEFORE_SEC = 0.006;
export const REFINE_AFTER_SEC = 0.009;
export const REFINE_TRUST_SEC = 0.005;
/** Length over which a stroke's volume is taken. @source [EAR] */
export const VOLUME_SEC = 0.02;
/** How many times the floor a band must hold before its rise counts fully. @tuned bench/ear */
export const FLOOR_GAIN = 1;
/** Novelty below which nothing is a candidate, and the one above which it is a stroke. @tuned bench/ear */
export const CANDIDATE_FLOOR = 0.2;
export const THRESHOLD = 0.8;
/** Peaks nearer than this are one. @tuned bench/ear */
export const PEAK_REACH_FRAMES = 8;
/** The ear remembers a minute, and lets half of it go when full; candidates nearer to the end wait for the next half. Assumption. */
export const MEMORY_FRAMES = 60_000;
export const SEAM_FRAMES = 500;
/** Causal pass: delay after a peak (enough for its 20 ms of volume), and how its floors move per frame. Assumption. */
export const LIVE_LAG_FRAMES = 30;
export const LIVE_FALL = 0.05;
export const LIVE_RISE = 1.0005;
