/** Runs the ear and its rivals over the annotated takes in turns and prints the columns of EAR.md, where errors sit, and the speed. `npm run bench:ear` */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { writeWav } from '../../core/src/take/index.ts';
import { budgetPlot, budgetTables, confidenceBins, confidenceTable } from './budget.ts';
import { columnsOf, type Row } from './columns.ts';
import { aubio, blind, control, type Detector, essentia, told } from './detectors.ts';
import { differing, ownFigures, theirFigures } from './evaluated.ts';
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
    const results = judge(takes, [blind, told, ...rivals, control], folder);
    const speeds = rivals.length > 0 ? ['', ...speedTable(takes, join(folder, 'long.wav'), fileURLToPath(import.meta.url))] : [];
    const text = [...heading(), ...report(results), ...speeds, '', ...agreement(results, folder)].join('\n');
    console.log(text);
    writeFileSync('bench/ear/results.md', `${text}\n`);
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

function heading(): string[] {
  return [
    '# How well the ear hears',
    '',
    `${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model ?? 'unknown processor'}, Node ${process.versions.node}, load ${loadavg()[0]!.toFixed(0)} on ${cpus().length} cores. Made by \`npm run bench:ear\`, our ear and its rivals in turns, take by take.`,
    '',
    'F after one constant per detector is taken out, slot bias as RMS over places of at least five strokes; "of the sure": medians, strokes of confidence ≥ .5 only; the other columns are defined in docs/ear.md. Development takes D01–D12, 181 s, 1,603 strokes, 23 missed; the ear was tuned on them, so for new takes expect the figures of the takes left out of the learning (fit.md). The clicks’ times of D10 and D11 are told.',
    '',
  ];
}

function report(results: Results): string[] {
  const [own, ownTold] = [results.get(blind)!, results.get(told)!];
  const bins = confidenceBins(own, constantMs(own));
  writeFileSync('bench/ear/errors.svg', budgetPlot(ownTold, bins, constantMs(ownTold)));
  return [
    '| detector | F ±25 | F ±10 | F ±5 | F ±5, smr ≥ 0 | slot bias ms | of the sure | MAD ms | filled | level dB |',
    '| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |',
    ...[...results].map(([{ name }, judged]) => rowText(name, columnsOf(judged))),
    '',
    'F ±5 per take, blind and told:',
    ...own.map((take, i) => `- ${take.truth.id}: ${takeText(take, constantMs(own))}; ${takeText(ownTold[i]!, constantMs(ownTold))}`),
    ...[...results].slice(0, 2).flatMap(([{ name }, judged]) => ['', ...budgetTables(name, judged, constantMs(judged))]),
    '',
    'Confidence of blind strokes (the weights saw these takes):',
    '',
    ...confidenceTable(bins),
  ];
}

/** Whether `evaluate.py` tells the same of the same times. */
function agreement(results: Results, folder: string): string[] {
  const told = [...results].map(([{ name }, judged], i) => {
    const theirs = theirFigures(judged, join(folder, `times-${i}`));
    if (!theirs) return `- ${name}: not compared, there is no python3`;
    const off = differing(ownFigures(judged), theirs);
    return `- ${name}: ${off.length === 0 ? `all ${Object.keys(theirs).length} figures agree` : `these differ: ${off.join(', ')}`}`;
  });
  return [
    'The figures of `evaluate.py` beside the takes, on the same times (F, counts, medians and MAD in four windows, slot bias, filled, level):',
    ...told,
  ];
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
