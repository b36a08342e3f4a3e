/** "Keep that": which bars of which take it means. */
import { barFrame } from './block.ts';
import { KEPT_BARS } from './parameters.ts';
import { barAt } from './round.ts';
import type { KeptPart, SessionState } from './state.ts';

/** The last eight whole bars that were played before a frame, fewer where a take has fewer, its count-in not among them; null where nothing was recorded. */
export function lastBars(state: SessionState, frame: number): KeptPart | null {
  const last = lastRun(state, frame);
  if (!last || state.phase === 'ended') return null;
  const { block, run } = last;
  const { layout, take } = run;
  const bar = Math.min(layout.barCount, barAt(layout, run.untilFrame));
  const from = Math.max(layout.firstBar, bar - KEPT_BARS);
  return bar > from ? { block, take, fromFrame: barFrame(layout, from), toFrame: barFrame(layout, bar) } : null;
}

/** What is played now; while a block waits, what was played last. */
function lastRun({ block, layout, takeOpen, runs, previousRun }: SessionState, frame: number): SessionState['previousRun'] {
  const before = runs.at(-1);
  if (layout && takeOpen) return { block, run: { take: takeOpen, layout, untilFrame: frame } };
  return before ? { block, run: before } : previousRun;
}
