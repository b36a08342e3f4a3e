/** Runs the ear and, where it is installed, aubio over the annotated takes and prints the columns of EAR.md. `npm run bench:ear` */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { hear } from '../../core/src/stroke/index.ts';
import { writeWav } from '../../core/src/take/index.ts';
import { columnsOf, type Row } from './columns.ts';
import { constantMs, type Judged, scoreWindow } from './scorer.ts';
import { type AnnotatedTake, readAnnotatedTakes, referenceTakes } from './takes.ts';

interface Detector {
  readonly name: string;
  readonly detect: (take: AnnotatedTake, wav: string) => Judged['detections'];
}

const aubio = (name: string, ...options: readonly string[]): Detector => ({
  name: `aubioonset ${name}`,
  detect: (_, wav) =>
    execFileSync('aubioonset', ['-i', wav, ...options], { encoding: 'utf8' })
      .split('\n')
      .filter(Boolean)
      .map((line) => ({ timeSec: Number.parseFloat(line) })),
});

const ear: Detector = {
  name: 'Evenhand, blind',
  detect: ({ take, truth }) => hear(take, { clickTimesSec: truth.clicks }).strokes,
};
const rivals = [
  aubio('default (hfc, 1024/512)', '-B', '1024', '-H', '512'),
  aubio('specflux .08, 512/128', '-O', 'specflux', '-t', '0.08', '-B', '512', '-H', '128'),
  aubio('energy 1.0, 512/128', '-O', 'energy', '-t', '1.0', '-B', '512', '-H', '128'),
];

const takes = readAnnotatedTakes(referenceTakes);
if (!takes) {
  console.log('The annotated takes (../shared/reference/takes) are not there: nothing to measure.');
  process.exit(0);
}
const folder = mkdtempSync(join(tmpdir(), 'evenhand-ear-'));
try {
  const installed = spawnSync('aubioonset', ['--help']).error === undefined;
  const detectors = installed ? [ear, ...rivals] : [ear];
  if (!installed) console.log('aubioonset is not installed: its rows are left out.');
  const judged = new Map(detectors.map(({ name }) => [name, [] as Judged[]]));
  const seconds = new Map(detectors.map(({ name }) => [name, 0]));
  for (const take of takes) {
    const wav = join(folder, `${take.id}.wav`);
    writeFileSync(wav, writeWav(take.take.samples, take.take.clock.sampleRateHz, { bits: 16 }));
    for (const { name, detect } of detectors) {
      const started = process.hrtime.bigint();
      const detections = detect(take, wav);
      seconds.set(name, seconds.get(name)! + Number(process.hrtime.bigint() - started) / 1e9);
      judged.get(name)!.push({ truth: take.truth, detections });
    }
  }
  report(judged, seconds);
} finally {
  rmSync(folder, { recursive: true, force: true });
}

function report(judged: ReadonlyMap<string, Judged[]>, seconds: ReadonlyMap<string, number>): void {
  const audioSec = takes!.reduce((sum, { take }) => sum + take.samples.length / take.clock.sampleRateHz, 0);
  console.log(`${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model ?? 'unknown processor'}, Node ${process.versions.node}\n`);
  console.log('| detector | F ±25 | F ±10 | F ±5 | F ±5, smr ≥ 0 | slot bias ms | of the sure | MAD ms | filled | level dB | × real time |');
  console.log('| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |');
  for (const [name, results] of judged) console.log(rowText(name, columnsOf(results), audioSec / seconds.get(name)!));
  console.log('\nF ±5 per take, Evenhand:');
  const own = judged.get(ear.name)!;
  const shiftMs = constantMs(own);
  for (const take of own) {
    const { f, falseAlarms, misses } = scoreWindow([take], 5, { shiftMs });
    console.log(`- ${take.truth.id}: ${f.toFixed(3)} (${falseAlarms} false, ${misses} missed)`);
  }
}

function rowText(name: string, row: Row, speed: number): string {
  const f = (value: number) => value.toFixed(3);
  const cells = [name, f(row.f25), f(row.f10), f(row.f5), f(row.f5Heard), row.slotBias.toFixed(2), row.slotBiasSure.toFixed(2), row.mad.toFixed(2)];
  return `| ${[...cells, row.filled, row.levelError?.toFixed(2) ?? '', speed.toFixed(0)].join(' | ')} |`;
}
