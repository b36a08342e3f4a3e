/** "Find my tempo", played: a bar counted in and some runs at a time, each at the tempo that tells most, judged by the ear or by the player's word. */
import { type Exercise, expectedCycle } from '@evenhand/core/exercise';
import type { Problem } from '@evenhand/core/problem';
import { toNumber } from '@evenhand/core/rational';
import { type AskedTake, type BlockLayout, barFrame, clicksOf, endFrameOf, type SessionBlock, type SessionClick } from '@evenhand/core/session';
import { believe, cleanRuns, FIND, findStep, type TempoBelief, tempoBelow, type WeighedResult } from '@evenhand/core/tempo';
import { frameOfSec, secOfFrames } from '@evenhand/core/units';
import type { Engine } from '../audio/engine.ts';
import { type BlockTakes, blockTakes } from './blocktake.ts';
import type { Counting } from './counting.ts';
import type { Judged } from './heardblock.ts';
import { clickOf } from './recording.ts';
import type { Room } from './room.ts';

/** One tempo that was tried. */
export type SearchStep = Required<Pick<WeighedResult, 'tempoBpm' | 'clean' | 'runs' | 'byEar'>>;

/** What came of a search. */
export interface Found {
  readonly steps: readonly SearchStep[];
  /** Where it is clean, with the 90 % range. */
  readonly medianBpm: number;
  readonly lowBpm: number;
  readonly highBpm: number;
  readonly playedSec: number;
  readonly takeIds: readonly string[];
}

/** What the player sees. */
export interface SearchState {
  readonly tempoBpm: number;
  /** From 1. */
  readonly step: number;
  /** wait, then count-in, then play; `judging` while the ear works, `asking` while a word is waited for. */
  readonly part: 'getReady' | 'countIn' | 'play' | 'judging' | 'asking';
  /** Seconds until two minutes are over. */
  readonly leftSec: number;
}

export interface Search {
  /** The player's word for the bar just played. */
  say(word: 'hadIt' | 'again'): void;
  /** Ends it now, with what there is. */
  stop(): void;
  readonly over: Promise<Found>;
}

interface SearchOptions {
  readonly room: Room;
  readonly engine: Engine;
  readonly exercise: Exercise;
  /** Where the player, or the plan, thinks it is. */
  readonly expectedBpm: number;
  readonly sessionId: string;
  readonly judged: Judged;
  readonly onState: (state: SearchState) => void;
  readonly onProblems: (problems: readonly Problem[]) => void;
}

/** How often time is looked at, milliseconds. Assumption: the click does not depend on it. */
const TICK_MS = 50;
/** To take up the sticks, then between a result and the next count-in. Assumption. */
const LEAD_SEC = { first: 2, between: 0.4 } as const;
/** How long a take stays open after the last beat, so that the last stroke rings out. @source core/src/session/parameters.ts */
const TAIL_SEC = 0.25;
/** After so many bars in a row of which nothing could be told, it ends. Our choice: more would not tell either. */
const UNTOLD_MOST = 3;
/** A bar that holds fewer strokes than a run is played again until it does. */
const RUN_STROKES = 8;

/** Starts a search; its over settles at the latest when two minutes are over and the bar in progress with them. */
export function runSearch(options: SearchOptions): Search {
  const { engine } = options;
  const takes = blockTakes(options.room, engine, options.onProblems);
  let stopped = false;
  let answer: ((word: 'hadIt' | 'again' | null) => void) | null = null;
  const counting = options.room.counting(engine);
  const hands: Hands = { options, takes, counting, isStopped: () => stopped, ask: () => new Promise((resolve) => (answer = resolve)) };
  return {
    say: (word) => answer?.(word),
    stop() {
      stopped = true;
      answer?.(null);
      counting.follow(null);
      engine.cancelClicks();
    },
    over: search(hands),
  };
}

interface Hands {
  readonly options: SearchOptions;
  readonly takes: BlockTakes;
  readonly counting: Counting;
  isStopped(): boolean;
  ask(): Promise<'hadIt' | 'again' | null>;
}

async function search(hands: Hands): Promise<Found> {
  const { engine, exercise, expectedBpm } = hands.options;
  const steps: SearchStep[] = [];
  const names: string[] = [];
  const firstFrame = engine.nextFrame() + frameOfSec(LEAD_SEC.first, engine.sampleRateHz);
  const asked = { expected: { tempoBpm: expectedBpm }, perBeat: exercise.perBeat, beatsPerBar: exercise.meter.beats };
  let untold = 0;
  for (let played = 1; !hands.isStopped() && untold < UNTOLD_MOST; played++) {
    const elapsedSec = Math.max(0, secOfFrames(engine.nextFrame() - firstFrame, engine.sampleRateHz));
    const next = findStep(steps, { ...asked, elapsedSec });
    if (next.done) break;
    const result = await playStep(hands, { tempoBpm: next.tempoBpm, step: played, firstFrame });
    if (result) steps.push(result);
    untold = result ? 0 : untold + 1;
    names.push(nameOf(played));
  }
  await hands.takes.allClosed();
  // Nothing was told: what was expected stands.
  const belief = believe(steps, { expected: { tempoBpm: expectedBpm } });
  const playedSec = Math.max(0, secOfFrames(engine.nextFrame() - firstFrame, engine.sampleRateHz));
  return { steps, ...rangeOf(belief), playedSec, takeIds: hands.takes.idsOf(names) };
}

const rangeOf = (belief: TempoBelief) => ({
  medianBpm: tempoBelow(belief, 0.5),
  lowBpm: tempoBelow(belief, 0.05),
  highBpm: tempoBelow(belief, 0.95),
});

const nameOf = (step: number): string => `search-${step}`;

/** A bar of count-in, then bars that hold a run or more; null when it was stopped, or nothing could be told of it. */
async function playStep(
  hands: Hands,
  now: { readonly tempoBpm: number; readonly step: number; readonly firstFrame: number },
): Promise<SearchStep | null> {
  const { options, takes } = hands;
  const { engine, exercise } = options;
  const { tempoBpm, step } = now;
  const block = blockOf(exercise, tempoBpm);
  const lead = step === 1 ? LEAD_SEC.first : LEAD_SEC.between;
  const layout = layoutOf(block, engine.nextFrame() + frameOfSec(lead, engine.sampleRateHz), engine.sampleRateHz);
  const clicks = clicksOf(layout);
  engine.schedule(clicks.map(clickOf));
  hands.counting.follow(layout);
  const tell = (part: SearchState['part']) => options.onState({ tempoBpm, step, part, leftSec: leftSec(engine, now.firstFrame) });
  const end = endFrameOf(layout);
  const span = { take: nameOf(step), fromFrame: layout.startFrame, toFrame: end + frameOfSec(TAIL_SEC, engine.sampleRateHz) };
  if (engine.microphone) takes.open(span, options.sessionId);
  await reach(hands, layout.startFrame, () => tell('getReady'));
  await reach(hands, barFrame(layout, 0), () => tell('countIn'));
  await reach(hands, span.toFrame, () => tell('play'));
  if (engine.microphone) closeStep(hands, span, clicks);
  if (hands.isStopped()) return null;
  if (!engine.microphone) {
    tell('asking');
    const word = await hands.ask();
    return word && { tempoBpm, runs: 1, clean: word === 'hadIt' ? 1 : 0, byEar: false };
  }
  tell('judging');
  const played = { take: span.take, block: 0, round: 0, fromFrame: barFrame(layout, 0), toFrame: end, fromBeat: 0, tempoBpm };
  const { whole: reading } = await takes.measure(block, [played], options.judged.shapes);
  options.onProblems(reading.problems);
  if (!reading.value) return null;
  const { clean, runs } = cleanRuns(reading.value.measurement, {
    cycle: block.cycle,
    tolerance: options.judged.tolerance ?? 'medium',
    shapes: options.judged.shapes ?? [],
  });
  return runs > 0 ? { tempoBpm, clean, runs, byEar: true } : null;
}

/** Stopped before its count-in, a step has nothing to keep. */
function closeStep({ takes, options: { engine } }: Hands, { take, fromFrame, toFrame }: TakeSpan, clicks: readonly SessionClick[]): void {
  const untilFrame = Math.min(engine.nextFrame(), toFrame);
  if (untilFrame <= fromFrame) takes.drop(take);
  else takes.close(take, untilFrame, { clicks, beats: clicks.map(({ frame }) => frame) });
}

type TakeSpan = Omit<AskedTake, 'block'>;

const leftSec = ({ nextFrame, sampleRateHz }: Engine, firstFrame: number): number =>
  Math.max(0, Math.ceil(FIND.mostSec - Math.max(0, secOfFrames(nextFrame() - firstFrame, sampleRateHz))));

/** Waits for a frame, telling what goes on meanwhile; returns early when it was stopped. */
function reach(hands: Hands, frame: number, tell: () => void): Promise<void> {
  tell();
  return new Promise((resolve) => {
    const ticking = setInterval(() => {
      if (hands.options.engine.nextFrame() < frame && !hands.isStopped()) return tell();
      clearInterval(ticking);
      resolve();
    }, TICK_MS);
  });
}

function blockOf(exercise: Exercise, tempoBpm: number): SessionBlock {
  const aim = { code: 'aim-as-wanted', params: { tempoBpm, perBeat: exercise.perBeat } };
  return { exercise, cycle: expectedCycle(exercise), minutes: 1, tempoBpm, aim, reason: aim };
}

function layoutOf({ exercise, cycle, tempoBpm }: SessionBlock, startFrame: number, sampleRateHz: number): BlockLayout {
  const { beats } = exercise.meter;
  const perBar = (cycle.strokes.length * beats) / toNumber(cycle.lengthBeats);
  const barCount = Math.max(FIND.bars, Math.ceil(RUN_STROKES / perBar));
  return { sampleRateHz, tempoBpm, beatsPerBar: beats, startFrame, countInBars: 1, firstBar: 0, barCount, roundBars: barCount };
}
