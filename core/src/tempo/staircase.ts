/** Where staircases settle, and how large their steps must be to settle at a share. */

/**
 * How much larger the step to an easier tempo has to be than that to a harder one, for a staircase to settle where the share `target` succeeds.
 * @param target share of runs, between 0 and 1.
 * @param inARow clean runs in a row before it gets harder; 1 unless said.
 * @source [Kaernbach1991] for one in a row: p / (1 − p); [GarciaPerez1998] for more.
 * @example stepRatio(0.85) // 5.667
 */
export const stepRatio = (target: number, inARow = 1): number => target ** inARow / (1 - target ** inARow);

/** Share of runs that succeed where a staircase settles: (r / (1 + r))^(1/n). The inverse of `stepRatio`. @source [Levitt1971] for equal steps */
export const settlesAt = (ratio: number, inARow = 1): number => (ratio / (1 + ratio)) ** (1 / inARow);
