/** Blocks played by the simulated drummer: for the figures alone, or with their sound, heard by our own ear. */
import { type ExerciseContent, type ExpectedCycle, expectedCycle } from '@evenhand/core/exercise';
import { type Finding, findingsOf } from '@evenhand/core/finding';
import { type Measurement, measureSpans } from '@evenhand/core/measurement';
import { type Onset, type PerformedStroke, type PerformOptions, perform, performTake } from '@evenhand/core/player';
import type { Problem } from '@evenhand/core/problem';
import type { Random } from '@evenhand/core/random';
import { toNumber } from '@evenhand/core/rational';
import { voiceOf } from '@evenhand/core/sound';
import { type Candidate, type DrumKind, hear, type Stroke } from '@evenhand/core/stroke';
import { fileClock, inspect } from '@evenhand/core/take';
import { type CleanRuns, cleanRuns } from '@evenhand/core/tempo';
import { beatSec } from '@evenhand/core/units';
import { faultsOf } from './drummer.ts';
import { FEWEST_CYCLES, STROKES_PER_BLOCK, STYLE, TAKE, TOGETHER_SEC } from './parameters.ts';

/** What is played, and by whom. */
export interface Played {
  readonly content: ExerciseContent;
  readonly tempoBpm: number;
  /** Sessions that lie behind the drummer. */
  readonly sessions: number;
  /** What goes wrong; unless said, what does for the drummer of the demo. */
  readonly faults?: typeof faultsOf;
  readonly random: Random;
}

/** What was made of it. */
export interface Judged {
  readonly measurement: Measurement;
  readonly findings: readonly Finding[];
  readonly runs: CleanRuns;
}

/** Its sound, and what the ear made of that. */
export interface Sounded extends Judged {
  readonly samples: Float32Array<ArrayBuffer>;
  readonly sampleRateHz: number;
  readonly strokes: readonly Stroke[];
  readonly clicksSec: readonly number[];
  readonly problems: readonly Problem[];
}

/** A block without sound: its strokes are measured as an ear that misses nothing would hear them. Null when nothing can be measured. */
export function playSilently(played: Played): Judged | null {
  const cycle = expectedCycle(played.content);
  const cycles = Math.max(FEWEST_CYCLES, Math.ceil(STROKES_PER_BLOCK / cycle.strokes.length));
  return judge(candidatesOf(perform(cycle, performance(played, cycle, cycles))), played, { cycle, cycles });
}

/** A take: played, rendered, heard, measured. Null when the ear can measure nothing. */
export function playAloud(played: Played): Sounded | null {
  const cycle = expectedCycle(played.content);
  const { cycles, sampleRateHz, tailSec } = TAKE;
  const { samples } = performTake(cycle, { ...performance(played, cycle, cycles), sampleRateHz, tailSec });
  const take = { samples, clock: fileClock(sampleRateHz) };
  const { strokes, candidates } = hear(take, { clickTimesSec: [] });
  const judged = judge(candidates, played, { cycle, cycles });
  if (!judged) return null;
  const times = strokes.map(({ timeSec }) => timeSec);
  return {
    ...judged,
    samples: Float32Array.from(samples),
    sampleRateHz,
    strokes,
    clicksSec: clicksOf(played, cycle, cycles),
    problems: inspect(take, times),
  };
}

const performance = ({ tempoBpm, sessions, faults = faultsOf, random }: Played, cycle: ExpectedCycle, cycles: number): PerformOptions => ({
  tempoBpm,
  cycles,
  style: STYLE,
  faults: faults(cycle, { tempoBpm, sessions }),
  startSec: TAKE.startSec,
  random,
});

function judge(
  candidates: readonly Candidate[],
  played: Played,
  { cycle, cycles }: { readonly cycle: ExpectedCycle; readonly cycles: number },
): Judged | null {
  const { tempoBpm } = played;
  const toSec = TAKE.startSec + cycles * toNumber(cycle.lengthBeats) * beatSec(tempoBpm);
  const spans = [{ fromSec: TAKE.startSec, toSec, fromBeat: 0 }];
  const { value } = measureSpans(candidates, cycle, { tempoBpm, clickTimesSec: clicksOf(played, cycle, cycles), spans });
  return value && { measurement: value, findings: findingsOf(value, { cycle }), runs: cleanRuns(value, { cycle }) };
}

/** The click in her ears, one a beat while she plays. */
const clicksOf = ({ tempoBpm }: Played, cycle: ExpectedCycle, cycles: number): readonly number[] =>
  Array.from({ length: Math.ceil(cycles * toNumber(cycle.lengthBeats)) }, (_, beat) => TAKE.startSec + beat * beatSec(tempoBpm));

/** Everything that sounds, in order of time; what falls together is one. */
function candidatesOf(strokes: readonly PerformedStroke[]): readonly Candidate[] {
  const sounding = strokes
    .filter(({ missed }) => !missed)
    .flatMap((stroke) => [...stroke.graces, stroke, ...stroke.bounces].map((onset) => candidateOf(onset, stroke.surface)))
    .sort((a, b) => a.timeSec - b.timeSec);
  return sounding.filter(({ timeSec }, i) => i === 0 || timeSec - sounding[i - 1]!.timeSec > TOGETHER_SEC);
}

const candidateOf = ({ timeSec, levelDb }: Onset, surface: string): Candidate => ({
  timeSec,
  strength: 2,
  volumeDb: levelDb,
  confidence: 0.95,
  drumOdds: { kick: 0.02, tom: 0.02, snare: 0.02, pad: 0.02, cymbal: 0.02, [kindOf(surface)]: 0.92 },
});

function kindOf(surface: string): DrumKind {
  const voice = voiceOf(surface);
  if (voice === 'kick' || voice === 'pad') return voice;
  if (voice.includes('tom')) return 'tom';
  return ['snare', 'rim', 'cross-stick'].includes(voice) ? 'snare' : 'cymbal';
}
