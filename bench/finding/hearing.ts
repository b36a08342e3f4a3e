/** Takes of this bench: played by the simulated drummer, heard through the whole ear, or, to try things out, by an ear that reads the truth. */
import type { ExpectedCycle } from '../../core/src/exercise/index.ts';
import { type Measurement, measure } from '../../core/src/measurement/index.ts';
import { type Fault, type Onset, perform, type Style } from '../../core/src/player/index.ts';
import { normal, seededRandom } from '../../core/src/random.ts';
import { mixIn, renderStrokes, underCeiling } from '../../core/src/sound/index.ts';
import { type Candidate, type DrumKind, hear, type Loudness } from '../../core/src/stroke/index.ts';

export interface TakeToPlay {
  readonly cycle: ExpectedCycle;
  readonly tempoBpm: number;
  readonly cycles: number;
  readonly style: Style;
  readonly faults: readonly Fault[];
  readonly seed: number;
}

const SAMPLE_RATE_HZ = 44100;
const START_SEC = 0.5;

/** Clicks of the take on every beat: the drummer plays to headphones. */
function clicksOf({ cycle, tempoBpm, cycles }: TakeToPlay): number[] {
  const beats = Math.ceil((cycles * cycle.lengthBeats.num) / cycle.lengthBeats.den) + 1;
  return Array.from({ length: beats }, (_, beat) => START_SEC + (60 * beat) / tempoBpm);
}

/** Through the microphone. */
export function heardTake(take: TakeToPlay): Measurement | null {
  const samples = soundOf(take);
  const clock = { sampleRateHz: SAMPLE_RATE_HZ, contextFrame0: 0, wallMs0: 0, latencySec: 0, latencyFrom: 'unknown' as const };
  const heard = hear({ samples, clock });
  return measured(take, { ...heard, durationSec: samples.length / SAMPLE_RATE_HZ });
}

/** RMS of the noise under everything, full scale 1: −72 dB, as the player's own takes have it. */
const NOISE = 10 ** (-72 / 20);
/** So many different strikes of each drum are rendered once and used in turn: rendering each anew takes longer than hearing it. */
const STRIKES = 24;
const POOL_LEVEL_DB = -24;

/** The strokes of core's player with the sounds of core's drums, and noise. */
function soundOf(take: TakeToPlay): Float32Array {
  const random = seededRandom(take.seed);
  const strokes = perform(take.cycle, { ...take, startSec: START_SEC, random });
  const sound = new Float32Array(Math.ceil(SAMPLE_RATE_HZ * (Math.max(...strokes.map(({ timeSec }) => timeSec)) + 1)));
  for (const { surface, graces, bounces, ...stroke } of strokes.filter(({ missed }) => !missed)) {
    for (const onset of [...graces, stroke, ...bounces]) strikeInto(sound, { surface, onset, which: Math.floor(random() * STRIKES) });
  }
  const noise = noiseRow();
  const from = Math.floor(random() * noise.length);
  for (let i = 0; i < sound.length; i++) sound[i]! += noise[(i + from) % noise.length]!;
  return underCeiling(sound);
}

function strikeInto(sound: Float32Array, { surface, onset, which }: { surface: string; onset: Onset; which: number }): void {
  const gain = 10 ** ((onset.levelDb - POOL_LEVEL_DB) / 20);
  const strike = strikesOf(surface)[which]!;
  mixIn(
    sound,
    strike.map((sample) => sample * gain),
    Math.round(onset.timeSec * SAMPLE_RATE_HZ),
  );
}

const strikes = new Map<string, Float32Array[]>();
function strikesOf(surface: string): Float32Array[] {
  const known = strikes.get(surface);
  if (known) return known;
  const random = seededRandom(surface.length);
  const made = Array.from({ length: STRIKES }, () => {
    const sound = renderStrokes([{ timeSec: 0, surface, levelDb: POOL_LEVEL_DB }], { sampleRateHz: SAMPLE_RATE_HZ, durationSec: 4, random });
    let end = sound.length;
    while (end > 0 && sound[end - 1] === 0) end -= 1;
    return sound.slice(0, end);
  });
  strikes.set(surface, made);
  return made;
}

let noise: Float32Array | null = null;
/** Eleven seconds of noise, begun elsewhere in each take. */
function noiseRow(): Float32Array {
  const random = seededRandom(7);
  noise ??= Float32Array.from({ length: 11 * SAMPLE_RATE_HZ }, () => NOISE * normal(random));
  return noise;
}

/** Without sound: every stroke at its time, strokes within 12 ms heard as one. */
export function readTake(take: TakeToPlay): Measurement | null {
  const random = seededRandom(take.seed);
  const strokes = perform(take.cycle, { ...take, startSec: START_SEC, random });
  const onsets = strokes
    .filter(({ missed }) => !missed)
    .flatMap((stroke) => [stroke, ...stroke.graces, ...stroke.bounces].map((onset) => ({ ...onset, surface: stroke.surface })))
    .sort((a, b) => a.timeSec - b.timeSec);
  const candidates: Candidate[] = [];
  for (const { timeSec, levelDb, surface } of onsets) {
    const last = candidates.at(-1);
    if (last && timeSec - last.timeSec < 0.012) continue;
    const kind: DrumKind = surface === 'kick' ? 'kick' : surface.endsWith('tom') ? 'tom' : 'snare';
    const drumOdds = { kick: 0.02, tom: 0.02, snare: 0.02, pad: 0.02, cymbal: 0.02, [kind]: 0.92 };
    candidates.push({ timeSec, strength: 2, volumeDb: levelDb, confidence: 0.95, drumOdds });
  }
  return measured(take, { candidates, durationSec: onsets.at(-1)!.timeSec + 1 });
}

function measured(take: TakeToPlay, heard: { candidates: readonly Candidate[]; durationSec: number; loudness?: Loudness }): Measurement | null {
  const { candidates, durationSec, loudness } = heard;
  const options = { tempoBpm: take.tempoBpm, durationSec, clickTimesSec: clicksOf(take), ...(loudness ? { loudness } : {}) };
  return measure(candidates, take.cycle, options).value;
}
