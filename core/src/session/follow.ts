/** The tempo within a block: after each round what was heard of it, and from a bar line of plain time on the tempo that follows. */
import { frameOfSec } from '../units.ts';
import { barFrame, tempoAtBar } from './beats.ts';
import { type SessionBlock, wholeBars } from './block.ts';
import { clicksOf } from './click.ts';
import type { BlockLayout } from './layout.ts';
import { FOLLOW, TAKE_TAIL_SEC } from './parameters.ts';
import { barAt, type ExerciseSpan, exerciseSpans, roundOf } from './round.ts';
import { slotOf } from './slot.ts';
import type { Glance, SessionState, SessionStep, TempoStretch } from './state.ts';

/** Whether the tempo of a block moves within it. */
const followsWithin = ({ follows, fixedTempo, judgedBy, changes }: SessionBlock): boolean =>
  follows === true && !fixedTempo && judgedBy !== 'nobody' && changes === undefined;

/**
 * The next round of the present block that is over at a frame and was not asked about yet; null while there is none, and for the last one, which
 * the whole block is heard with.
 */
export function roundOver({ layout, takeOpen, block, blocks, roundsAsked, sampleRateHz }: SessionState, frame: number): ExerciseSpan | null {
  if (!layout || !takeOpen || blocks[block]?.judgedBy === 'nobody') return null;
  const begins = roundOf(layout, layout.firstBar);
  const round = Math.max(roundsAsked, begins.round + Number(begins.plain));
  const untilFrame = frame - frameOfSec(TAKE_TAIL_SEC, sampleRateHz);
  if (nextRoundBar(layout, round) >= layout.barCount || untilFrame < barFrame(layout, endOfExercise(layout, round))) return null;
  return exerciseSpans(layout, { take: takeOpen, block, untilFrame }).find((span) => span.round === round) ?? null;
}

/** What is known of the rounds of the present block: each tempo in its turn, rounds that do not count left out. */
export function stretchesOf({ block, glances, uncounted }: Pick<SessionState, 'block' | 'glances' | 'uncounted'>): readonly TempoStretch[] {
  const all: TempoStretch[] = [];
  for (const { block: of, round, tempoBpm, byEar, heard } of glances) {
    if (of !== block || heard.runs === 0 || uncounted.some((un) => un.block === of && un.round === round)) continue;
    const last = all.at(-1);
    const joins = last?.tempoBpm === tempoBpm && last.byEar === byEar;
    if (joins) all.pop();
    all.push({ tempoBpm, byEar, clean: heard.clean + (joins ? last.clean : 0), runs: heard.runs + (joins ? last.runs : 0) });
  }
  return all;
}

/** The same up to a round. */
export const stretchesBefore = (state: SessionState, { block, round }: Pick<Glance, 'block' | 'round'>): readonly TempoStretch[] =>
  stretchesOf({ ...state, block, glances: state.glances.filter((one) => one.block === block && one.round < round) });

/** Keeps what came of a round; where the tempo follows, it changes at the next bar line that leaves a bar of plain time before the exercise comes again. */
export function glanced(
  state: SessionState,
  { frame, block: of, round: played, byEar, heard }: Omit<Glance, 'tempoBpm'> & { readonly frame: number },
): SessionStep {
  const { layout } = state;
  const glance = { block: of, round: played, byEar, heard };
  const running = state.phase === 'playing' || state.phase === 'paused';
  if (!running || !layout || glance.block !== state.block) return { state, effects: [] };
  const fromBpm = tempoAtBar(layout, glance.round * 2 * layout.roundBars);
  const others = state.glances.filter(({ block, round }) => block !== glance.block || round !== glance.round);
  const kept = { ...state, glances: [...others, { ...glance, tempoBpm: fromBpm }] };
  const comingBpm = tempoAtBar(layout, nextRoundBar(layout, played));
  // Another word for the same round takes back what the first one led to.
  const tempoBpm = followingBpm(kept, glance) ?? (others.length < state.glances.length ? fromBpm : comingBpm);
  const bar = tempoBpm === comingBpm ? null : changeBar(kept, layout, { frame, round: played });
  return bar === null ? { state: kept, effects: [] } : changed(kept, layout, { bar, round: played, tempoBpm });
}

/** A round that is not to count takes back the tempo that it led to, where that is still to come. */
export function takenBack(state: SessionState, frame: number, round: number): SessionStep {
  const glance = state.glances.find((one) => one.block === state.block && one.round === round);
  return glance ? glanced(state, { ...glance, frame }) : { state, effects: [] };
}

/**
 * The tempo that a round leads to, or null where it stays: never over a cap or the player's own "slower", never again in this block where it fell
 * before, and down only when enough was heard at this tempo.
 */
function followingBpm(state: SessionState, { round, heard }: Omit<Glance, 'tempoBpm'>): number | null {
  const block = state.blocks[state.block]!;
  const here = stretchesOf(state).at(-1);
  const uncounted = state.uncounted.some((un) => un.block === state.block && un.round === round);
  if (!followsWithin(block) || uncounted || heard.runs === 0 || !here) return null;
  const { tempoBpm } = here;
  const wished = Math.min(heard.nextTempoBpm, block.capBpm ?? Infinity, block.heldBpm ?? Infinity);
  if (wished > tempoBpm) return block.fewerClicks || wished >= fellFromBpm(state) ? null : wished;
  return wished < tempoBpm && here.runs >= (here.byEar ? FOLLOW.fewestRuns : FOLLOW.fewestWords) ? wished : null;
}

/** The slowest tempo from which the present block came down. */
function fellFromBpm(state: SessionState): number {
  const tempi = stretchesOf(state).map(({ tempoBpm }) => tempoBpm);
  return Math.min(...tempi.filter((tempoBpm, k) => tempi[k + 1] !== undefined && tempi[k + 1]! < tempoBpm));
}

const endOfExercise = ({ roundBars }: BlockLayout, round: number): number => (2 * round + 1) * roundBars;
const nextRoundBar = ({ roundBars }: BlockLayout, round: number): number => 2 * (round + 1) * roundBars;

/** The bar at which the tempo can change after a round; null when it is too late for that. A block in a pause goes on at the bar in which it was cut. */
function changeBar(state: SessionState, layout: BlockLayout, { frame, round }: { readonly frame: number; readonly round: number }): number | null {
  const now = state.pausedAtFrame;
  const bar = now !== null ? barAt(layout, now) : barAt(layout, frame + frameOfSec(FOLLOW.leadSec, state.sampleRateHz)) + 1;
  const at = roundOf(layout, bar);
  const inTime = at.round === round && at.plain && bar <= nextRoundBar(layout, round) - FOLLOW.plainBars;
  return inTime && bar < layout.barCount ? bar : null;
}

/** As many bars as the slot of the block still holds at the new tempo; where that is no whole round, a few runs would judge a tempo, and it stays. */
function changed(
  state: SessionState,
  layout: BlockLayout,
  { bar, round, tempoBpm }: { readonly bar: number; readonly round: number; readonly tempoBpm: number },
): SessionStep {
  const kept = (layout.changes ?? []).filter((change) => change.bar < bar);
  const moved = { ...layout, changes: [...kept, { bar, tempoBpm }] };
  const next = { ...moved, barCount: Math.max(bar + 1, wholeBars(moved, slotOf(state, state.block).toFrame)) };
  if (next.barCount < nextRoundBar(layout, round) + layout.roundBars) return { state, effects: [] };
  const atFrame = barFrame(next, bar);
  const told = { kind: 'tempo', block: state.block, fromBpm: tempoAtBar(layout, bar), tempoBpm, atFrame } as const;
  if (state.phase === 'paused') return { state: { ...state, layout: next }, effects: [told] };
  const clicks = clicksOf(next).filter((click) => click.frame >= atFrame);
  return { state: { ...state, layout: next }, effects: [{ kind: 'cancelClicks', fromFrame: atFrame }, { kind: 'clicks', clicks }, told] };
}
