/** Proof: 100 exercises played by our own drums, heard by our own ear and by aubio, which runs as a process of its own when it is installed. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type ExerciseContent, expectedCycle } from '../../core/src/exercise/index.ts';
import { seededRandom } from '../../core/src/random.ts';
import { bouncesOf, gracesOf, renderExercise } from '../../core/src/sound/index.ts';
import { hear } from '../../core/src/stroke/index.ts';
import { fileClock, writeWav } from '../../core/src/take/index.ts';
import { wholeSlots } from './expected.ts';
import { cutSample, sampleOf } from './sample.ts';

const RATE_HZ = 44_100;
const LEAD_SEC = 0.3;
/** Strokes nearer than this are one onset: what the exercise plays together is written at one time exactly. */
const TOGETHER_SEC = 1e-6;
/** Asked of the ear. */
const EAR_SEC = 0.001;
/** Asked of aubio: strokes this far from any other. */
const APART_SEC = 0.1;
/** Within this aubio has found a stroke: the tolerance of onset evaluations (MIREX, FACTS.md 3). */
const AUBIO_SEC = 0.05;
const EAR_SHARE = 0.99;
const AUBIO_SHARE = 0.95;

interface Onset {
  readonly timeSec: number;
  /** A main stroke that does not buzz: what has to be heard. Others only tell how near something else sounds. */
  readonly counts: boolean;
  readonly names: string;
}

interface Played {
  readonly content: ExerciseContent;
  readonly tempoBpm: number;
  readonly samples: Float32Array;
  readonly onsets: readonly Onset[];
}

function play(content: ExerciseContent, tempoBpm: number, seed: number): Played {
  const cycle = expectedCycle(content);
  const { slots, cycle: cycleSlots } = wholeSlots(content);
  const cycles = slots / cycleSlots;
  const samples = renderExercise(cycle, { tempoBpm, cycles, sampleRateHz: RATE_HZ, random: seededRandom(seed), leadSec: LEAD_SEC });
  const secOf = (beats: number) => LEAD_SEC + (beats * 60) / tempoBpm;
  const onsets = Array.from({ length: cycles }, (_, i) => (i * cycleSlots) / content.perBeat).flatMap((from) =>
    cycle.strokes.flatMap(({ beat, buzz, graceCount, surface, ghost }): Onset[] => {
      const timeSec = secOf(from + beat.num / beat.den);
      const beside = [...gracesOf(graceCount), ...bouncesOf(buzz)].map(({ offsetSec }) => ({
        timeSec: timeSec + offsetSec,
        counts: false,
        names: 'small',
      }));
      return [...beside, { timeSec, counts: !buzz, names: `${surface}${ghost ? ' ghost' : ''}` }];
    }),
  );
  return { content, tempoBpm, samples, onsets: merged(onsets) };
}

/** Strokes together are one onset, which counts when one of them does. */
function merged(onsets: readonly Onset[]): readonly Onset[] {
  const all: Onset[] = [];
  for (const onset of [...onsets].sort((a, b) => a.timeSec - b.timeSec)) {
    const last = all.at(-1);
    if (!last || onset.timeSec - last.timeSec > TOGETHER_SEC) all.push(onset);
    else all[all.length - 1] = { ...last, counts: last.counts || onset.counts, names: `${last.names}+${onset.names}` };
  }
  return all;
}

const isNear = (times: readonly number[], timeSec: number, withinSec: number): boolean => times.some((time) => Math.abs(time - timeSec) <= withinSec);
const percent = (part: number, of: number): string => `${((100 * part) / of).toFixed(2)} % (${part} of ${of})`;

const lines: string[] = [];
const line = (text: string): void => {
  lines.push(text.trim());
};

const tempi = seededRandom(11);
const played = [...sampleOf(90, 77), ...cutSample().slice(0, 10)].map(({ content }, i) => play(content, 50 + Math.round(50 * tempi()), i + 1));

const missed = new Map<string, number>();
let [found, of, extra] = [0, 0, 0];
for (const { samples, onsets } of played) {
  const { strokes } = hear({ samples, clock: fileClock(RATE_HZ) });
  const heard = strokes.map(({ timeSec }) => timeSec);
  for (const { timeSec, counts, names } of onsets) {
    if (!counts) continue;
    of += 1;
    if (isNear(heard, timeSec, EAR_SEC)) found += 1;
    else missed.set(names, (missed.get(names) ?? 0) + 1);
  }
  const all = onsets.map(({ timeSec }) => timeSec);
  extra += heard.filter((time) => !isNear(all, time, 0.02)).length;
}
line(`100 exercises (90 of the families, 10 phrases with groups), 50 to 100 beats a minute, dry, ${of} onsets of main strokes that do not buzz.\n`);
line(`our own ear, within 1 ms: ${percent(found, of)}; asked: 99 %. Further strokes heard where nothing sounds: ${extra}`);
const most = [...missed].sort((a, b) => b[1] - a[1]).slice(0, 8);
if (most.length > 0) line(`not heard within 1 ms: ${most.map(([names, count]) => `${names} ${count}`).join(', ')}`);

/** aubio's onsets of a sound, seconds. */
function aubioTimes(samples: Float32Array, file: string): readonly number[] {
  writeFileSync(file, writeWav(samples, RATE_HZ, { bits: 16 }));
  const { stdout } = spawnSync('aubioonset', ['-i', file, '-r', String(RATE_HZ), '-B', '512', '-H', '128'], { encoding: 'utf8' });
  return stdout.split('\n').filter(Boolean).map(Number);
}

let aubio: boolean | null = null;
if (spawnSync('aubioonset', ['--help']).error) line('aubio: not here, nothing was asked of it');
else {
  const folder = mkdtempSync(join(tmpdir(), 'evenhand-heard-'));
  let [apart, heard] = [0, 0];
  const lost = new Map<string, number>();
  for (const { samples, onsets } of played) {
    const times = aubioTimes(samples, join(folder, 'played.wav'));
    onsets.forEach(({ timeSec, counts, names }, i) => {
      const gap = Math.min(timeSec - (onsets[i - 1]?.timeSec ?? -1), (onsets[i + 1]?.timeSec ?? Number.POSITIVE_INFINITY) - timeSec);
      if (!counts || gap <= APART_SEC) return;
      apart += 1;
      if (isNear(times, timeSec, AUBIO_SEC)) heard += 1;
      else lost.set(names, (lost.get(names) ?? 0) + 1);
    });
  }
  rmSync(folder, { recursive: true, force: true });
  aubio = heard / apart >= AUBIO_SHARE;
  line(`- aubio (aubioonset, windows of 512, hops of 128), of those over 100 ms from any other, within 50 ms: ${percent(heard, apart)}; asked: 95 %`);
  const mostLost = [...lost].sort((a, b) => b[1] - a[1]).slice(0, 8);
  if (mostLost.length > 0) line(`not found by aubio: ${mostLost.map(([names, count]) => `${names} ${count}`).join(', ')}`);
}
console.log(lines.join('; '));
if (found / of < EAR_SHARE || aubio === false) process.exitCode = 1;
