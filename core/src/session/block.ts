/** A block of a session as data, and where its beats fall on the audio clock. */
import { ParameterError } from '../errors.ts';
import type { Exercise, ExpectedCycle } from '../exercise/index.ts';
import type { Statement } from '../problem.ts';
import { beatSec, frameOfSec } from '../units.ts';
import { beatsUntil, tempoAtBar } from './beats.ts';
import type { BlockLayout, ClickWay, TempoChange } from './layout.ts';
import { BREATHER_SEC, ROUND_BARS, SHORT_BLOCK_SHARE, TWO_BAR_COUNT_IN_SEC } from './parameters.ts';

/** One exercise for some minutes. */
export interface SessionBlock {
  readonly exercise: Exercise;
  /** The strokes of one cycle in musical time, as `exercise` gives them. */
  readonly cycle: ExpectedCycle;
  /** Any positive number: 0.2 is twelve seconds. Count-in and breather are inside. */
  readonly minutes: number;
  /** Beats per minute; how many strokes that is, is the exercise's `perBeat`. */
  readonly tempoBpm: number;
  readonly aim: Statement;
  readonly reason: Statement;
  /** Who judges it: the ear, the player's own word where nothing can be heard, or nobody (a warm-up). Default the ear. */
  readonly judgedBy?: 'ear' | 'word' | 'nobody';
  /** True where the tempo is the same every week, so that takes can be compared: it neither moves nor moves others. Default false. */
  readonly fixedTempo?: boolean;
  /** short: a round is the exercise once, to its bar line, and as long a rest; usual: four bars or so. Default usual. */
  readonly rounds?: 'usual' | 'short';
  /** Never faster than this, by a teacher's word. */
  readonly capBpm?: number;
  /** How it is clicked; every beat unless said. */
  readonly click?: ClickWay;
  /** Fewer clicks as it goes well: where the tempo would rise, the click is thinned first. */
  readonly fewerClicks?: boolean;
  /** Tempo changes at its bar lines, in order. */
  readonly changes?: readonly TempoChange[];
  /** Whether its tempo moves within it, by what was heard of each round, where it may move at all. Default false. */
  readonly follows?: boolean;
  /** No faster than this within the block, by the player's own "slower". */
  readonly heldBpm?: number | null;
  /** Place in the session as it was begun; blocks put in or cut in two while it runs keep the place they come from. */
  readonly place?: number;
  /** The rest of a block whose tempo was changed: it follows without a breather. */
  readonly joined?: boolean;
  /** Put in by "again". */
  readonly repeated?: boolean;
}

/** A time slot on the audio clock, in frames; `toFrame` is outside. */
export interface FrameSpan {
  readonly fromFrame: number;
  readonly toFrame: number;
}

/**
 * Lays a block into its slot: breather (from the second block on), count-in, then whole bars, the last of which ends at the latest
 * with the slot. A slot too short for a bar after the count-in still gets one.
 * @param block what is played. Throws ParameterError unless minutes and tempo are positive.
 * @param slot frames that the block has.
 * @param sampleRateHz of the audio clock.
 * @param first true for the first block of a session, which needs no breather.
 */
export function layoutBlock(block: SessionBlock, slot: FrameSpan, options: { readonly sampleRateHz: number; readonly first: boolean }): BlockLayout {
  requirePositive('tempoBpm', block.tempoBpm);
  requirePositive('minutes', block.minutes);
  const { sampleRateHz, first } = options;
  const slotSec = (slot.toFrame - slot.fromFrame) / sampleRateHz;
  const breatherSec = first ? 0 : Math.min(BREATHER_SEC, slotSec * SHORT_BLOCK_SHARE);
  const startFrame = slot.fromFrame + frameOfSec(breatherSec, sampleRateHz);
  const barSec = beatSec(tempoAtBar(block, 0)) * block.exercise.meter.beats;
  const countInBars = countInBarsOf(barSec, slotSec * SHORT_BLOCK_SHARE);
  const layout = {
    sampleRateHz,
    tempoBpm: block.tempoBpm,
    beatsPerBar: block.exercise.meter.beats,
    startFrame,
    countInBars,
    firstBar: 0,
    barCount: 1,
    roundBars: block.rounds === 'short' ? block.exercise.bars : roundBarsOf(block.exercise.bars),
    ...(block.changes ? { changes: block.changes } : {}),
    ...(block.click ? { click: block.click } : {}),
  };
  return { ...layout, barCount: Math.max(1, wholeBars(layout, slot.toFrame)) };
}

/**
 * Bars to count in with: two when they are over soon, else one.
 * @param barSec length of a bar.
 * @param mostSec time that a count-in may take; one bar is counted in any case.
 */
export const countInBarsOf = (barSec: number, mostSec: number = TWO_BAR_COUNT_IN_SEC): 1 | 2 =>
  2 * barSec <= Math.min(TWO_BAR_COUNT_IN_SEC, mostSec) ? 2 : 1;

/** The same block begun again after a pause, with a count-in, at the bar in which it was cut. */
export const resumeLayout = (layout: BlockLayout, startFrame: number, bar: number): BlockLayout => ({ ...layout, startFrame, firstBar: bar });

/** Bars of one round: four, or the nearest number in which the cycle meets the bar line again. `roundBarsOf(3)` is 3, of 2 is 4, of 5 is 5. */
export const roundBarsOf = (exerciseBars: number): number => exerciseBars * Math.max(1, Math.round(ROUND_BARS / exerciseBars));

/** Bars of the block that are over before a frame when it goes on until then, forgiving a millionth of a bar so that 15 minutes of 4/4 at 100 are 375 and not 374. */
export const wholeBars = (layout: BlockLayout, toFrame: number): number =>
  Math.floor(beatsUntil(layout, toFrame - 0.5) / layout.beatsPerBar + 1e-6) - layout.countInBars + layout.firstBar;

function requirePositive(parameter: string, value: number): void {
  if (!(value > 0) || !Number.isFinite(value)) throw new ParameterError(parameter, value, 'a positive number');
}
