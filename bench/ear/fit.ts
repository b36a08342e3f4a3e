/** Learns the odds of stroke/parameters.ts from the annotated takes, and tells how they do on takes left out of the learning. */

import { writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { seededRandom } from '../../core/src/random.ts';
import { hearRaw } from '../../core/src/stroke/ear.ts';
import { calibrated, featuresOf, withShareOfTake } from '../../core/src/stroke/judge.ts';
import * as P from '../../core/src/stroke/parameters.ts';
import { fileClock, type Take } from '../../core/src/take/index.ts';
import { fMeasure, outcomesOf, sounding } from './scorer.ts';
import { readAnnotatedTakes, referenceTakes } from './takes.ts';

/** Sample rates and gaps of the made takes; no gap, no strokes. */
const MADE = [
  { rate: 16000, gapSec: 0.15 },
  { rate: 44100, gapSec: 0 },
  { rate: 44100, gapSec: 0.6 },
  { rate: 44100, gapSec: 0.3 },
  { rate: 8000, gapSec: 0.31 },
  { rate: 44100, gapSec: 0.06 },
];

type Features = Record<string, number>;
interface Row {
  readonly take: string;
  readonly x: number[];
  readonly hit: boolean;
}

const takes = readAnnotatedTakes(referenceTakes)!;
let names: string[] = [];
const rows: Row[] = [];
for (const { take, truth, id } of takes) {
  const raw = hearRaw(take, { clickTimesSec: truth.clicks });
  const { outcomes } = outcomesOf({ truth, detections: raw }, 0.005);
  const hits = new Set(outcomes.map(({ detection }) => detection));
  for (const candidate of raw) {
    const features: Features = featuresOf(candidate);
    names = Object.keys(features);
    rows.push({ take: id, x: [...Object.values(features), 1], hit: hits.has(candidate) });
  }
}

/** Hiss alone, and hiss with a few plain strokes: an ear that hears strokes in noise is no use in a rest. */
for (let seed = 1; seed <= 18; seed++) {
  const { take, times } = madeTake(seed);
  for (const candidate of hearRaw(take)) {
    const hit = times.some((time) => Math.abs(time - candidate.timeSec) < 0.005);
    rows.push({ take: 'made', x: [...Object.values(featuresOf(candidate)), 1], hit });
  }
}

/** Weights of a logistic regression by Newton's method, with a little ridge on all but the constant. */
const logistic = (data: readonly Row[]): number[] => {
  const size = data[0]!.x.length;
  const weights = new Array<number>(size).fill(0);
  for (let round = 0; round < 25; round++) {
    const system = Array.from({ length: size }, (_, i) => {
      const ridge = i < size - 1 ? 1 : 0;
      return [...Array.from({ length: size }, (_, j) => (i === j ? ridge : 0)), -ridge * weights[i]!];
    });
    for (const row of data) addToSystem(system, row, weights);
    solve(system).forEach((step, i) => {
      weights[i]! += step;
    });
  }
  return weights;
};

const dot = (x: readonly number[], weights: readonly number[]) => x.reduce((sum, v, i) => sum + v * weights[i]!, 0);

const addToSystem = (system: number[][], { x, hit }: Row, weights: readonly number[]): void => {
  const p = 1 / (1 + Math.exp(-dot(x, weights)));
  const weight = p * (1 - p) + 1e-9;
  for (let i = 0; i < x.length; i++) {
    for (let j = 0; j < x.length; j++) system[i]![j]! += weight * x[i]! * x[j]!;
    system[i]![x.length]! += x[i]! * ((hit ? 1 : 0) - p);
  }
};

/** Gaussian elimination of a matrix with its right side as last column. */
const solve = (m: number[][]): number[] => {
  const n = m.length;
  for (let c = 0; c < n; c++) {
    let pivot = c;
    for (let r = c; r < n; r++) if (Math.abs(m[r]![c]!) > Math.abs(m[pivot]![c]!)) pivot = r;
    [m[c], m[pivot]] = [m[pivot]!, m[c]!];
    for (let r = 0; r < n; r++) {
      if (r === c) continue;
      const factor = m[r]![c]! / m[c]![c]!;
      for (let k = c; k <= n; k++) m[r]![k]! -= factor * m[c]![k]!;
    }
  }
  return m.map((row, i) => row[n]! / row[i]!);
};

const left = takes.map(({ id, truth }) => {
  const others = rows.filter((r) => r.take !== id);
  const w = logistic(others);
  const own = rows.filter((r) => r.take === id);
  const probabilities = withShareOfTake(own.map(({ x }) => dot(x, w)));
  return { id, own, probabilities, count: sounding(truth).length };
});
const lines: string[] = [];
for (const limit of [0.35, 0.4, 0.45, 0.5, 0.55, 0.6]) {
  let hits = 0,
    picked = 0,
    count = 0;
  const each = left.map(({ own, probabilities, count: n }) => {
    const h = own.filter((r, i) => r.hit && probabilities[i]! >= limit).length;
    const k = probabilities.filter((p) => p >= limit).length;
    hits += h;
    picked += k;
    count += n;
    return fMeasure(h, k - h, n - h).f.toFixed(2);
  });
  lines.push(`left out, limit ${limit}: F5 ${fMeasure(hits, picked - hits, count - hits).f.toFixed(4)}  ${each.join(' ')}`);
}
const w = logistic(rows);
lines.push(
  `export const ODDS = { ${names.map((name, i) => `${name}: ${w[i]!.toFixed(3)}`).join(', ')}, constant: ${w.at(-1)!.toFixed(3)} } as const;`,
);
lines.push(`STROKE_SHARE ${(rows.filter((r) => r.hit).length / rows.length).toFixed(3)} (now ${P.STROKE_SHARE})`);

/** Strokes of the takes left out: how sure each was said to be, and whether it was within 5 ms of a true one. */
const strokes = left
  .flatMap(({ own, probabilities }) => own.map(({ hit }, i) => ({ hit, probability: probabilities[i]!, said: calibrated(probabilities[i]!) })))
  .filter(({ probability, said }) => probability >= P.STROKE_PROBABILITY && said >= 0.5)
  .sort((a, b) => a.said - b.said);

/** A row per bin: mean of what was said, share that came true, how many. */
const binRows = (bins: readonly (typeof strokes)[]): string[] =>
  bins.map((bin) => {
    const said = bin.reduce((sum, stroke) => sum + stroke.said, 0) / bin.length;
    return `| ${said.toFixed(2)} | ${(bin.filter(({ hit }) => hit).length / bin.length).toFixed(2)} | ${bin.length} |`;
  });
const TEN = Array.from({ length: 10 }, (_, i) => i);
const byWidth = TEN.map((i) => strokes.filter(({ said }) => Math.min(9, Math.floor(20 * (said - 0.5))) === i));
const byCount = TEN.map((i) => strokes.slice(Math.floor((i * strokes.length) / 10), Math.floor(((i + 1) * strokes.length) / 10)));
const text = [
  '# Learning the odds',
  '',
  `${new Date().toISOString().slice(0, 10)}, ${cpus()[0]?.model ?? 'unknown processor'}, Node ${process.versions.node}. Made by \`npm run bench:ear:fit\`: each take judged by weights learnt on the other eleven and on made hiss. The other settings were chosen with all twelve in sight. Per limit of the odds: F ±5 of all, then of D01 to D12; then the weights learnt on all.`,
  '',
  '```',
  ...lines,
  '```',
  '',
  'Confidence of strokes on takes left out of the learning (before what could be hiss is capped), in ten bins of equal width, .05 each:',
  '',
  '| said, mean | within 5 ms | strokes |',
  '| --- | --- | --- |',
  ...binRows(byWidth.filter(({ length }) => length > 0)),
  '',
  'The same in ten bins of as many strokes each:',
  '',
  '| said, mean | within 5 ms | strokes |',
  '| --- | --- | --- |',
  ...binRows(byCount),
].join('\n');
console.log(text);
writeFileSync('bench/ear/fit.md', `${text}\n`);

function madeTake(seed: number): { take: Take; times: number[] } {
  const { rate, gapSec } = MADE[seed % MADE.length]!;
  const random = seededRandom(seed);
  const bipolar = () => 2 * random() - 1;
  const samples = new Float32Array(6 * rate);
  let slow = 0;
  for (let i = 0; i < samples.length; i++) {
    slow = 0.95 * slow + 0.05 * bipolar();
    samples[i] = 0.003 * (seed === 3 ? 4 * slow : bipolar());
  }
  const times = gapSec ? Array.from({ length: Math.floor(4.5 / gapSec) }, (_, i) => 0.7 + gapSec * (i + 0.05 * random())) : [];
  for (const time of times) {
    const at = Math.round(time * rate);
    for (let i = 0; i < 0.09 * rate; i++) samples[at + i]! += 0.3 * (i === 0 ? 0.8 : bipolar()) * Math.exp(-i / (0.015 * rate));
  }
  return { take: { samples, clock: fileClock(rate) }, times };
}
