/** Learns the odds of stroke/parameters.ts from the annotated takes, and tells how they do on takes left out of the learning. */

import { seededRandom } from '../../core/src/random.ts';
import { hearRaw } from '../../core/src/stroke/ear.ts';
import { featuresOf, withShareOfTake } from '../../core/src/stroke/judge.ts';
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
  console.log(`left out, limit ${limit}: F5 ${fMeasure(hits, picked - hits, count - hits).f.toFixed(4)}  ${each.join(' ')}`);
}
const w = logistic(rows);
console.log(
  `export const ODDS = { ${names.map((name, i) => `${name}: ${w[i]!.toFixed(3)}`).join(', ')}, constant: ${w.at(-1)!.toFixed(3)} } as const;`,
);
console.log(`STROKE_SHARE ${(rows.filter((r) => r.hit).length / rows.length).toFixed(3)} (now ${P.STROKE_SHARE})`);

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
