/** Takes of our own simulated drums, one drum with a kick in each, with the ear's own onset and masking told of every stroke. */
import { type ExpectedCycle, expectedCycle, readContent } from '../../core/src/exercise/index.ts';
import { type PerformedStroke, perform, styles } from '../../core/src/player/index.ts';
import { inRoom, type Room } from '../../core/src/player/room.ts';
import { normal, type Random, seededRandom } from '../../core/src/random.ts';
import { mixIn, renderStrokes, underCeiling } from '../../core/src/sound/index.ts';
import { readSticking } from '../../core/src/sticking/index.ts';
import { fileClock, type Take } from '../../core/src/take/index.ts';
import { amplitudeOfDb, frameOfSec } from '../../core/src/units.ts';
import type { TrueStroke, Truth } from './scorer.ts';

const RATE_HZ = 44_100;
const TEMPO_BPM = 88;
const CYCLES = 20;
/** Longest a stroke is followed, s: past it nothing of a drum is left that could mask. */
const STRIKE_SEC = 1;

/** Drums that the hands play, each in a take of its own; the foot plays the kick. */
export const HAND_DRUMS = ['snare', 'cross-stick', 'pad', 'high-tom', 'floor-tom', 'hi-hat', 'hi-hat-foot', 'ride', 'crash'] as const;

const PLACES: readonly { readonly name: string; readonly room?: Room; readonly noiseDb: number }[] = [
  { name: 'dry', noiseDb: -72 },
  { name: 'room', room: { decaySec: 0.3, directDb: 8, delaySec: 0.004 }, noiseDb: -55 },
];

/** A made take with what was asked for. */
export interface DrumTake {
  readonly truth: Truth;
  readonly take: Take;
  readonly cycle: ExpectedCycle;
  readonly tempoBpm: number;
  readonly durationSec: number;
}

/** Every drum dry and in a room. The same bytes each time. */
export const drumTakes = (): DrumTake[] => HAND_DRUMS.flatMap((drum, d) => PLACES.map((place, p) => drumTake(drum, place, 900 + 10 * d + p)));

function drumTake(drum: string, { name, room, noiseDb }: (typeof PLACES)[number], seed: number): DrumTake {
  const random = seededRandom(seed);
  const sticking = readSticking('RLRRK').value!;
  const cycle = expectedCycle(readContent(sticking, { perBeat: 4, surfaces: `R=${drum} L=${drum}` }).value!);
  const strokes = perform(cycle, { tempoBpm: TEMPO_BPM, cycles: CYCLES, style: styles.intermediate, startSec: 1, random });
  const strikes = strokes.filter(({ missed }) => !missed).map((stroke) => ({ stroke, ...strikeOf(stroke, random) }));
  const durationSec = Math.max(...strokes.map(({ timeSec }) => timeSec)) + 1;
  const dry = new Float32Array(frameOfSec(durationSec, RATE_HZ));
  for (const { at, sound } of strikes) mixIn(dry, sound, at);
  const wet = room ? inRoom(dry, { room, sampleRateHz: RATE_HZ, random }) : dry;
  for (let i = 0; i < wet.length; i++) wet[i]! += amplitudeOfDb(noiseDb) * normal(random);
  const told = strikes.map(({ stroke, at, onset, sound }) => trueStroke(stroke, { at, onset, sound, wet }));
  const truth: Truth = { id: `${drum}, ${name}`, strokes: told.sort((a, b) => a.onset! - b.onset!), clicks: [] };
  return { truth, take: { samples: underCeiling(wet), clock: fileClock(RATE_HZ) }, cycle, tempoBpm: TEMPO_BPM, durationSec };
}

interface Strike {
  /** First frame of the sound in the take. */
  readonly at: number;
  readonly sound: Float32Array;
  /** Frames from the first to the onset. */
  readonly onset: number;
}

/** One stroke alone, and its onset as docs/ear.md defines it: the first sample that reaches a tenth of the peak within 30 ms. */
function strikeOf({ timeSec, levelDb, surface }: PerformedStroke, random: Random): Strike {
  const sound = renderStrokes([{ timeSec: 0, levelDb, surface }], { sampleRateHz: RATE_HZ, durationSec: STRIKE_SEC, random });
  const peak = sound.subarray(0, frameOfSec(0.03, RATE_HZ)).reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  return { at: frameOfSec(timeSec, RATE_HZ), sound, onset: sound.findIndex((value) => Math.abs(value) >= 0.1 * peak) };
}

function trueStroke(
  { cycle, index, surface, levelDb, timeSec }: PerformedStroke,
  { at, sound, onset, wet }: Strike & { wet: Float32Array },
): TrueStroke {
  const [own, rest] = [sound, wet.subarray(at, at + sound.length).map((value, i) => value - (sound[i] ?? 0))].map((of) =>
    energyAfter(of!, onset),
  ) as [number, number];
  const smrDb = 10 * Math.log10(own / rest);
  const known = { index, cycle, surface, level: '', grace: false, missed: false, extra: false, gridTime: timeSec };
  return { ...known, onset: (at + onset) / RATE_HZ, rms20Dbfs: levelDb, smrDb };
}

/** Energy of the 20 ms from the onset on, in which volume is defined. */
function energyAfter(sound: Float32Array, onset: number): number {
  return sound.subarray(onset, onset + frameOfSec(0.02, RATE_HZ)).reduce((sum, value) => sum + value * value, 1e-12);
}
