/** The numbers that decide in matching and measuring. */

/** A stroke belongs to an expected one within the smaller of this and a share of the space to its neighbours. */
export const MATCH_WINDOW_MS = 50;
/** @source [Dixon2006] ±50 ms as the usual window; the share keeps it from reaching over neighbours at speed. */
export const MATCH_WINDOW_SHARE = 0.45;

/** Strokes of lower confidence count as played but stay out of timing figures. Assumption: better right than wrong. */
export const TIMING_CONFIDENCE = 0.5;
/** Sure strokes that make a place: a median has a 95 % interval from six values on. */
export const FEWEST_SURE = 6;

/** A candidate of at least this strength is a stroke even when nothing is expected (definition of strength). */
export const BLIND_STRENGTH = 1;

/** Strokes on the grid that stand against a place of unsure strokes. @tuned bench/finding/worst.ts */
export const GRID_STROKES = 1;
/** Where nothing is expected a stroke has to be this sure: extra strokes are rare, echoes are not. @tuned bench/listen */
export const EXTRA_CONFIDENCE = 0.8;

/** Told tempo may be off by this much, to either side. Assumption: a tempo remembered or read from a dial. */
export const TOLD_TEMPO_SHARE = 0.06;
/** Beyond this distance from the told tempo the drummer is asked whether the tempo is right. */
export const FAR_TEMPO_SHARE = 0.08;
/** Tempi further away are tried when fewer of the strong strokes than this fit near the told one. Assumption. */
export const NEAR_SHARE = 0.7;
/** How wide to look when nothing fits near the told tempo: from half to double, in steps. Assumption. */
export const FAR_TEMPO_STEPS = [1, 0.9, 1.1, 0.8, 1.22, 0.75, 1.33, 0.67, 1.5, 0.5, 2] as const;

/** Half width of the tempo curve, in beats: shorter ones follow the strokes instead of the tempo. */
export const CURVE_HALF_BEATS = 8;
/** Strokes a fit of the curve rests on at least; where fewer are near, it reaches further. Assumption. */
export const CURVE_MIN_STROKES = 12;
/** Rounds of matching and fitting; a third changes nothing. @tuned bench/listen */
export const ROUNDS = 2;

/** Spread of a stroke's time about its place, bounds in ms: below, the ear's own error counts; above, it would match anything. Assumption. */
export const SPREAD_MS = { low: 6, high: 10 } as const;

/** How far places lie off the grid, standard deviation, also as a share of the window. Assumption: places of recorded players lie within 25 ms. */
export const PLACE_SPREAD = { sec: 0.018, windowShare: 0.5 } as const;

/** Costs of the match, in nats. A candidate is taken for an expected stroke when its log odds, less what time and sound speak against it, exceed −missing. @tuned bench/listen */
export const MATCH_COST = { missing: 3, grace: 0.7 } as const;

/** Grace strokes come this long before their main stroke. Flams measured: 31 (5 %) to 47 ms (median) apart, drags 59. @source [Gillick2019] */
export const GRACE_MS = { earliest: 80, latest: 10, usual: 40, spread: 18 } as const;

/** Volume at the moment of a stroke that was played and not found, and where none was played, dB over the usual one of its place. @tuned bench/listen */
export const AROUND_HIDDEN = { meanDb: -1, spreadDb: 1.7 } as const;
export const AROUND_EMPTY = { meanDb: -8, spreadDb: 6 } as const;
/** Nobody hears everything: chance at least that a stroke played is not found, where the volume at its moment is known and where not. Assumption. */
export const HIDDEN_FLOOR = { known: 0.02, unknown: 0.002 } as const;
/** How quiet it was at a stroke not found: rows of sound that count, cycles that tell what is usual there, and the least spread between them. @tuned bench/listen */
export const QUIET = { rows: 5, fewest: 6, leastSpreadDb: 1.5 } as const;
/**
 * Odds of a left-out stroke from the quiet: even at so many spreads below what is usual, and e-fold so many nats with each further one, bounded.
 * Against the cycles surely heard a spread is taken for so many dB. @tuned bench/listen
 */
export const QUIET_ODDS = { evenSpreads: -1.4, perSpread: 5, most: 12, spreadDb: 3 } as const;
/** Share of strokes really left out by a player who knows the sticking. Assumption, near the 1.4 % of recorded practice. */
export const MISSED_SHARE = 0.015;

/** Cycles below which figures per place say little. 11 to 17 needed for ±6 ms at a spread of 10 ms; half is told as doubtful. */
export const FEW_CYCLES = 6;
/**
 * When the sticking is doubted: a smaller share of it found, or a larger share of strokes outside it; kicks heard clearly
 * (odds this far apart between places) in other places than written, for more than this share of the places; volumes (places
 * this far apart: what is just heard) or drums that repeat after another number of slots, foretelling this much more of their
 * variance. Assumptions; of 150 takes of 65 strokes whose volumes are chance none is doubted (measure.test.ts).
 */
export const FIT = {
  ...{ matchedShare: 0.45, extraShare: 0.35, kickContrast: 0.5, kickPlaces: 0.34 },
  ...{ volumeContrastDb: 1, cycleGain: 0.3, longestCycle: 24 },
} as const;

/** A stroke this far from all others, before or after the playing, is no part of it. Assumption. */
export const APART_BEATS = 2;
/** Even gaps of a beat or two at the beginning that make a count-in: four sticks and the first stroke. Assumption. */
export const COUNT_IN_GAPS = 4;

/** How much better another beginning of the cycle has to be than "the first stroke heard is the first of the sticking". Assumption. */
export const ROTATION_MARGIN = 0.3;

/** How late strokes may come after the click of a round, by latency and by playing behind, for the round to be found. Assumption: Bluetooth headphones stay under it. */
export const LATEST_OFFSET_SEC = 0.3;
