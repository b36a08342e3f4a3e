/** Today's session as the screens see it: the state of the machine, what is under the eyes now, and the ways to steer. */
import { type Exercise, expectedCycle } from '@evenhand/core/exercise';
import type { Problem } from '@evenhand/core/problem';
import { type Present, presentStroke, type SessionBlock, type SessionState, secLeftInBlock } from '@evenhand/core/session';
import type { Store } from '../store/store.ts';
import { stayAwake } from './awake.ts';
import { type Shelf, startTempoBpm } from './ring.ts';
import type { Room } from './room.ts';
import { sessionPages } from './sessionpages.ts';
import { runSession, type SessionRun } from './sessionrun.ts';

export interface Sitting {
  readonly state: SessionState | null;
  readonly problems: readonly Problem[];
  readonly starting: boolean;
  start(blocks: readonly SessionBlock[], options: { readonly microphone: boolean; readonly stickingPointId: string | null }): Promise<void>;
  send(kind: Parameters<SessionRun['send']>[0]): void;
  /** What is under the eyes at this instant, by the audio clock. */
  present(): Present;
  /** Whole seconds left in the present block, by the audio clock. */
  secLeft(): number | null;
  /** Forgets an ended session. */
  leave(): void;
}

/** The blocks that a shelf's choice makes, each at its start tempo. */
export function blocksOf(shelf: Shelf): readonly SessionBlock[] {
  return shelf.chosen.flatMap(({ id, minutes }) => {
    const exercise = shelf.exercises.find((one) => one.id === id);
    return exercise ? [blockOf(exercise, minutes, startTempoBpm(shelf, id))] : [];
  });
}

function blockOf(exercise: Exercise, minutes: number, tempoBpm: number): SessionBlock {
  const aim = { code: 'aim-as-wanted', params: { tempoBpm, perBeat: exercise.perBeat } };
  return { exercise, cycle: expectedCycle(exercise), minutes, tempoBpm, aim, reason: exercise.reason };
}

/** @param over called when a session is over and written. */
export function createSitting(room: Room, store: () => Store | null, over: (state: SessionState) => void): Sitting {
  let state = $state.raw<SessionState | null>(null);
  let problems = $state.raw<readonly Problem[]>([]);
  let starting = $state(false);
  let run: SessionRun | null = null;

  const onProblems = (more: readonly Problem[]): void => {
    const fresh = more.filter((problem) => !problems.some((known) => known.code === problem.code));
    if (fresh.length > 0) problems = [...problems, ...fresh];
  };

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
    async start(blocks, { microphone, stickingPointId }) {
      if (starting || run || blocks.length === 0) return;
      starting = true;
      problems = [];
      const sound = await room.openEngine({ microphone: microphone ? 'asked' : 'none' });
      starting = false;
      onProblems(sound.problems);
      if (!sound.value) return;
      if (sound.value.microphone) room.ear().listenTo(sound.value);
      const pages = sessionPages(room, store(), { blocks, stickingPointId, onProblems });
      const sleep = await stayAwake();
      run = runSession({ room, engine: sound.value, pages, blocks, onProblems, onState: (next) => (state = next) });
      state = run.state();
      const ended = await run.over;
      run = null;
      sleep();
      over(ended);
    },
    send: (kind) => run?.send(kind),
    present: () => (run && state ? presentStroke(run.state(), run.engine.audibleFrame()) : { part: 'over' }),
    secLeft: () => (run && state && state.phase !== 'paused' ? secLeftInBlock(run.state(), run.engine.audibleFrame()) : null),
    leave() {
      state = null;
      problems = [];
    },
  };
}
