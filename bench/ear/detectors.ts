/** Everything the bench lets listen: our ear, told the sticking and not, its rivals, and a control that hears nothing. */
import { execFileSync, spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { ExpectedCycle } from '../../core/src/exercise/index.ts';
import { type MeasureOptions, measure } from '../../core/src/measurement/index.ts';
import { type Heard, hear } from '../../core/src/stroke/index.ts';
import { cycleOfTruth, type Truth as ListenTruth } from '../listen/takes.ts';
import type { Detection } from './scorer.ts';
import type { AnnotatedTake } from './takes.ts';

/** One row of the table. `wav` is the take as a file, for programs of their own. */
export interface Detector {
  readonly name: string;
  readonly detect: (take: AnnotatedTake, wav: string) => readonly Detection[];
}

export const blind: Detector = {
  name: 'Evenhand, blind',
  detect: ({ take, truth }) => hear(take, { clickTimesSec: truth.clicks }).strokes,
};

/** As `listen` is told: the sticking, its tempo, the clicks. */
export const told: Detector = {
  name: 'Evenhand, told the sticking',
  detect: ({ take, truth }) => {
    const { tempoBpm, durationSec, clicks } = truth as ListenTruth;
    return toldDetections(hear(take, { clickTimesSec: clicks }), cycleOfTruth(truth as ListenTruth), {
      tempoBpm,
      durationSec,
      clickTimesSec: clicks,
    });
  },
};

/** What the measurement made of what was heard: main strokes played, their graces, and extra ones, in rising time. */
export function toldDetections({ candidates, loudness }: Heard, cycle: ExpectedCycle, options: MeasureOptions): Detection[] {
  const value = measure(candidates, cycle, { ...options, ...(loudness ? { loudness } : {}) }).value;
  const mains = value?.strokes.flatMap((stroke): Detection[] => {
    const graces = stroke.graces.map(({ playedSec, levelDb }) => ({ timeSec: playedSec, levelDb }));
    if (stroke.playedSec === null || stroke.levelDb === null) return graces;
    return [...graces, { timeSec: stroke.playedSec, levelDb: stroke.levelDb, confidence: stroke.confidence }];
  });
  return [...(mains ?? []), ...(value?.extra ?? [])].sort((a, b) => a.timeSec - b.timeSec);
}

/** Prints the true grid, left-out strokes included: what an ear that hears no single stroke would score. */
export const control: Detector = {
  name: 'control: the grid, no listening',
  detect: ({ truth }) =>
    truth.strokes
      .filter(({ extra }) => !extra)
      .map(({ gridTime }) => ({ timeSec: gridTime }))
      .sort((a, b) => a.timeSec - b.timeSec),
};

const AUBIO = {
  'default (hfc, 1024/512)': [],
  'specflux .08, 512/128': ['-O', 'specflux', '-t', '0.08', '-B', '512', '-H', '128'],
  'energy 1.0, 512/128': ['-O', 'energy', '-t', '1.0', '-B', '512', '-H', '128'],
} as const;

/** aubio 0.4.9 in the settings of EAR.md; empty where Debian's aubio-tools are not installed. */
export const aubio = (): Detector[] =>
  spawnSync('aubioonset', ['--help']).error
    ? []
    : Object.entries(AUBIO).map(([name, options]) => ({
        name: `aubioonset ${name}`,
        detect: (_, wav) => timesIn(execFileSync('aubioonset', ['-i', wav, ...options], { encoding: 'utf8' })),
      }));

const timesIn = (text: string): Detection[] =>
  text
    .split('\n')
    .filter(Boolean)
    .map((line) => ({ timeSec: Number.parseFloat(line) }));

/** Runs in a process and a folder of its own: essentia.js is AGPL and no part of the product. It takes 44.1 kHz for granted. */
const ESSENTIA = `
import { createRequire } from 'node:module';
import { readFileSync } from 'node:fs';
const { Essentia, EssentiaWASM } = createRequire(import.meta.url)('essentia.js');
const essentia = new Essentia(EssentiaWASM);
const bytes = readFileSync(process.argv[2]);
const rate = bytes.readUInt32LE(24);
const whole = new Int16Array(bytes.buffer.slice(bytes.byteOffset + 44));
const samples = Float32Array.from({ length: Math.floor((whole.length * 44100) / rate) }, (_, i) => {
  const at = (i * rate) / 44100;
  const low = Math.floor(at);
  return (whole[low] + (at - low) * ((whole[low + 1] ?? 0) - whole[low])) / 32768;
});
const { onsets } = essentia.OnsetRate(essentia.arrayToVector(samples));
if (onsets.size() > 0) for (const time of essentia.vectorToArray(onsets)) console.log(time);
`;

/** Fetched into `folder` when the bench runs; none without a network. */
export const essentia = (folder: string): Detector[] => {
  const script = join(folder, 'onsets.mjs');
  writeFileSync(join(folder, 'package.json'), '{ "private": true }');
  writeFileSync(script, ESSENTIA);
  const installed = spawnSync('npm', ['install', 'essentia.js@0.1.3', '--no-audit', '--no-fund'], { cwd: folder, timeout: 120_000 });
  if (installed.status !== 0) return [];
  return [{ name: 'essentia.js 0.1.3 OnsetRate', detect: (_, wav) => timesIn(execFileSync('node', [script, wav], { encoding: 'utf8' })) }];
};
