/** What is counted aloud in a count-in, and on which frames. */
import { barFrame, beatFrame } from './beats.ts';
import type { BlockLayout } from './layout.ts';

/** One number of a count-in. */
export interface Counted {
  readonly frame: number;
  /** From 1. */
  readonly count: number;
  /** Frame at which the next number comes, or the bar in which the exercise begins. */
  readonly untilFrame: number;
}

/**
 * The numbers of a count-in, each on its beat: `1 2 3 4`; of two bars of four the first counts half, `1 . 2 .`, so that the second says which is the last
 * (common practice, no source). In other meters both bars count their beats. A layout without a count-in has none.
 */
export function countsOf(layout: BlockLayout): readonly Counted[] {
  const { beatsPerBar, countInBars, firstBar } = layout;
  const places = Array.from({ length: countInBars }, (_, bar) => countsInBar(beatsPerBar, countInBars - bar)).flatMap((counts, bar) =>
    counts.map(({ beat, count }) => ({ beat: bar * beatsPerBar + beat, count })),
  );
  return places.map(({ beat, count }, k) => {
    const next = places[k + 1];
    return { frame: beatFrame(layout, beat), count, untilFrame: next ? beatFrame(layout, next.beat) : barFrame(layout, firstBar) };
  });
}

/** @param barsLeft bars of count-in from this one on. */
function countsInBar(beats: number, barsLeft: number): readonly { readonly beat: number; readonly count: number }[] {
  const every = barsLeft > 1 && beats === 4 ? 2 : 1;
  return Array.from({ length: beats / every }, (_, k) => ({ beat: k * every, count: k + 1 }));
}
