/** Rounds: some bars of the exercise, then as many of plain time; which of them count, and where they lie. */
import { barFrame, beatsUntil, endFrameOf, tempoAtBar } from './beats.ts';
import type { BlockLayout } from './layout.ts';

/** The bars of one round in which the exercise was to be played, as far as they were played. */
export interface ExerciseSpan {
  /** Name of the take that holds it. */
  readonly take: string;
  readonly block: number;
  readonly round: number;
  readonly fromFrame: number;
  /** The bar line after the last bar; outside. */
  readonly toFrame: number;
  /** Beats from the start of the round's first cycle to `fromFrame`; above 0 only when a pause cut the round. */
  readonly fromBeat: number;
  /** At which it was played. */
  readonly tempoBpm: number;
}

/** Round of a bar, and whether that bar belongs to the exercise or to plain time. */
export function roundOf(layout: BlockLayout, bar: number): { readonly round: number; readonly barOfRound: number; readonly plain: boolean } {
  const length = 2 * layout.roundBars;
  const barOfRound = bar % length;
  return { round: Math.floor(bar / length), barOfRound, plain: barOfRound >= layout.roundBars };
}

/** Bar of the block at a frame, from 0; before the count-in is over, the bar that follows it. Not limited at the end. */
export function barAt(layout: BlockLayout, frame: number): number {
  const bars = Math.floor(beatsUntil(layout, frame) / layout.beatsPerBar) - layout.countInBars;
  return layout.firstBar + Math.max(0, bars);
}

/**
 * Spans of the exercise in a layout that was played until `untilFrame`: whole bars only.
 * @param place which take and block they belong to.
 */
export function exerciseSpans(
  layout: BlockLayout,
  place: { readonly take: string; readonly block: number; readonly untilFrame: number },
): readonly ExerciseSpan[] {
  const done = place.untilFrame >= endFrameOf(layout) ? layout.barCount : Math.min(layout.barCount, barAt(layout, place.untilFrame));
  const spans: ExerciseSpan[] = [];
  for (let bar = layout.firstBar; bar < done; ) {
    const { round, barOfRound, plain } = roundOf(layout, bar);
    const next = bar + (plain ? 2 : 1) * layout.roundBars - barOfRound;
    if (!plain) spans.push(span(layout, place, { round, bar, barOfRound, to: Math.min(done, next) }));
    bar = next;
  }
  return spans;
}

function span(
  layout: BlockLayout,
  place: { readonly take: string; readonly block: number },
  part: { readonly round: number; readonly bar: number; readonly barOfRound: number; readonly to: number },
): ExerciseSpan {
  return {
    take: place.take,
    block: place.block,
    round: part.round,
    fromFrame: barFrame(layout, part.bar),
    toFrame: barFrame(layout, part.to),
    fromBeat: part.barOfRound * layout.beatsPerBar,
    tempoBpm: tempoAtBar(layout, part.bar),
  };
}
