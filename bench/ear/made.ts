/** The ear on takes that nothing was fitted to: our own simulated drummer and drums, in rooms and noise. `node bench/run.mjs bench/ear/made.ts` */
import { writeFileSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { type ExpectedCycle, expectedCycle, readContent } from '../../core/src/exercise/index.ts';
import { measure } from '../../core/src/measurement/index.ts';
import { type PerformedStroke, performTake, type Room, styles } from '../../core/src/player/index.ts';
import { seededRandom } from '../../core/src/random.ts';
import { readSticking } from '../../core/src/sticking/index.ts';
import { hear } from '../../core/src/stroke/index.ts';
import { fileClock } from '../../core/src/take/index.ts';
import { matchTimes } from './scorer.ts';

const RATE_HZ = 44_100;
const STROKES_PER_TAKE = 110;

const PHRASES = [
  { sticking: 'RLRRK', perBeat: 4, tempoBpm: 104 },
  { sticking: 'RLRLKK', perBeat: 4, tempoBpm: 92 },
  { sticking: 'RLRRLRLL', perBeat: 4, tempoBpm: 120 },
  { sticking: 'RRLL', perBeat: 4, tempoBpm: 110 },
  { sticking: 'RLL', perBeat: 3, tempoBpm: 96 },
  { sticking: 'RRK', perBeat: 6, tempoBpm: 84 },
  { sticking: 'RLRLRRLL', perBeat: 4, tempoBpm: 100 },
  { sticking: 'RLKRLK', perBeat: 6, tempoBpm: 76 },
  { sticking: 'R>LLRRL', perBeat: 6, tempoBpm: 80 },
  { sticking: 'RLRLRK', perBeat: 6, tempoBpm: 72 },
  { sticking: 'RKRLK', perBeat: 4, tempoBpm: 88 },
  { sticking: 'RLRK', perBeat: 2, tempoBpm: 132 },
] as const;

const PLACES: readonly { readonly name: string; readonly room?: Room; readonly noiseDb: number }[] = [
  { name: 'dry, noise −72 dB', noiseDb: -72 },
  { name: 'a room of .3 s, noise −55 dB', room: { decaySec: 0.3, directDb: 8, delaySec: 0.004 }, noiseDb: -55 },
  { name: 'a room of .6 s, noise −45 dB', room: { decaySec: 0.6, directDb: 6, delaySec: 0.008 }, noiseDb: -45 },
];

interface Count {
  readonly strokes: number;
  readonly hits: number;
  readonly falseAlarms: number;
}

const within5Ms = (truth: readonly number[], heard: readonly number[]): Count => {
  const hits = matchTimes(truth, heard, 0.005).length;
  return { strokes: truth.length, hits, falseAlarms: heard.length - hits };
};

function cycleOf({ sticking, perBeat }: (typeof PHRASES)[number]): ExpectedCycle {
  return expectedCycle(readContent(readSticking(sticking).value!, { perBeat }).value!);
}

/** One take heard twice: told nothing, and told what was to be played. */
function heardTake(phrase: (typeof PHRASES)[number], place: (typeof PLACES)[number], seed: number) {
  const cycle = cycleOf(phrase);
  const { tempoBpm } = phrase;
  const { room, noiseDb } = place;
  const cycles = Math.ceil(STROKES_PER_TAKE / cycle.strokes.length);
  const options = { tempoBpm, cycles, style: styles.intermediate, startSec: 1, sampleRateHz: RATE_HZ, noiseDb, random: seededRandom(seed) };
  const { samples, strokes } = performTake(cycle, { ...options, ...(room ? { room } : {}) });
  const { strokes: blind, candidates, loudness } = hear({ samples, clock: fileClock(RATE_HZ) });
  const told = measure(candidates, cycle, { tempoBpm, durationSec: samples.length / RATE_HZ, ...(loudness ? { loudness } : {}) }).value;
  const toldTimes = [...(told?.strokes.flatMap(({ playedSec }) => playedSec ?? []) ?? []), ...(told?.extra.map(({ timeSec }) => timeSec) ?? [])];
  const truth = strokes.map(({ timeSec }: PerformedStroke) => timeSec).sort((a, b) => a - b);
  return {
    blind: within5Ms(
      truth,
      blind.map(({ timeSec }) => timeSec),
    ),
    told: within5Ms(
      truth,
      [...toldTimes].sort((a, b) => a - b),
    ),
    toldMissed: told?.strokes.filter(({ status }) => status === 'missed').length ?? 0,
  };
}

const sum = (values: readonly number[]): number => values.reduce((all, value) => all + value, 0);

function cells(counts: readonly Count[]): string {
  const [strokes, hits, falseAlarms] = (['strokes', 'hits', 'falseAlarms'] as const).map((field) => sum(counts.map((count) => count[field]))) as [
    number,
    number,
    number,
  ];
  return `${((2 * hits) / (strokes + hits + falseAlarms)).toFixed(3)} (${strokes - hits} not found, ${falseAlarms} false)`;
}

const heard = PLACES.map((place, p) => PHRASES.map((phrase, i) => heardTake(phrase, place, 700 + 12 * p + i)));
const row = (name: string, takes: readonly ReturnType<typeof heardTake>[]): string =>
  `| ${name} | ${sum(takes.map(({ blind }) => blind.strokes))} | ${cells(takes.map(({ blind }) => blind))} | ${cells(takes.map(({ told }) => told))} | ${sum(takes.map(({ toldMissed }) => toldMissed))} |`;

const text = [
  '# The ear on made takes',
  '',
  `${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model.trim()}, Node ${process.versions.node}, load ${loadavg()[0]!.toFixed(0)}. Made by \`node bench/run.mjs bench/ear/made.ts\`: ${PHRASES.length} stickings in ${PLACES.length} places, the simulated drummer (intermediate) on our own drums; nothing was fitted to them and none is left out. They are far easier than the development takes. F ±5, blind and told.`,
  '',
  '| place | strokes | blind | told | played strokes told missed |',
  '| --- | --- | --- | --- | --- |',
  ...PLACES.map(({ name }, p) => row(name, heard[p]!)),
  row('all', heard.flat()),
].join('\n');
console.log(text);
writeFileSync('bench/ear/made.md', `${text}\n`);
