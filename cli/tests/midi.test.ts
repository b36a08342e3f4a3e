/** MIDI files: bytes as the standard has them, and strokes as the truth beside real files has them. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readMidi, readQuantity } from '../src/midi-file.ts';
import { levelOfVelocity } from '../src/midi-strokes.ts';
import { evenhand, evenhandJson, fileOf } from './evenhand.ts';
import { referenceTakes, takesMissing, truthStrokes } from './reference-takes.ts';

/** A file of one track from hexadecimal digits. */
const fileWith = (track: string, division = '01e0'): Uint8Array => {
  const body = Buffer.from(track.replaceAll(' ', ''), 'hex');
  const length = Buffer.alloc(4);
  length.writeUInt32BE(body.length);
  return Buffer.concat([Buffer.from(`4d546864 00000006 0000 0001 ${division} 4d54726b`.replaceAll(' ', ''), 'hex'), length, body]);
};

test.each([
  { bytes: '00', value: 0 },
  { bytes: '7f', value: 0x7f },
  { bytes: '8100', value: 0x80 },
  { bytes: 'c000', value: 0x2000 },
  { bytes: 'ff7f', value: 0x3fff },
  { bytes: '818000', value: 0x4000 },
  { bytes: 'ffffff7f', value: 0x0fffffff },
  { bytes: '40', value: 0x40 },
  { bytes: 'c08000', value: 0x100000 },
  { bytes: 'ffff7f', value: 0x1fffff },
  { bytes: '81808000', value: 0x200000 },
  { bytes: 'c0808000', value: 0x08000000 },
  { bytes: '8360', value: 480 },
  { bytes: '8740', value: 960 },
  { bytes: '8768', value: 1000 },
])('the quantity $bytes is $value: FACTS.md 10, SMF 1.0', ({ bytes, value }) => {
  const reader = { bytes: Uint8Array.from(Buffer.from(bytes, 'hex')), at: 0 };
  expect(readQuantity(reader)).toBe(value);
  expect(reader.at).toBe(bytes.length / 2);
});

test.each([
  { velocity: 127, levelDb: 0 },
  { velocity: 100, levelDb: -4.0402 },
  { velocity: 96, levelDb: -4.7275 },
  { velocity: 64, levelDb: -11.5004 },
  { velocity: 32, levelDb: -22.7535 },
  { velocity: 1, levelDb: -60 },
])('velocity $velocity stands for $levelDb dB: FACTS.md 10, Dannenberg 2006', ({ velocity, levelDb }) => {
  expect(levelOfVelocity(velocity)).toBeCloseTo(levelDb, 4);
});

describe('times', () => {
  test.each([
    { says: 'FACTS.md 10: 480 ticks at 120 bpm', track: '8360 99 26 64', division: '01e0', sec: 0.5 },
    { says: 'FACTS.md 10: tempo bytes of 100 bpm', track: '00 ff5103 0927c0 8360 99 26 64', division: '01e0', sec: 0.6 },
    { says: 'FACTS.md 10: tempo bytes of 60 bpm', track: '00 ff5103 0f4240 8360 99 26 64', division: '01e0', sec: 1 },
    { says: 'FACTS.md 10: tempo bytes of 80 bpm', track: '00 ff5103 0b71b0 8360 99 26 64', division: '01e0', sec: 0.75 },
    { says: 'FACTS.md 10: tempo bytes of 93 bpm, 645 161 µs', track: '00 ff5103 09d829 8360 99 26 64', division: '01e0', sec: 0.645161 },
    { says: 'FACTS.md 10: tempo bytes of 140 bpm', track: '00 ff5103 068a1b 8360 99 26 64', division: '01e0', sec: 0.428571 },
    { says: 'FACTS.md 10: tempo bytes of 200 bpm', track: '00 ff5103 0493e0 8360 99 26 64', division: '01e0', sec: 0.3 },
    { says: 'FACTS.md 10: a tick at 120 bpm, 960 a beat, is .520833 ms', track: '01 99 26 64', division: '03c0', sec: 0.0005208333333 },
    { says: 'arithmetic: 120 bpm for a beat, then 60 for one', track: '8360 ff5103 0f4240 8360 99 26 64', division: '01e0', sec: 1.5 },
    { says: 'arithmetic: 25 frames of 40 ticks, 1000 of them', track: '8768 99 26 64', division: 'e728', sec: 1 },
  ])('$says', ({ track, division, sec }) => {
    const { notes, damaged } = readMidi(fileWith(`${track} 00 ff2f00`, division));
    expect(notes).toEqual([{ timeSec: expect.closeTo(sec, 9), channel: 9, key: 38, velocity: 100 }]);
    expect(damaged).toBe(false);
  });

  test('running status, note-off by velocity 0, system messages and text are passed over: SMF 1.0', () => {
    const { notes } = readMidi(fileWith('00 ff0103 616263 00 f003 010203 00 99 26 64 60 26 00 00 c9 10 00 99 24 50 60 24 00 00 ff2f00'));
    expect(notes.map(({ key, velocity }) => [key, velocity])).toEqual([
      [38, 100],
      [36, 80],
    ]);
  });

  test.each([
    { says: 'cut inside an event', track: '00 99 26 64 60 99' },
    { says: 'a byte that continues nothing', track: '00 26 64' },
  ])('$says is damaged, and does not throw', ({ track }) => {
    expect(readMidi(fileWith(track)).damaged).toBe(true);
  });

  test.each(['0000', 'e700'])('where a beat or a frame has no ticks (%s) nothing has a time: damaged', (division) => {
    expect(readMidi(fileWith('00 99 26 64 60 26 00 00 ff2f00', division))).toEqual({ notes: [], durationSec: 0, damaged: true });
  });

  test('any byte of a file may be wrong: law', () => {
    const file = fileWith('00 ff5103 0927c0 8360 99 26 64 60 26 00 00 ff2f00');
    for (let at = 4; at < file.length; at++) {
      for (const value of [0, 127, 128, 255]) {
        const bytes = Uint8Array.from(file);
        bytes[at] = value;
        const { notes, durationSec } = readMidi(bytes);
        expect([durationSec, ...notes.map(({ timeSec }) => timeSec)].every((sec) => Number.isFinite(sec) && sec >= 0)).toBe(true);
      }
    }
  });
});

test('velocities are named as such: DESIGN.md, Command line', () => {
  const file = fileOf('kit.mid', fileWith('8360 99 24 7f 00 ff2f00'));
  const { json } = evenhandJson('strokes', file);
  expect(json).toMatchObject({ sampleRateHz: null, levelsFrom: 'velocity', strokes: [{ timeSec: 0.5, levelDb: 0, drum: 'kick' }] });
  expect(evenhand('strokes', file).stdout).toContain('volume, from velocity');
});

describe.skipIf(takesMissing !== null)('reference/takes: the same strokes as MIDI', () => {
  test.each(referenceTakes())('$id: every stroke of the truth within a tick', (take) => {
    const { json } = evenhandJson('strokes', take.file.replace('.flac', '.mid'));
    const truth = truthStrokes(take.id);
    expect(json.strokes).toHaveLength(truth.length);
    // Half a tick of 960 per beat at 120 bpm is .26 ms; the file's maker may have rounded down: one tick.
    for (const [i, { timeSec }] of json.strokes.entries()) expect(Math.abs(timeSec - truth[i]!)).toBeLessThan(0.00053);
  });

  test('a place comes out as the truth has it: D06', () => {
    const take = referenceTakes().find(({ id }) => id.startsWith('D06'))!;
    const told = ['--sticking', take.sticking, '--per-beat', String(take.perBeat), '--tempo', String(take.tempoBpm), '--surfaces', take.surfaces];
    const { exit, json } = evenhandJson('listen', take.file.replace('.flac', '.mid'), ...told);
    expect(exit).toBe(0);
    const off = take.places.map(({ medianErrorMs }, i) => json.places[i].biasMs - medianErrorMs);
    const middle = off.reduce((sum, value) => sum + value, 0) / off.length;
    // 3 ms: the median of 22 strokes against the measurement's robust curve of the tempo.
    for (const value of off) expect(Math.abs(value - middle)).toBeLessThan(3);
  });
});

const grooves = join(import.meta.dirname, '../../../shared/reference/groove-midi');
const groovesMissing = !existsSync(grooves);
if (groovesMissing) console.log('skipped: real performances, because ../shared/reference/groove-midi is not on this machine');

describe.skipIf(groovesMissing)('real performances on an electronic kit: reference/groove-midi', () => {
  const files = groovesMissing ? [] : readdirSync(grooves).filter((name) => name.endsWith('.mid'));
  const read = files.map((name) => ({ name, ...readMidi(readFileSync(join(grooves, name))) }));

  test('all sixty are whole, on the drum channel', () => {
    expect(read.filter(({ damaged }) => damaged)).toEqual([]);
    expect(new Set(read.flatMap(({ notes }) => notes.map(({ channel }) => channel)))).toEqual(new Set([9]));
    expect(read).toHaveLength(60);
  });

  test('they last as long as their collection says: info.csv', () => {
    const rows = readFileSync(join(grooves, 'info.csv'), 'utf8')
      .split(/\r?\n/)
      .map((line) => line.split(','));
    const saidSec = new Map(rows.map((row) => [row[7]?.replaceAll('/', '_'), Number(row[9])]));
    // The collection tells microseconds. In five files it ends with the last note, a tenth of a second long, and leaves out the moves of the hi-hat's pedal after it.
    const isSame = ({ name, durationSec }: (typeof read)[number]) => Math.abs(durationSec - saidSec.get(name)!) < 2e-6;
    const others = read.filter((each) => !isSame(each));
    expect(others).toHaveLength(5);
    for (const { name, notes, durationSec } of others) {
      expect(saidSec.get(name)! - notes.at(-1)!.timeSec).toBeCloseTo(0.1, 2);
      expect(durationSec).toBeGreaterThan(saidSec.get(name)!);
    }
  });

  test('kicks 75 to 150 ms apart are in 35 of them: FACTS.md 2, computed apart', () => {
    const withPairs = read.filter(({ notes }) => {
      const kicks = notes.filter(({ key }) => key === 36);
      return kicks.some(({ timeSec }, i) => i > 0 && timeSec - kicks[i - 1]!.timeSec >= 0.075 && timeSec - kicks[i - 1]!.timeSec <= 0.15);
    });
    expect(withPairs).toHaveLength(35);
  });
});
