/** Carries out what a session asks for: clicks to the sound, takes to the ear, records to the diary. Decides nothing itself. */
import type { Problem } from '@evenhand/core/problem';
import type { BlockResult } from '@evenhand/core/progress';
import {
  type BlockOutcome,
  barsPlayed,
  beatFramesOf,
  type ExerciseSpan,
  type Heard,
  newSession,
  outcomeSoFar,
  type SaidRound,
  type SessionBlock,
  type SessionEffect,
  type SessionEvent,
  type SessionState,
  stepSession,
  stretchesBefore,
  tempoAtBar,
} from '@evenhand/core/session';
import type { TempoResult } from '@evenhand/core/tempo';
import type { Engine } from '../audio/engine.ts';
import { type BlockPage, type MeasuredBlock, measuredBlock } from './blockpage.ts';
import { blockTakes } from './blocktake.ts';
import { keepFirstClean, roundsSoFar } from './firstclean.ts';
import { heardBlock, heardRound, type Judged } from './heardblock.ts';
import { type Listened, listened } from './listened.ts';
import { heardByWord, roundByWord } from './ownword.ts';
import { clickOf } from './recording.ts';
import { countsForWork } from './results.ts';
import type { Room } from './room.ts';
import type { SessionPages } from './sessionpages.ts';
import { askAgain, record, type TakeHands } from './sessiontakes.ts';

export type TempoEffect = Extract<SessionEffect, { kind: 'tempo' }>;

export interface SessionRun {
  readonly engine: Engine;
  readonly sessionId: string;
  state(): SessionState;
  /** Whether what is played now is heard: not without a microphone, nor in a block that began while it was pulled out. */
  hears(): boolean;
  /** Something happened now. */
  send(kind: Exclude<SessionEvent['kind'], 'measured' | 'glanced' | 'tempo'>): void;
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
  /** Told when a block is laid out, or laid out anew. */
  readonly onShow: (state: SessionState) => void;
  /** Told when the tempo is to change at a bar line of the block that runs. */
  readonly onTempo: (change: TempoEffect) => void;
  readonly onProblems: (problems: readonly Problem[]) => void;
}

interface Hands extends TakeHands {
  readonly options: SessionRunOptions;
  readonly measured: Map<number, MeasuredBlock>;
  /** What came of the blocks of this session, by place, each tempo in its turn. */
  readonly results: Map<number, readonly Result[]>;
  readonly listened: Listened;
  readonly keepFirstClean: ReturnType<typeof keepFirstClean>;
  state(): SessionState;
  send(event: SessionEvent): void;
}

/** Starts a session: the first click comes after the lead of core/session. */
export function runSession(options: SessionRunOptions): SessionRun {
  const { engine, pages } = options;
  let state = newSession(options.blocks, engine.sampleRateHz);
  const takes = blockTakes(options.room, engine, options.onProblems);
  const hands: Hands = {
    options,
    takes,
    listened: listened(engine, takes),
    keepFirstClean: keepFirstClean(pages),
    measured: new Map(),
    results: new Map(),
    takeNames: new Map(),
    clicks: [],
    state: () => state,
    send,
  };
  let finish: (state: SessionState) => void = () => {};
  const over = new Promise<SessionState>((resolve) => {
    finish = resolve;
  });
  const untick = engine.onTime(() => send({ kind: 'tick', frame: engine.nextFrame() }));
  const unlisten = engine.onProblem((problem) => options.onProblems([problem]));
  const unplug = engine.onMicrophoneBack(() => askAgain(state, hands));
  let ended = false;

  function send(event: SessionEvent): void {
    const before = state;
    const step = stepSession(state, event);
    const changed = step.effects.length > 0 || (['phase', 'uncounted', 'said', 'glances'] as const).some((part) => step.state[part] !== before[part]);
    state = step.state;
    for (const effect of step.effects) carryOut(effect, state, hands);
    if (state.said !== before.said || state.glances !== before.glances || barsPlayed(state) > barsPlayed(before)) keepSoFar(state, hands);
    const word = state.said === before.said ? undefined : state.said.at(-1);
    if (word) glanceByWord(word, state, hands);
    if (changed) options.onState(state);
    if (state.phase === 'ended' && !ended) {
      ended = true;
      void close();
    }
  }

  async function close(): Promise<void> {
    untick();
    unlisten();
    unplug();
    hands.listened.off();
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
    hears: () => hands.listened.now(state.takeOpen),
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
    case 'moveTakeEnd':
    case 'dropTake':
    case 'closeTake':
      record(effect, state, hands);
      break;
    case 'glance':
      void glance(effect.span, state, hands);
      break;
    case 'tempo':
      hands.options.onTempo(effect);
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
    case 'show':
      hands.options.onShow(state);
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

function keepPart({ kind, part }: EffectOf<'keep' | 'letGo'>, state: SessionState, { takes, options }: Hands): void {
  const stretch = takes.partOf(part.take, part.fromFrame, part.toFrame);
  if (!stretch) return;
  if (kind === 'letGo') options.pages.letGo(stretch);
  else options.pages.keep(stretch, { ...state.blocks[part.block]!, tempoBpm: part.tempoBpm }, 'idea-kept');
}

/** Whether what is played now is judged by the player's own word. */
const isByWord = (block: SessionBlock, { listened, state }: Hands): boolean => block.judgedBy === 'word' || !listened.now(state().takeOpen);

async function measure(effect: EffectOf<'measure'>, state: SessionState, hands: Hands): Promise<void> {
  const { engine, onProblems, tolerance, shapes } = hands.options;
  const block = state.blocks[effect.block]!;
  const outcome = state.outcomes.find((one) => one.block === effect.block);
  const spans = effect.spans.filter(hands.listened.to);
  const byWord = block.judgedBy === 'word' || spans.length === 0;
  let heard: Heard | null = null;
  if (byWord) {
    const rounds = { hadIt: 0, again: 0, ...outcome?.rounds, stretches: outcome?.glanced ?? [] };
    heard = heardByWord(block, rounds, earlierOf(block, effect.block, hands));
  } else {
    const { whole, stretches } = await hands.takes.measure(block, spans, shapes);
    onProblems(whole.problems);
    if (whole.value) hands.measured.set(effect.block, measuredBlock(whole.value));
    heard = heardBlock(block, whole, { tolerance, shapes, stretches, earlier: earlierOf(block, effect.block, hands) });
  }
  if (heard && heard.runs > 0 && countsForWork(block)) {
    const turns = heard.stretches ?? [{ tempoBpm: block.tempoBpm, clean: heard.clean, runs: heard.runs, byEar: !byWord }];
    hands.results.set(
      effect.block,
      turns.map(({ tempoBpm, clean, runs, byEar }) => ({ exerciseId: block.exercise.id, tempoBpm, clean, runs, byEar })),
    );
  }
  hands.send({ kind: 'measured', frame: engine.nextFrame(), block: effect.block, heard });
}

/** One round while its block goes on; by the player's word it is told when the word is said. */
async function glance(span: ExerciseSpan, state: SessionState, hands: Hands): Promise<void> {
  const { engine, tolerance, shapes = [] } = hands.options;
  const { layout } = state;
  const block = { ...state.blocks[span.block]!, tempoBpm: span.tempoBpm };
  if (!layout || block.judgedBy === 'word' || !hands.listened.to(span)) return;
  const sounded = { clicks: hands.clicks, beats: beatFramesOf(layout, span.toFrame + layout.sampleRateHz), shapes };
  const reading = await hands.takes.glance(block, span, sounded);
  if (!reading.value) return;
  const earlier = beforeRound(block, span, hands);
  const heard = heardRound(block, reading, { tolerance, shapes, earlier });
  const part = hands.takes.partOf(span.take, span.fromFrame, span.toFrame);
  if (part) hands.keepFirstClean({ block, heard, part, before: [...earlier, ...roundsSoFar(hands.state(), block)] });
  hands.send({ kind: 'glanced', frame: engine.nextFrame(), block: span.block, round: span.round, byEar: true, heard });
}

/** A word for a round of the block that runs moves its tempo as what is heard does. */
function glanceByWord(word: SaidRound, state: SessionState, hands: Hands): void {
  const { layout } = state;
  const present = state.blocks[word.block]!;
  if (!layout || word.block !== state.block || !isByWord(present, hands)) return;
  const block = { ...present, tempoBpm: tempoAtBar(layout, word.round * 2 * layout.roundBars) };
  const heard = roundByWord(block, word.says, beforeRound(block, word, hands));
  hands.send({ kind: 'glanced', frame: hands.options.engine.nextFrame(), block: word.block, round: word.round, byEar: false, heard });
}

/** Results up to a round: those of earlier sessions and blocks, and of the rounds before it. */
const beforeRound = (block: SessionBlock, at: Pick<ExerciseSpan, 'block' | 'round'>, hands: Hands): readonly TempoResult[] => [
  ...earlierOf(block, at.block, hands),
  ...stretchesBefore(hands.state(), at),
];

type Result = Pick<BlockResult, 'exerciseId' | 'tempoBpm' | 'clean' | 'runs' | 'byEar'>;

/** Results of a block's exercise up to that block, in order: those of earlier sessions, then those of this one. Reference takes say nothing of where work stands. */
function earlierOf({ exercise }: SessionBlock, place: number, { options, results }: Hands): readonly Result[] {
  const before = options.earlier.filter(({ reference }) => !reference);
  const now = [...results].filter(([other]) => other < place).sort(([a], [b]) => a - b);
  return [...before, ...now.flatMap(([, turns]) => turns)].filter(({ exerciseId }) => exerciseId === exercise.id);
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
