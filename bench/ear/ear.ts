/** Runs the ear and its rivals over the annotated takes in turns and prints the columns of EAR.md, where errors sit, and the speed. `npm run bench:ear` */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { writeWav } from '../../core/src/take/index.ts';
import { budgetPlot, budgetTables, confidenceBins, confidenceTable } from './budget.ts';
import { columnsOf, type Row } from './columns.ts';
import { aubio, blind, control, type Detector, essentia, told } from './detectors.ts';
import { constantMs, type Judged, scoreWindow } from './scorer.ts';
import { HEAR_FLAG, hearFile, speedTable } from './speed.ts';
import { type AnnotatedTake, readAnnotatedTakes, referenceTakes } from './takes.ts';

const asked = process.argv.indexOf(HEAR_FLAG);
if (asked > 0) hearFile(process.argv[asked + 1]!);
else bench();

function bench(): void {
  const takes = readAnnotatedTakes(referenceTakes);
  if (!takes) {
    console.log('The annotated takes (../shared/reference/takes) are not there: nothing to measure.');
    return;
  }
  const folder = mkdtempSync(join(tmpdir(), 'evenhand-ear-'));
  try {
    const rivals = [...aubio(), ...essentia(folder)];
    report(judge(takes, [blind, told, ...rivals, control], folder));
    if (rivals.length > 0) console.log(['', ...speedTable(takes, join(folder, 'long.wav'), fileURLToPath(import.meta.url))].join('\n'));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

type Results = ReadonlyMap<Detector, Judged[]>;

function judge(takes: readonly AnnotatedTake[], detectors: readonly Detector[], folder: string): Results {
  const judged = new Map(detectors.map((detector) => [detector, [] as Judged[]]));
  for (const take of takes) {
    const wav = join(folder, `${take.id}.wav`);
    writeFileSync(wav, writeWav(take.take.samples, take.take.clock.sampleRateHz, { bits: 16 }));
    for (const detector of detectors) judged.get(detector)!.push({ truth: take.truth, detections: detector.detect(take, wav) });
  }
  return judged;
}

function report(results: Results): void {
  const load = loadavg()[0]!.toFixed(0);
  console.log(`${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model ?? 'unknown processor'}, Node ${process.versions.node}, load ${load}\n`);
  console.log('| detector | F ±25 | F ±10 | F ±5 | F ±5, smr ≥ 0 | slot bias ms | of the sure | MAD ms | filled | level dB |');
  console.log('| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |');
  for (const [{ name }, judged] of results) console.log(rowText(name, columnsOf(judged)));
  const [own, ownTold] = [results.get(blind)!, results.get(told)!];
  console.log('\nF ±5 per take, blind and told:');
  for (const [i, take] of own.entries()) {
    console.log(`- ${take.truth.id}: ${takeText(take, constantMs(own))}; ${takeText(ownTold[i]!, constantMs(ownTold))}`);
  }
  for (const [{ name }, judged] of [...results].slice(0, 2)) console.log(['', ...budgetTables(name, judged, constantMs(judged))].join('\n'));
  const bins = confidenceBins(own, constantMs(own));
  console.log(['\nConfidence of blind strokes (the weights saw these takes):', '', ...confidenceTable(bins)].join('\n'));
  writeFileSync('bench/ear/errors.svg', budgetPlot(ownTold, bins, constantMs(ownTold)));
}

function takeText(take: Judged, shiftMs: number): string {
  const { f, falseAlarms, misses } = scoreWindow([take], 5, { shiftMs });
  return `${f.toFixed(3)} (${falseAlarms} false, ${misses} missed)`;
}

function rowText(name: string, row: Row): string {
  const f = (value: number) => value.toFixed(3);
  const cells = [name, f(row.f25), f(row.f10), f(row.f5), f(row.f5Heard), row.slotBias.toFixed(2), row.slotBiasSure.toFixed(2), row.mad.toFixed(2)];
  return `| ${[...cells, row.filled, row.levelError?.toFixed(2) ?? ''].join(' | ')} |`;
}
