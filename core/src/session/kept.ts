/** "Keep that": which bars of which take it means. */
import { barFrame, tempoAtBar } from './beats.ts';
import { KEPT_BARS } from './parameters.ts';
import { barAt } from './round.ts';
import type { KeptPart, SessionState, SessionStep } from './state.ts';

/** The last eight whole bars that were played before a frame, fewer where a take has fewer, its count-in not among them; null where nothing was recorded. */
function lastBars(state: SessionState, frame: number): KeptPart | null {
  const last = lastRun(state, frame);
  if (!last || state.phase === 'ended') return null;
  const { block, run } = last;
  const { layout, take } = run;
  const bar = Math.min(layout.barCount, barAt(layout, run.untilFrame));
  const from = Math.max(layout.firstBar, bar - KEPT_BARS);
  return bar > from ? { block, take, fromFrame: barFrame(layout, from), toFrame: barFrame(layout, bar), tempoBpm: tempoAtBar(layout, from) } : null;
}

/** What is played now; while a block waits, what was played last. */
function lastRun({ block, layout, takeOpen, runs, previousRun }: SessionState, frame: number): SessionState['previousRun'] {
  const before = runs.at(-1);
  if (layout && takeOpen) return { block, run: { take: takeOpen, layout, untilFrame: frame } };
  return before ? { block, run: before } : previousRun;
}

/** Keeps those bars, or lets go of them when they are kept already. */
export function keep(state: SessionState, frame: number): SessionStep {
  const part = lastBars(state, frame);
  if (!part) return { state, effects: [] };
  const before = state.kept.find(({ take, toFrame }) => take === part.take && toFrame === part.toFrame);
  if (before) return { state: { ...state, kept: state.kept.filter((one) => one !== before) }, effects: [{ kind: 'letGo', part: before }] };
  return { state: { ...state, kept: [...state.kept, part] }, effects: [{ kind: 'keep', part }] };
}
