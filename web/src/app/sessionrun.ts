/** Carries out what a session asks for: clicks to the sound, takes to the ear, records to the diary. Decides nothing itself. */

import type { Problem } from '@evenhand/core/problem';
import type { BlockResult } from '@evenhand/core/progress';
import {
  type BlockOutcome,
  barsPlayed,
  beatFramesOf,
  type Heard,
  newSession,
  outcomeSoFar,
  type SessionBlock,
  type SessionClick,
  type SessionEffect,
  type SessionEvent,
  type SessionState,
  stepSession,
} from '@evenhand/core/session';
import type { Engine } from '../audio/engine.ts';
import type { MeasuredTake } from '../worker/protocol.ts';
import type { BlockPage } from './blockpage.ts';
import { type BlockTakes, blockTakes } from './blocktake.ts';
import { heardBlock, type Judged } from './heardblock.ts';
import { heardByWord } from './ownword.ts';
import { clickOf } from './recording.ts';
import { countsForWork } from './results.ts';
import type { Room } from './room.ts';
import type { SessionPages } from './sessionpages.ts';

/** How often time is looked at while the page does not draw (hidden tab), in milliseconds. Assumption: the click does not depend on it. */
const TICK_MS = 200;

export interface SessionRun {
  readonly engine: Engine;
  readonly sessionId: string;
  state(): SessionState;
  /** Something happened now. */
  send(kind: Exclude<SessionEvent['kind'], 'measured' | 'tempo'>): void;
  /** The tempo of what comes, as it was clicked or tapped. */
  tempo(tempoBpm: number): void;
  /** Settles when the session is over and everything of it is written. */
  readonly over: Promise<SessionState>;
}

export interface SessionRunOptions extends Judged {
  readonly room: Room;
  readonly engine: Engine;
  readonly pages: SessionPages;
  readonly blocks: readonly SessionBlock[];
  /** Results of earlier sessions, for the tempo that follows from the player's word. */
  readonly earlier: readonly BlockResult[];
  readonly onState: (state: SessionState) => void;
  readonly onProblems: (problems: readonly Problem[]) => void;
}

interface Hands {
  readonly options: SessionRunOptions;
  readonly takes: BlockTakes;
  readonly measured: Map<number, MeasuredTake>;
  /** What came of the blocks of this session, by place. */
  readonly results: Map<number, Result>;
  readonly takeNames: Map<number, string[]>;
  clicks: readonly SessionClick[];
  send(event: SessionEvent): void;
}

/** Starts a session: the first click comes after the lead of core/session. */
export function runSession(options: SessionRunOptions): SessionRun {
  const { engine, pages } = options;
  let state = newSession(options.blocks, engine.sampleRateHz);
  const hands: Hands = {
    options,
    takes: blockTakes(options.room, engine, options.onProblems),
    measured: new Map(),
    results: new Map(),
    takeNames: new Map(),
    clicks: [],
    send,
  };
  let finish: (state: SessionState) => void = () => {};
  const over = new Promise<SessionState>((resolve) => {
    finish = resolve;
  });
  const ticking = setInterval(() => send({ kind: 'tick', frame: engine.nextFrame() }), TICK_MS);
  const unlisten = engine.onProblem((problem) => options.onProblems([problem]));
  let ended = false;

  function send(event: SessionEvent): void {
    const before = state;
    const step = stepSession(state, event);
    const changed =
      step.effects.length > 0 || step.state.phase !== before.phase || step.state.uncounted !== before.uncounted || step.state.said !== before.said;
    state = step.state;
    for (const effect of step.effects) carryOut(effect, state, hands);
    if (state.said !== before.said || barsPlayed(state) > barsPlayed(before)) keepSoFar(state, hands);
    if (changed) options.onState(state);
    if (state.phase === 'ended' && !ended) {
      ended = true;
      void close();
    }
  }

  async function close(): Promise<void> {
    clearInterval(ticking);
    unlisten();
    await hands.takes.allClosed();
    await pages.written();
    await engine.close();
    finish(state);
  }

  send({ kind: 'start', frame: engine.nextFrame() });
  return {
    engine,
    sessionId: pages.sessionId,
    state: () => state,
    send: (kind) => send({ kind, frame: engine.nextFrame() }),
    tempo: (tempoBpm) => send({ kind: 'tempo', frame: engine.nextFrame(), tempoBpm }),
    over,
  };
}

function carryOut(effect: SessionEffect, state: SessionState, hands: Hands): void {
  switch (effect.kind) {
    case 'clicks':
    case 'cancelClicks':
      click(effect, hands);
      break;
    case 'openTake':
    case 'closeTake':
      record(effect, state, hands);
      break;
    case 'measure':
      void measure(effect, state, hands);
      break;
    case 'keep':
    case 'letGo':
      keepPart(effect, state, hands);
      break;
    case 'writeBlock':
      writeBlock(effect.outcome, state, hands);
      break;
    case 'writeSession':
      hands.options.pages.end(effect.summary);
      break;
    // The screen draws the block that the state names.
    case 'show':
      break;
  }
}

type EffectOf<Kind extends SessionEffect['kind']> = Extract<SessionEffect, { kind: Kind }>;

function click(effect: EffectOf<'clicks' | 'cancelClicks'>, hands: Hands): void {
  const { engine } = hands.options;
  if (effect.kind === 'clicks') {
    hands.clicks = [...hands.clicks, ...effect.clicks];
    engine.schedule(effect.clicks.map(clickOf));
  } else {
    hands.clicks = hands.clicks.filter((one) => one.frame < effect.fromFrame);
    engine.cancelClicks(effect.fromFrame);
  }
}

function record(effect: EffectOf<'openTake' | 'closeTake'>, state: SessionState, hands: Hands): void {
  const { engine, pages } = hands.options;
  if (!engine.microphone) return;
  if (effect.kind === 'openTake') {
    hands.takeNames.set(effect.block, [...(hands.takeNames.get(effect.block) ?? []), effect.take]);
    hands.takes.open(effect.take, pages.sessionId);
  } else {
    const run = [...state.runs, ...(state.previousRun ? [state.previousRun.run] : [])].find(({ take }) => take === effect.take);
    hands.takes.close(effect.take, effect.atFrame, { clicks: hands.clicks, beats: run ? beatFramesOf(run.layout, effect.atFrame) : [] });
  }
}

function keepPart({ kind, part }: EffectOf<'keep' | 'letGo'>, state: SessionState, { takes, options }: Hands): void {
  const stretch = takes.partOf(part.take, part.fromFrame, part.toFrame);
  if (!stretch) return;
  if (kind === 'letGo') options.pages.letGo(stretch);
  else options.pages.keep(stretch, state.blocks[part.block]!);
}

async function measure(effect: EffectOf<'measure'>, state: SessionState, hands: Hands): Promise<void> {
  const { engine, onProblems, tolerance, shapes } = hands.options;
  const block = state.blocks[effect.block]!;
  let heard: Heard | null = null;
  if (!engine.microphone || block.judgedBy === 'word') {
    const rounds = state.outcomes.find((outcome) => outcome.block === effect.block)?.rounds ?? { hadIt: 0, again: 0 };
    heard = heardByWord(block, rounds, earlierOf(block, effect.block, hands));
  } else {
    const reading = await hands.takes.measure(block, effect.spans, shapes);
    onProblems(reading.problems);
    if (reading.value) hands.measured.set(effect.block, reading.value);
    heard = heardBlock(block, reading, { tolerance, shapes, earlier: earlierOf(block, effect.block, hands) });
  }
  if (heard && heard.runs > 0 && countsForWork(block))
    hands.results.set(effect.block, { exerciseId: block.exercise.id, tempoBpm: block.tempoBpm, clean: heard.clean, runs: heard.runs });
  hands.send({ kind: 'measured', frame: engine.nextFrame(), block: effect.block, heard });
}

type Result = Pick<BlockResult, 'exerciseId' | 'tempoBpm' | 'clean' | 'runs'>;

/** Results of a block's exercise up to that block, in order: those of earlier sessions, then those of this one. Reference takes say nothing of where work stands. */
function earlierOf({ exercise }: SessionBlock, place: number, { options, results }: Hands): readonly Result[] {
  const before = options.earlier.filter(({ reference }) => !reference);
  const now = [...results].filter(([other]) => other < place).sort(([a], [b]) => a - b);
  return [...before, ...now.map(([, result]) => result)].filter(({ exerciseId }) => exerciseId === exercise.id);
}

/** After each bar, and each word for a round: no more than the bar in progress is lost when the page is killed. */
function keepSoFar(state: SessionState, hands: Hands): void {
  const outcome = outcomeSoFar(state);
  if (outcome) hands.options.pages.soFar(pageOf(outcome, state, hands));
}

function writeBlock(outcome: BlockOutcome, state: SessionState, hands: Hands): void {
  hands.options.pages.block(pageOf(outcome, state, hands));
}

function pageOf(outcome: BlockOutcome, state: SessionState, hands: Hands): BlockPage {
  const takeIds = hands.takes.idsOf(hands.takeNames.get(outcome.block) ?? []);
  return { outcome, block: state.blocks[outcome.block]!, takeIds, measured: hands.measured.get(outcome.block) ?? null };
}
