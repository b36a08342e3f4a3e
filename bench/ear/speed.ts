/** Speed by EAR.md's definition: one file of more than six minutes, process start and decoding included, alternated with aubio. */
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { hear } from '../../core/src/stroke/index.ts';
import { readWav, writeWav } from '../../core/src/take/index.ts';
import type { AnnotatedTake } from './takes.ts';

const ROUNDS = 3;
const RATE_HZ = 44_100;

/** What the bench starts itself anew with, to hear one file and nothing else. */
export const HEAR_FLAG = '--hear';

export const hearFile = (file: string): void => {
  const { value: take } = readWav(readFileSync(file));
  if (take) console.log(hear(take).strokes.length);
};

interface Timed {
  readonly name: string;
  readonly command: readonly string[];
}

/** Lines of a table: seconds of processor time (all threads) and on the clock, the best of three, and what share of real time that is. */
export const speedTable = (takes: readonly AnnotatedTake[], file: string, bundle: string): string[] => {
  const durationSec = writeLong(takes, file);
  const timed: Timed[] = [
    { name: 'Evenhand, blind', command: [process.execPath, bundle, HEAR_FLAG, file] },
    { name: 'aubioonset energy 1.0, 512/128', command: ['aubioonset', '-i', file, '-O', 'energy', '-t', '1.0', '-B', '512', '-H', '128'] },
  ];
  const runs = timed.map(() => [] as { wallSec: number; cpuSec: number }[]);
  for (let round = 0; round < ROUNDS; round++) {
    for (const [i, { command }] of timed.entries()) runs[i]!.push(timeOf(command));
  }
  return [
    `One WAV file of ${durationSec.toFixed(0)} s, process start and decoding included, best of ${ROUNDS} taken in turns:`,
    '',
    '| program | processor s | × real time by it | on the clock s | × real time by it |',
    '| --- | --- | --- | --- | --- |',
    ...timed.map(({ name }, i) => {
      const cpu = Math.min(...runs[i]!.map(({ cpuSec }) => cpuSec));
      const wall = Math.min(...runs[i]!.map(({ wallSec }) => wallSec));
      return `| ${name} | ${cpu.toFixed(2)} | ${(durationSec / cpu).toFixed(0)} | ${wall.toFixed(2)} | ${(durationSec / wall).toFixed(0)} |`;
    }),
  ];
};

/** All takes twice in a row, those of another rate read as if they were of this one: the work is the same. */
const writeLong = (takes: readonly AnnotatedTake[], file: string): number => {
  const twice = [...takes, ...takes].map(({ take }) => take.samples);
  const samples = new Float32Array(twice.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of twice) {
    samples.set(part, at);
    at += part.length;
  }
  writeFileSync(file, writeWav(samples, RATE_HZ, { bits: 16 }));
  return samples.length / RATE_HZ;
};

/** The shell's own clock counts what a finished program used. */
const timeOf = (command: readonly string[]): { wallSec: number; cpuSec: number } => {
  const { stderr } = spawnSync('bash', ['-c', 'TIMEFORMAT="%R %U %S"; time "$@" > /dev/null', 'bash', ...command], { encoding: 'utf8' });
  const [wallSec, userSec, systemSec] = stderr.trim().split('\n').at(-1)!.split(' ').map(Number);
  return { wallSec: wallSec!, cpuSec: userSec! + systemSec! };
};
