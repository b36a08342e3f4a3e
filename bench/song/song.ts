/** Bench: the tempo and beats that are found in recordings whose tempo is known, beside aubio's. Writes bench/song/results.md. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { findBeats } from '../../core/src/song/index.ts';
import { writeWav } from '../../core/src/take/index.ts';
import { performances, RATE_HZ, type Recording, recordingOf } from './recordings.ts';

const LONGEST_SEC = 60;
/** A tempo is found when it is this near. @source [Gouyon2006] the usual tolerance of tempo induction */
const NEAR_SHARE = 0.04;
/** What one may count instead: half, double, in threes. @source [Gouyon2006] */
const OTHERS = [1, 2, 1 / 2, 3, 1 / 3, 3 / 2, 2 / 3];

const files = performances();
if (files.length === 0) {
  console.error('bench/song: ../shared/reference/groove-midi is not here');
  process.exit(2);
}

/** How far the beats found lie from the click, ms, median; near half a beat where the beat was taken for the offbeat. */
function phaseMs(beatsSec: readonly number[], tempoBpm: number): number {
  const beatSec = 60 / tempoBpm;
  const apart = beatsSec.map((sec) => (((((sec / beatSec + 0.5) % 1) + 1) % 1) - 0.5) * beatSec * 1000).sort((a, b) => a - b);
  return apart[Math.floor(apart.length / 2)]!;
}

/** aubio's tempo: the mean distance of its beats, null where it is not installed or finds none. */
function aubioTempo({ samples }: Recording, file: string): number | null {
  writeFileSync(file, writeWav(samples, RATE_HZ, { bits: 16 }));
  const { stdout, error } = spawnSync('aubio', ['beat', file], { encoding: 'utf8' });
  const beats = error ? [] : stdout.split('\n').map(Number.parseFloat).filter(Number.isFinite);
  const gaps = beats
    .slice(1)
    .map((sec, i) => sec - beats[i]!)
    .sort((a, b) => a - b);
  return gaps.length < 3 ? null : 60 / gaps[Math.floor(gaps.length / 2)]!;
}

const near = (found: number, truth: number): boolean => Math.abs(found / truth - 1) <= NEAR_SHARE;
const folder = mkdtempSync(join(tmpdir(), 'evenhand-song-'));
const rows = files.flatMap((file) => {
  const recording = recordingOf(file, LONGEST_SEC);
  const before = process.cpuUsage();
  const { value, problems } = findBeats(recording.samples, RATE_HZ, { beatsPerBar: recording.beatsPerBar });
  const { user, system } = process.cpuUsage(before);
  if (problems.some(({ code }) => code === 'song-short')) return [];
  const rival = aubioTempo(recording, join(folder, 'song.wav'));
  return [{ recording, value, rival, spentMs: (user + system) / 1000, lengthSec: recording.samples.length / RATE_HZ }];
});
rmSync(folder, { recursive: true, force: true });

const counted = (tempoOf: (row: (typeof rows)[number]) => number | null | undefined, factors: readonly number[]): number =>
  rows.filter((row) => factors.some((factor) => near(tempoOf(row) ?? 0, row.recording.tempoBpm * factor))).length;
const right = rows.filter(({ value, recording }) => value && near(value.tempoBpm, recording.tempoBpm));
const off = right.map(({ value, recording }) => Math.abs(value!.tempoBpm / recording.tempoBpm - 1) * 100).sort((a, b) => a - b);
const phases = right.map(({ value, recording }) => ({ ms: phaseMs(value!.beatsSec, recording.tempoBpm), beatMs: 60_000 / recording.tempoBpm }));
const onBeat = phases.filter(({ ms, beatMs }) => Math.abs(ms) < beatMs / 8).map(({ ms }) => ms);
const sorted = [...onBeat].sort((a, b) => a - b);
const speed = rows.reduce((sum, { lengthSec }) => sum + lengthSec, 0) / (rows.reduce((sum, { spentMs }) => sum + spentMs, 0) / 1000);
const ours = (row: (typeof rows)[number]) => row.value?.tempoBpm;
const aubio = (row: (typeof rows)[number]) => row.rival;
const share = (count: number, of: number): string => `${count} of ${of}`;
const lines = [
  '# Tempo of recordings to play over',
  '',
  `${new Date().toISOString().slice(0, 10)}, ${cpus()[0]!.model.trim()}, Node ${process.versions.node}. Made by \`npm run bench:song\` from ../shared/reference/groove-midi (Gillick et al. 2019, Groove MIDI Dataset, CC BY 4.0).`,
  '',
  `${rows.length} performances of drummers who heard a click, made sound by our own drums, the first ${LONGEST_SEC} s of each, mono, ${RATE_HZ} Hz; ${files.length - rows.length} more are shorter than 8 s, which is too short to look. The truth is the tempo of the click. Only drums: recordings with other instruments are not measured here.`,
  '',
  '| what | ours | aubio 0.4.9 |',
  '| --- | --- | --- |',
  `| the click’s tempo within 4 % | ${share(counted(ours, [1]), rows.length)} | ${share(counted(aubio, [1]), rows.length)} |`,
  `| … or half, double, three for one or two | ${share(counted(ours, OTHERS), rows.length)} | ${share(counted(aubio, OTHERS), rows.length)} |`,
  '',
  `Of ours that are right: off by ${off[Math.floor(off.length / 2)]!.toFixed(3)} % (median), ${off[Math.floor(off.length * 0.9)]!.toFixed(2)} % (90th percentile), ${off.at(-1)!.toFixed(2)} % (most). Their beats are on the click’s beat in ${share(onBeat.length, right.length)} (median ${sorted[Math.floor(sorted.length / 2)]!.toFixed(0)} ms from it, as drummers play a little ahead), on the offbeat or elsewhere in the rest: the player then moves them by half a beat.`,
  '',
  `Speed: ${speed.toFixed(0)} times as fast as the recordings last, processor time.`,
];
writeFileSync('bench/song/results.md', `${lines.join('\n')}\n`);
console.log(lines.join('\n'));
for (const { recording, value, rival } of rows)
  if (!right.some((row) => row.recording === recording))
    console.log(recording.name, recording.tempoBpm, value?.tempoBpm.toFixed(1), rival?.toFixed(1));
