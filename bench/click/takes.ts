/** Takes with a count-in before them and known beats, made and real, into which the click is mixed. */
import { type ExpectedCycle, expectedCycle, readContent } from '../../core/src/exercise/index.ts';
import { performTake, type Room, styles } from '../../core/src/player/index.ts';
import { normal, seededRandom } from '../../core/src/random.ts';
import { readSticking } from '../../core/src/sticking/index.ts';
import { readAnnotatedTakes, referenceTakes } from '../ear/takes.ts';
import { levelDbOf } from './bleed.ts';

/** A recording as the app makes one, without its click. */
export interface Take {
  readonly name: string;
  readonly samples: Float32Array;
  readonly sampleRateHz: number;
  /** True strokes, rising. */
  readonly strokesSec: readonly number[];
  /** Every beat from the first of the count-in on, as it is to be clicked; every fourth is the 1 of a bar. */
  readonly beatsSec: readonly number[];
  /** Where the exercise begins. */
  readonly playSec: number;
  /** A loud stroke: RMS over 20 ms exceeded by one in ten, dB. */
  readonly loudDb: number;
}

const COUNT_IN = 8;
const LEAD_SEC = 0.5;

const PHRASES = [
  { sticking: 'RLRRK', perBeat: 4, tempoBpm: 104 },
  { sticking: '>R(L)(R)L', perBeat: 4, tempoBpm: 92 },
] as const;
const PLACES: readonly { readonly name: string; readonly room?: Room; readonly noiseDb: number }[] = [
  { name: 'dry', noiseDb: -72 },
  { name: 'room of .3 s', room: { decaySec: 0.3, directDb: 8, delaySec: 0.004 }, noiseDb: -60 },
];

/** Our own simulated drummer on our own drums: 32 beats after two bars counted in. */
export const madeTakes = (): readonly Take[] =>
  PLACES.flatMap(({ name, room, noiseDb }, p) =>
    PHRASES.map(({ sticking, perBeat, tempoBpm }, k) => {
      const cycle: ExpectedCycle = expectedCycle(readContent(readSticking(sticking).value!, { perBeat }).value!);
      const beatSec = 60 / tempoBpm;
      const playSec = LEAD_SEC + COUNT_IN * beatSec;
      const cycles = Math.ceil((32 * perBeat) / cycle.strokes.length);
      const sampleRateHz = 44_100;
      const how = { tempoBpm, cycles, style: styles.intermediate, startSec: playSec, sampleRateHz, noiseDb, random: seededRandom(900 + 10 * p + k) };
      const { samples, strokes } = performTake(cycle, { ...how, ...(room ? { room } : {}) });
      const strokesSec = strokes
        .filter(({ missed }) => !missed)
        .map(({ timeSec }) => timeSec)
        .sort((a, b) => a - b);
      const beats = Math.floor((samples.length / sampleRateHz - 1 - LEAD_SEC) / beatSec);
      const beatsSec = Array.from({ length: beats }, (_, beat) => LEAD_SEC + beat * beatSec);
      return {
        name: `${sticking}, ${name}`,
        samples,
        sampleRateHz,
        strokesSec,
        beatsSec,
        playSec,
        loudDb: loudOf(samples, sampleRateHz, strokesSec),
      };
    }),
  );

/** The development takes that hold no click of their own, with two bars before them that are as quiet as their quietest tenth of a second; null where they are absent. */
export function realTakes(): readonly Take[] | null {
  const takes = readAnnotatedTakes(referenceTakes);
  if (!takes) return null;
  return takes
    .filter(({ truth }) => truth.clicks.length === 0)
    .map(({ id, truth, take }) => {
      const { sampleRateHz } = take.clock;
      const { beats } = truth as typeof truth & { readonly beats: readonly number[] };
      const beatSec = beats[1]! - beats[0]!;
      const before = LEAD_SEC + COUNT_IN * beatSec - beats[0]!;
      const ahead = Math.max(0, Math.round(before * sampleRateHz));
      const samples = new Float32Array(ahead + take.samples.length);
      const random = seededRandom(17);
      const floor = quietestRms(take.samples, sampleRateHz);
      for (let i = 0; i < ahead; i++) samples[i] = floor * normal(random);
      samples.set(take.samples, ahead);
      const aheadSec = ahead / sampleRateHz;
      const first = beats[0]! + aheadSec;
      const counted = Array.from({ length: COUNT_IN }, (_, k) => first - (COUNT_IN - k) * beatSec).filter((sec) => sec > 0);
      const strokesSec = truth.strokes.flatMap(({ onset }) => (onset === null ? [] : [onset + aheadSec])).sort((a, b) => a - b);
      const beatsSec = [...counted, ...beats.map((sec) => sec + aheadSec)];
      return {
        name: id.slice(0, 3),
        samples,
        sampleRateHz,
        strokesSec,
        beatsSec,
        playSec: first,
        loudDb: loudOf(samples, sampleRateHz, strokesSec),
      };
    });
}

function loudOf(samples: Float32Array, sampleRateHz: number, strokesSec: readonly number[]): number {
  const levels = strokesSec.map((sec) => levelDbOf(samples.subarray(Math.round(sec * sampleRateHz)), sampleRateHz)).sort((a, b) => a - b);
  return levels[Math.floor(0.9 * levels.length)]!;
}

function quietestRms(samples: Float32Array, sampleRateHz: number): number {
  const length = Math.round(0.1 * sampleRateHz);
  const all = Array.from({ length: Math.floor(samples.length / length) }, (_, k) => {
    const part = samples.subarray(k * length, (k + 1) * length);
    return Math.sqrt(part.reduce((sum, sample) => sum + sample * sample, 0) / length);
  });
  return Math.min(...all.filter((rms) => rms > 0));
}
