/** Numbers that decide how drums and clicks sound. What no source gives is an assumption, chosen to be told apart and to be kind to the ear. */

/** Seconds over which the volume of a stroke is measured, from its onset. The ear uses the same definition, written down apart so that neither confirms the other. Our own definition. */
export const LEVEL_WINDOW_SEC = 0.02;

/** Share of its peak that the first sample of a stroke has: above the 10 % by which we define an onset. */
export const CONTACT_SHARE = 0.2;

/** How long stick and head touch: the contact falls by 1/e in this time. Assumption. */
export const CONTACT_SEC = 0.0002;

/** No true peak above this. @source [EBUR128] max true peak −1 dBTP */
export const CEILING_DB = -1;

/** Volume of a stroke neither accented nor ghosted, RMS over 20 ms, dB of full scale. Assumption: leaves room for accents and several drums at once. */
export const PLAIN_LEVEL_DB = -24;

/** What accent, ghost and grace add to that. Assumption. */
export const ACCENT_DB = 6;
export const GHOST_DB = -9;
export const GRACE_DB = -8;

/** Different strikes of each drum in the sound of an exercise, taken in turn. Assumption: no stroke sounds like the one before, and a crash need not be made thirty times. */
export const STRIKES_PER_DRUM = 4;

/** Room before the first beat of a loop for what comes before it, s: more than a drag needs. */
export const LOOP_LEAD_SEC = 0.1;

/** A buzz: how many bounces follow, how far apart, and what each loses. Assumption. */
export const BUZZ_BOUNCES = 6;
export const BUZZ_GAP_SEC = 0.022;
export const BUZZ_LOSS_DB = 3;

/** Frequencies of an ideal round membrane over its lowest. @source [FletcherRossing1998] zeros of Bessel functions */
export const MEMBRANE_RATIOS = [1, 1.594, 2.136, 2.296, 2.653, 2.918];

/** Modes of a cymbal rise as their number to this power. @source [FletcherRossing1998] Chladni's law, 1.4 to 1.6 for cymbals */
export const CYMBAL_POWER = 1.5;

/** Frequencies of a straight rod with free ends over its lowest. @source [FletcherRossing1998] squares of 3.0112, 5, 7, … */
export const ROD_RATIOS = [1, 2.757, 5.404, 8.933, 13.344, 18.638];
