/** An invented theatre-pit drummer who lives some weeks with the app: how likely a clean run is, what is said of a round, what the microphone takes. */
import { type Exercise, type ExpectedCycle, expectedCycle } from '@evenhand/core/exercise';
import { type Fault, type PerformedStroke, perform, performTake, type Style } from '@evenhand/core/player';
import type { Random } from '@evenhand/core/random';
import { toNumber } from '@evenhand/core/rational';
import { writeWav } from '@evenhand/core/take';

/** Steady hands; what fails is the foot. */
const STYLE: Style = { clockSdMs: 2.8, motorSdMs: 3.2, correction: 0.25, levelSdDb: 1, wanderShare: 0 };

/** The second stroke of a foot's double on the first evening, sixteenths at 100 and faster, and what is left of it after each evening of practice. */
const HURRY = { earlyMs: 24, softDb: 5, gapMs: 150, steepness: 2.5, leftPerEvening: 0.93 } as const;

/** Chromium's fake microphone runs at this rate. */
const MICROPHONE_RATE_HZ = 44_100;

/** How the drummer plays an exercise after so many evenings. */
function faultsOf(cycle: ExpectedCycle, tempoBpm: number, evenings: number): readonly Fault[] {
  const kicks = cycle.strokes.filter(({ limb }) => limb === 'K');
  return kicks.flatMap((kick, k) => {
    const before = kicks.at(k - 1)!;
    const length = toNumber(cycle.lengthBeats);
    const gapBeats = (toNumber(kick.beat) - toNumber(before.beat) + length) % length || length;
    const gapMs = (60_000 * gapBeats) / tempoBpm;
    const share = Math.min(1, (HURRY.gapMs / gapMs) ** HURRY.steepness) * HURRY.leftPerEvening ** evenings;
    return gapMs > 2 * HURRY.gapMs ? [] : [{ index: kick.index, earlyMs: HURRY.earlyMs * share, softDb: HURRY.softDb * share }];
  });
}

export interface Playing {
  readonly tempoBpm: number;
  /** Evenings of practice that lie behind the drummer. */
  readonly evenings: number;
  readonly random: Random;
}

/**
 * Chance of a clean run: of forty of them, eight main strokes in a row, the share in which each lay within the medium tolerance of its time
 * (JOB.md: three times the greater of 6 ms and 2.5 % of the interval).
 */
export function chanceOfCleanRun(exercise: Exercise, { tempoBpm, evenings, random }: Playing): number {
  const cycle = expectedCycle(exercise);
  const cycles = Math.ceil((40 * 8) / cycle.strokes.length);
  const strokes = perform(cycle, { tempoBpm, cycles, style: STYLE, faults: faultsOf(cycle, tempoBpm, evenings), random });
  const allowedMs = 3 * Math.max(6, (0.025 * 60_000) / (tempoBpm * exercise.perBeat));
  const beatMs = 60_000 / tempoBpm;
  const beatOf = new Map(cycle.strokes.map(({ index, beat }) => [index, toNumber(beat)]));
  const isOff = ({ timeSec, cycle: k, index }: PerformedStroke) =>
    Math.abs(1000 * timeSec - beatMs * (k * toNumber(cycle.lengthBeats) + beatOf.get(index)!)) > allowedMs;
  const runs = Array.from({ length: Math.floor(strokes.length / 8) }, (_, k) => strokes.slice(8 * k, 8 * k + 8));
  return runs.filter((run) => !run.some(isOff)).length / runs.length;
}

/** The sound of some cycles, begun so many seconds after the microphone was opened: a 16-bit WAV. */
export function soundOf(
  exercise: Exercise,
  { tempoBpm, evenings, random, cycles, startSec }: Playing & { readonly cycles: number; readonly startSec: number },
): Uint8Array {
  const cycle = expectedCycle(exercise);
  const faults = faultsOf(cycle, tempoBpm, evenings);
  const { samples } = performTake(cycle, { tempoBpm, cycles, faults, style: STYLE, startSec, sampleRateHz: MICROPHONE_RATE_HZ, random });
  return writeWav(samples, MICROPHONE_RATE_HZ, { bits: 16 });
}
