/** The placement check while it runs: ten seconds of playing, then the click's way from loudspeaker to microphone. */
import type { Problem } from '@evenhand/core/problem';
import { msOfSec } from '@evenhand/core/units';
import type { Engine } from '../audio/engine.ts';
import { keepClickWay } from './clickway.ts';
import { PLACING_STEPS, type PlacingPeaks, type PlacingStep, type PlacingWord, placementOf } from './placement.ts';
import type { Room } from './room.ts';

export interface Placing {
  /** What is to be played now; `click` while the click is listened to, null when nothing runs. */
  readonly step: PlacingStep | 'opening' | 'click' | null;
  readonly peak: number;
  /** Null before the check was made. */
  readonly words: readonly PlacingWord[] | null;
  /** How long the click takes, in ms; null when it was not heard. */
  readonly clickMs: number | null;
  readonly problems: readonly Problem[];
  check(withKick: boolean): Promise<void>;
}

/** Clicks of the loopback: apart far enough for the longest way, not evenly, so that no other alignment fits. */
const CLICKS = 8;
const CLICK_GAP_SEC = 0.55;

export function createPlacing(room: Room): Placing {
  let step = $state<Placing['step']>(null);
  let peak = $state(0);
  let words = $state.raw<readonly PlacingWord[] | null>(null);
  let clickMs = $state<number | null>(null);
  let problems = $state.raw<readonly Problem[]>([]);

  async function check(withKick: boolean): Promise<void> {
    if (step !== null) return;
    step = 'opening';
    [words, clickMs, problems] = [null, null, []];
    const opened = await room.openEngine({ microphone: 'asked' });
    problems = opened.problems;
    if (opened.value?.microphone) {
      room.ear().listenTo(opened.value);
      words = placementOf(await peaksOf(withKick), withKick);
      step = 'click';
      await loop(opened.value);
    }
    await opened.value?.close();
    step = null;
  }

  async function peaksOf(withKick: boolean): Promise<PlacingPeaks> {
    const heard: Record<PlacingStep, number[]> = { quiet: [], loudest: [], softest: [], kick: [] };
    const off = room.ear().onMeter((meter) => {
      peak = meter.peak;
      if (step !== null && step !== 'opening' && step !== 'click') heard[step].push(meter.peak);
    });
    for (const { name, sec } of PLACING_STEPS) {
      if (name === 'kick' && !withKick) continue;
      step = name;
      await new Promise((resolve) => setTimeout(resolve, msOfSec(sec)));
    }
    off();
    return heard;
  }

  async function loop(engine: Engine): Promise<void> {
    const { sampleRateHz } = engine;
    const fromFrame = engine.nextFrame();
    const clicks = Array.from({ length: CLICKS }, (_, k) => ({
      frame: fromFrame + Math.round((0.3 + k * CLICK_GAP_SEC + 0.02 * (k % 3)) * sampleRateHz),
      voice: 'beat' as const,
      gainDb: 0,
    }));
    engine.schedule(clicks);
    const toFrame = clicks.at(-1)!.frame + Math.round(0.6 * sampleRateHz);
    const { value, problems: more } = await room.ear().measureLoop({ clicks, clickSound: engine.clickSound, sampleRateHz, fromFrame, toFrame });
    problems = [...problems, ...more];
    if (!value) return;
    keepClickWay(engine, value.latencySec);
    clickMs = msOfSec(value.latencySec);
  }

  return {
    get step() {
      return step;
    },
    get peak() {
      return peak;
    },
    get words() {
      return words;
    },
    get clickMs() {
      return clickMs;
    },
    get problems() {
      return problems;
    },
    check,
  };
}
