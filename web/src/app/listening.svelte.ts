/** Listening to an exercise before it is played: our own drums at a tempo, over and over, with or without the click. */
import { type Exercise, expectedCycle, stickingOfContent } from '@evenhand/core/exercise';
import type { Problem } from '@evenhand/core/problem';
import { seededRandom } from '@evenhand/core/random';
import { secOfBeats } from '@evenhand/core/units';
import type { Engine } from '../audio/engine.ts';
import { painted } from './painted.ts';
import type { Room } from './room.ts';

export interface Listening {
  /** Id of the exercise that sounds or is about to, else null. */
  readonly id: string | null;
  readonly withClick: boolean;
  readonly problems: readonly Problem[];
  /** Plays an exercise in place of the one before; the one that sounds is stopped. */
  toggle(exercise: Exercise, tempoBpm: number): Promise<void>;
  /** Also while it sounds: from the next start of the exercise on. */
  setClick(withClick: boolean): void;
  stop(): void;
}

/** Music is laid out for so many seconds at least before it begins again. Assumption: long enough that strikes do not repeat noticeably. */
const LOOP_SEC = 8;

export function createListening(room: Room): Listening {
  let id = $state<string | null>(null);
  let withClick = $state(true);
  let problems = $state.raw<readonly Problem[]>([]);
  let engine: Engine | null = null;
  /** Counts starts, so that a start that was overtaken while the sound was being made does not begin after all. */
  let turn = 0;

  function stop(): void {
    turn += 1;
    id = null;
    void engine?.close();
    engine = null;
  }

  async function start(exercise: Exercise, tempoBpm: number): Promise<void> {
    const own = turn;
    // Rendering takes a tenth of a second: the pressed button is seen first.
    const [opened, { renderLoop }] = await Promise.all([room.openEngine({ microphone: 'none' }), import('@evenhand/core/sound'), painted()]);
    if (own !== turn || !opened.value) {
      problems = opened.problems;
      if (own === turn) id = null;
      return void opened.value?.close();
    }
    engine = opened.value;
    problems = [];
    const { sampleRateHz } = engine;
    const samples = renderLoop(expectedCycle(exercise), {
      tempoBpm,
      cycles: cyclesOf(exercise, tempoBpm),
      sampleRateHz,
      random: seededRandom(1),
      ...(withClick ? { clickBeats: exercise.meter.beats, clickSound: engine.clickSound } : {}),
    });
    engine.playOver(new Float32Array(samples), sampleRateHz);
  }

  return {
    get id() {
      return id;
    },
    get withClick() {
      return withClick;
    },
    get problems() {
      return problems;
    },
    async toggle(exercise, tempoBpm) {
      const again = id === exercise.id;
      stop();
      if (again) return;
      id = exercise.id;
      await start(exercise, tempoBpm);
    },
    setClick(next) {
      withClick = next;
      stop();
    },
    stop,
  };
}

/** Whole times through, so that bar lines meet, for a few seconds at least. */
function cyclesOf({ bars, meter, perBeat, sticking, surfaces }: Exercise, tempoBpm: number): number {
  const { slotCount } = stickingOfContent({ meter, perBeat, sticking, surfaces });
  const slots = bars * meter.beats * perBeat;
  const seconds = secOfBeats(bars * meter.beats, tempoBpm);
  return (slots / slotCount) * Math.max(1, Math.ceil(LOOP_SEC / seconds));
}
