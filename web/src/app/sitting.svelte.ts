/** Today's session as the screens see it: the state of the machine, what is under the eyes now, and the ways to steer. */
import { type Exercise, expectedCycle } from '@evenhand/core/exercise';
import type { Problem } from '@evenhand/core/problem';
import type { BlockResult } from '@evenhand/core/progress';
import {
  askedTempoBpm,
  type FourClicks,
  GO_CLICKS,
  lastRound,
  type OwnWord,
  type Present,
  presentStroke,
  type SaidCommand,
  type SessionBlock,
  type SessionState,
  saidBySticks,
  secLeftInBlock,
  temposAt,
} from '@evenhand/core/session';
import { tappedTempo } from '@evenhand/core/tempo';
import { secOfMs } from '@evenhand/core/units';
import type { Engine } from '../audio/engine.ts';
import type { Store } from '../store/store.ts';
import type { Armed } from './armed.ts';
import { stayAwake } from './awake.ts';
import { type Answer, confirmation } from './confirming.ts';
import type { CutOff } from './cutoff.ts';
import { fetchEngraver } from './engraver.ts';
import type { Judged } from './heardblock.ts';
import { labels, tempoName } from './labels.ts';
import { msOf } from './machines.ts';
import { type Shelf, startTempoBpm } from './ring.ts';
import type { Room } from './room.ts';
import { say } from './said.ts';
import { holdSession } from './sessionlock.ts';
import { sessionPages } from './sessionpages.ts';
import { runSession, type SessionRun, type TempoEffect } from './sessionrun.ts';
import { browserSpeech, createTelling, type TellBy, type Telling } from './telling.ts';

/** A round that the player may speak of, and what was said of it. */
export interface Speakable {
  readonly block: number;
  readonly round: number;
  readonly says: OwnWord | null;
}

/** What a session is started with. */
export interface SittingStart {
  readonly microphone: boolean;
  readonly stickingPointId: string | null;
  /** Results of earlier sessions. */
  readonly earlier: readonly BlockResult[];
  /** What four stick clicks are, while it runs; null: sticks say nothing. */
  readonly four: FourClicks | null;
  /** Whether tempi move within blocks, where they may move at all. */
  readonly follows: boolean;
  /** What tells in a rest which block comes next, and in which language. */
  readonly tellBy: TellBy;
  readonly lang: string;
  /** A session that was cut off, to go on with. */
  readonly goesOn?: CutOff | null;
}

export interface Sitting {
  readonly state: SessionState | null;
  readonly problems: readonly Problem[];
  readonly starting: boolean;
  /** Fetches what a session needs that is not there yet, because one is about to begin. */
  prepare(microphone: boolean): void;
  start(blocks: readonly SessionBlock[], options: SittingStart): Promise<void>;
  send(kind: Parameters<SessionRun['send']>[0]): void;
  /** Listens for four stick clicks, where the microphone is allowed already; gives the way to stop. */
  waitForSticks(onGo: (tempoBpm: number) => void): () => void;
  /** off: not listened for; asked: not allowed by the browser yet; on. */
  readonly sticks: 'off' | 'asked' | 'on';
  /** What is under the eyes at this instant, by the audio clock. */
  present(): Present;
  /** A tempo that was tapped for the first block; null where it begins as planned. */
  readonly firstBpm: number | null;
  startAt(tempoBpm: number | null): void;
  /** A tap of a key in a rest of the session; from as many as sticks click on, the block that waits takes their tempo. */
  tap(atMs: number): void;
  /** The tempo now and the one that comes, by the audio clock; null while no block is laid out. */
  tempi(): ReturnType<typeof temposAt>;
  /** Whole seconds left in the present block, by the audio clock. */
  secLeft(): number | null;
  /** Whether nothing hears a block, so that the player's word counts. */
  byWord(block: SessionBlock | undefined): boolean;
  /** The round a word would speak of now; null where none counts. */
  speakable(): Speakable | null;
  /** Forgets an ended session. */
  leave(): void;
}

/** Commands that change what comes, so that one that was not meant is heard. Pause and next are heard by themselves. */
const ANSWERED = ['dontCount', 'repeat', 'slower', 'faster', 'keep', 'goOn'] as const;
const WORDS = ['hadIt', 'again'] as const;

const isAnswered = (kind: string): kind is (typeof ANSWERED)[number] => (ANSWERED as readonly string[]).includes(kind);
const isWord = (kind: string): kind is OwnWord => (WORDS as readonly string[]).includes(kind);

const confirm = (engine: Engine, command: Answer): void => void engine.play(confirmation(command, engine.sampleRateHz), engine.sampleRateHz);

const comesNext = ({ exercise, tempoBpm }: SessionBlock): string =>
  `${labels.session.next}: ${say(exercise.title)}, ${tempoName(tempoBpm, exercise.perBeat)}`;

/** The blocks that a shelf's choice makes, each at its start tempo. */
export function blocksOf(shelf: Shelf): readonly SessionBlock[] {
  return shelf.chosen.flatMap(({ id, minutes, clicking = {} }) => {
    const exercise = shelf.exercises.find((one) => one.id === id);
    return exercise ? [{ ...blockOf(exercise, minutes, startTempoBpm(shelf, id)), ...clicking }] : [];
  });
}

/** Blocks whose first takes a tempo that was clicked, unless its tempo is the same every week. */
export const startedAt = (blocks: readonly SessionBlock[], tempoBpm: number | undefined): readonly SessionBlock[] =>
  blocks.map((block, i) => (i === 0 && tempoBpm !== undefined ? { ...block, tempoBpm: askedTempoBpm(block, tempoBpm) ?? block.tempoBpm } : block));

function blockOf(exercise: Exercise, minutes: number, tempoBpm: number): SessionBlock {
  const aim = { code: 'aim-as-wanted', params: { tempoBpm, perBeat: exercise.perBeat } };
  return { exercise, cycle: expectedCycle(exercise), minutes, tempoBpm, aim, reason: exercise.reason };
}

/**
 * @param over called when a session is over and written.
 * @param judged what blocks are judged against, asked when a session starts.
 */
export function createSitting(room: Room, store: () => Store | null, over: (state: SessionState) => Promise<void>, judged: () => Judged): Sitting {
  let state = $state.raw<SessionState | null>(null);
  let problems = $state.raw<readonly Problem[]>([]);
  let starting = $state(false);
  let run: SessionRun | null = null;
  let sticks = $state<Sitting['sticks']>('off');
  let armed: Armed | null = null;
  let telling: Telling | null = null;
  let firstBpm = $state<number | null>(null);
  let taps: readonly number[] = [];

  const onProblems = (more: readonly Problem[]): void => {
    const fresh = more.filter((problem) => !problems.some((known) => known.code === problem.code));
    if (fresh.length > 0) problems = [...problems, ...fresh];
  };

  const byWord = (block: SessionBlock | undefined): boolean =>
    run !== null && block !== undefined && block.judgedBy !== 'nobody' && (block.judgedBy === 'word' || !run.hears());

  /** The sound that is open for the start already, else a new one. */
  async function openSound(microphone: boolean): ReturnType<Room['openEngine']> {
    if (armed && microphone) {
      const engine = armed.take();
      armed = null;
      confirm(engine, 'start');
      return { value: engine, problems: [] };
    }
    await armed?.close();
    armed = null;
    return room.openEngine({ microphone: microphone ? 'asked' : 'none' });
  }

  function waitForSticks(onGo: (tempoBpm: number) => void): () => void {
    let wanted = true;
    void (async () => {
      const { arm } = await import('./armed.ts');
      const opened = await arm(room, onGo, onProblems);
      sticks = opened ? 'on' : 'asked';
      if (wanted && !run) armed = opened;
      else await opened?.close();
    })();
    return () => {
      wanted = false;
      sticks = 'off';
      if (starting || run) return;
      void armed?.close();
      armed = null;
    };
  }

  /** Sticks speak in the rests of a session. */
  function hearSticks(session: SessionRun, four: FourClicks): () => void {
    const ear = room.ear();
    ear.listenForSticks(session.engine.sampleRateHz);
    const off = ear.onSticks((counted) => {
      const said = telling?.spokeBetween(msOf(session.engine, counted.fromFrame), msOf(session.engine, counted.toFrame))
        ? null
        : saidBySticks(session.state(), counted, four);
      if (said) steer(session, said);
    });
    return () => {
      off();
      ear.listenForSticks(null);
    };
  }

  function steer(session: SessionRun, { command, tempoBpm }: SaidCommand): void {
    telling?.hush();
    if (tempoBpm !== null) session.tempo(tempoBpm);
    confirm(session.engine, command);
    session.send(command);
  }

  return {
    get state() {
      return state;
    },
    get problems() {
      return problems;
    },
    get starting() {
      return starting;
    },
    get sticks() {
      return sticks;
    },
    waitForSticks,
    async start(asked, { microphone, stickingPointId, earlier, four, follows, tellBy, lang, goesOn = null }) {
      if (starting || run || asked.length === 0) return;
      const blocks = startedAt(asked, firstBpm ?? undefined).map((block) => ({ follows, ...block }));
      firstBpm = null;
      starting = true;
      problems = [];
      const sound = await openSound(microphone);
      onProblems(sound.problems);
      if (!sound.value) {
        starting = false;
        return;
      }
      if (sound.value.microphone) room.ear().listenTo(sound.value);
      const pages = sessionPages(room, store(), { blocks, stickingPointId, goesOn, onProblems });
      const letGo = holdSession(pages.sessionId);
      const sleep = await stayAwake();
      const engine = sound.value;
      engine.onMicrophoneBack(() => (problems = problems.filter(({ code }) => code !== 'microphone-lost')));
      const onTempo = ({ fromBpm, tempoBpm }: TempoEffect) => confirm(engine, tempoBpm > fromBpm ? 'faster' : 'slower');
      telling = createTelling({ by: tellBy, lang, speech: browserSpeech(), tones: () => confirm(engine, 'next'), now: () => performance.now() });
      const counting = room.counting(engine);
      const onState = (next: SessionState): void => {
        state = next;
        counting.follow(next.phase === 'breather' || next.phase === 'playing' ? next.layout : null);
        if (next.phase !== 'breather') telling?.hush();
      };
      const onShow = (shown: SessionState): void => {
        const block = shown.blocks[shown.block];
        // The first is begun by the player, and the rest of one whose tempo was changed has no rest before it.
        if (!block || !shown.layout || shown.block === 0 || block.joined) return;
        telling?.next(comesNext(block), msOf(engine, shown.layout.startFrame));
      };
      run = runSession({ room, engine, pages, blocks, earlier, ...judged(), onProblems, onTempo, onShow, onState });
      state = run.state();
      starting = false;
      const deaf = four && sound.value.microphone ? hearSticks(run, four) : () => {};
      const ended = await run.over;
      deaf();
      telling.hush();
      counting.follow(null);
      run = null;
      sleep();
      await over(ended);
      letGo();
    },
    prepare(microphone) {
      if (microphone) room.ear();
      fetchEngraver();
    },
    send(kind) {
      if (run && isAnswered(kind)) return steer(run, { command: kind, tempoBpm: null });
      if (run && isWord(kind)) confirm(run.engine, kind);
      run?.send(kind);
    },
    present: () => (run && state ? presentStroke(run.state(), run.engine.audibleFrame()) : { part: 'over' }),
    get firstBpm() {
      return firstBpm;
    },
    startAt(tempoBpm) {
      firstBpm = tempoBpm;
    },
    tap(atMs) {
      taps = [...taps.slice(-32), secOfMs(atMs)];
      const tapped = tappedTempo(taps);
      const rests = run && ['breather', 'paused'].includes(run.state().phase);
      if (!run || !rests || !tapped || tapped.tapCount < GO_CLICKS) return;
      confirm(run.engine, 'goOn');
      run.tempo(tapped.tempoBpm);
    },
    tempi: () => (run && state ? temposAt(run.state(), run.engine.audibleFrame()) : null),
    secLeft: () => (run && state && state.phase !== 'paused' ? secLeftInBlock(run.state(), run.engine.audibleFrame()) : null),
    byWord,
    speakable() {
      if (!run || !state) return null;
      const round = lastRound(run.state(), run.engine.audibleFrame());
      if (!round || !byWord(run.state().blocks[round.block])) return null;
      const said = run.state().said.find((one) => one.block === round.block && one.round === round.round);
      return { ...round, says: said?.says ?? null };
    },
    leave() {
      state = null;
      problems = [];
    },
  };
}
