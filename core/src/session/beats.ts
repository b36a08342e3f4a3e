/** Where the beats of a block fall: musical time to frames and back, also where the tempo changes at bar lines. */

import { beatsOfSec, framesOfBeats, secOfBeats } from '../units.ts';
import type { BlockLayout } from './layout.ts';

/** A stretch of one tempo: from a beat, counted from the first of the count-in, and the seconds until there. */
interface Stretch {
  readonly fromBeat: number;
  readonly fromSec: number;
  readonly tempoBpm: number;
}

/** Frame of beat `beat` (any fraction) of a layout, counted from the first beat of the count-in. Rounded once, so that no error adds up. */
export function beatFrame(layout: BlockLayout, beat: number): number {
  const { fromBeat, fromSec, tempoBpm } = lastWhere(stretchesOf(layout), (stretch) => stretch.fromBeat <= beat);
  return layout.startFrame + Math.round(fromSec * layout.sampleRateHz + framesOfBeats(beat - fromBeat, tempoBpm, layout.sampleRateHz));
}

/** Beats since the count-in began. Half a frame is added because a beat sounds at its rounded frame. */
export function beatsUntil(layout: BlockLayout, frame: number): number {
  const sec = (frame - layout.startFrame + 0.5) / layout.sampleRateHz;
  const { fromBeat, fromSec, tempoBpm } = lastWhere(stretchesOf(layout), (stretch) => stretch.fromSec <= sec);
  return fromBeat + beatsOfSec(sec - fromSec, tempoBpm);
}

/** Frame of the first beat of bar `bar` of the block (0 is the first after the first count-in). */
export const barFrame = (layout: BlockLayout, bar: number): number => beatFrame(layout, beatOfBar(layout, bar));

/** Frame of the bar line that ends a layout. */
export const endFrameOf = (layout: BlockLayout): number => barFrame(layout, layout.barCount);

/** Tempo at a bar of the block. */
export const tempoAtBar = ({ tempoBpm, changes = [] }: Pick<BlockLayout, 'tempoBpm' | 'changes'>, bar: number): number =>
  changes.filter((change) => change.bar <= bar).at(-1)?.tempoBpm ?? tempoBpm;

/** The last stretch of which something holds, else the first. */
const lastWhere = (stretches: readonly Stretch[], holds: (stretch: Stretch) => boolean): Stretch => stretches.filter(holds).at(-1) ?? stretches[0]!;

const beatOfBar = ({ countInBars, firstBar, beatsPerBar }: BlockLayout, bar: number): number => (countInBars + bar - firstBar) * beatsPerBar;

/** The count-in has the tempo of the bar that follows it. */
function stretchesOf(layout: BlockLayout): readonly Stretch[] {
  const stretches: Stretch[] = [{ fromBeat: 0, fromSec: 0, tempoBpm: tempoAtBar(layout, layout.firstBar) }];
  for (const { bar, tempoBpm } of layout.changes ?? []) {
    if (bar <= layout.firstBar) continue;
    const before = stretches.at(-1)!;
    const fromBeat = beatOfBar(layout, bar);
    stretches.push({ fromBeat, fromSec: before.fromSec + secOfBeats(fromBeat - before.fromBeat, before.tempoBpm), tempoBpm });
  }
  return stretches;
}
