/** Recordings that cannot be heard, or only with doubts: each is told in a sentence that says what to do. */
import { spawnSync } from 'node:child_process';
import { chmodSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { writeWav } from '@evenhand/core/take';
import { beforeAll, describe, expect, test } from 'vitest';
import { evenhandJson, fileOf, folder } from './evenhand.ts';
import { playedTake, wavOf } from './takes.ts';

const phrase = { sticking: 'RLRLKK', perBeat: 4, tempoBpm: 92, cycles: 8 };
const told = ['--sticking', 'RLRLKK', '--per-beat', '4', '--tempo', '92'];
let samples: Float32Array;
beforeAll(() => {
  samples = playedTake(phrase).samples;
});

const codes = (json: { problems: { code: string }[] }) => json.problems.map(({ code }) => code);

describe('nothing can be given: exit 1, the keys are there, and a sentence', () => {
  test.each([
    { says: 'a text called .wav', content: () => 'Dear diary, today I played.\n', code: 'take-not-audio' },
    { says: 'an empty file', content: () => '', code: 'take-empty' },
    { says: 'a WAV without samples', content: () => writeWav(new Float32Array(0), 44100, { bits: 16 }), code: 'take-empty' },
    { says: 'a silent WAV', content: () => writeWav(new Float32Array(44100 * 3), 44100, { bits: 16 }), code: 'take-silent' },
    {
      says: 'a MIDI file without notes',
      content: () => Buffer.from('MThd\0\0\0\x06\0\0\0\x01\x01\xe0MTrk\0\0\0\x04\0\xff\x2f\0', 'latin1'),
      code: 'midi-without-notes',
    },
    { says: 'the first bytes of a MIDI file', content: () => 'MThd\0\0\0\x06\0\0\0\x01\x01\x60', code: 'midi-unreadable' },
    { says: 'a FLAC file that is only its first bytes', content: () => 'fLaC\0\0', code: 'take-not-audio' },
  ])('$says: $code', ({ content, code }) => {
    const file = fileOf('take.wav', content());
    for (const given of [
      ['strokes', file],
      ['listen', file, ...told],
    ]) {
      const { exit, json, stderr } = evenhandJson(...given);
      expect(exit).toBe(1);
      expect(codes(json)).toContain(code);
      expect(json.strokes).toEqual([]);
      expect(stderr).toMatch(/[.!?]\n$/);
      expect(stderr).not.toMatch(/\n\s+at |undefined|NaN/);
    }
  });

  test('a file that is not there, and a folder', () => {
    expect(codes(evenhandJson('strokes', join(folder(), 'take.wav')).json)).toEqual(['file-not-found']);
    expect(codes(evenhandJson('strokes', folder()).json)).toEqual(['file-is-folder']);
  });

  test.skipIf(process.getuid?.() === 0)('a file one may not open (skipped as root: root may open everything)', () => {
    const file = fileOf('take.wav', 'x');
    chmodSync(file, 0);
    expect(codes(evenhandJson('strokes', file).json)).toEqual(['file-no-permission']);
  });

  test('clicks that are no times', () => {
    const file = fileOf('take.wav', wavOf(samples));
    const { exit, json, stderr } = evenhandJson('strokes', file, '--clicks', fileOf('clicks.txt', '0.5\n1.0 # yes\nsoon\n'));
    expect(exit).toBe(1);
    expect(codes(json)).toEqual(['clicks-not-a-time']);
    expect(stderr).toMatch(/Line 3.*"soon"/);
  });
});

describe('doubtful, and still measured: exit 0', () => {
  test('a clipped take', () => {
    const loud = samples.map((sample) => Math.max(-1, Math.min(1, sample * 20)));
    const { exit, json } = evenhandJson('listen', fileOf('take.wav', wavOf(loud)), ...told);
    expect(exit).toBe(0);
    expect(codes(json)).toContain('take-clipped');
    expect(json.places).toHaveLength(6);
  });

  test('the wrong sticking: DESIGN.md, Problems', () => {
    const wrong = ['--sticking', 'RLRRLRLLK-', '--per-beat', '3', '--tempo', '122'];
    const { exit, json } = evenhandJson('listen', fileOf('take.wav', wavOf(samples)), ...wrong);
    expect(exit).toBe(0);
    expect(json.problems.length).toBeGreaterThan(0);
    expect(json.problems.every(({ severity }: { severity: string }) => severity === 'doubtful')).toBe(true);
  });

  test('a WAV cut short', () => {
    const { exit, json } = evenhandJson('strokes', fileOf('take.wav', wavOf(samples).subarray(0, 300_000)));
    expect(exit).toBe(0);
    expect(codes(json)).toEqual(['take-cut-short']);
  });
});

const flacMissing = spawnSync('flac', ['--version']).error !== undefined;
if (flacMissing) console.log('skipped: reading FLAC, because the program flac is not installed');

describe.skipIf(flacMissing)('FLAC made by flac 1.x, an independent encoder, is heard as the WAV it was made of', () => {
  const flacOf = (wav: Uint8Array): string => {
    const home = folder();
    writeFileSync(join(home, 'take.wav'), wav);
    expect(spawnSync('flac', ['--silent', '--best', 'take.wav'], { cwd: home }).status).toBe(0);
    return join(home, 'take.flac');
  };

  test.each([16, 24] as const)('%i bits', (bits) => {
    const wav = writeWav(samples, 44100, { bits });
    const fromWav = evenhandJson('strokes', fileOf('take.wav', wav)).json;
    expect(fromWav.strokes.length).toBeGreaterThan(20);
    expect(evenhandJson('strokes', flacOf(wav)).json).toEqual(fromWav);
  });

  test('two channels', () => {
    const wav = wavOf(samples);
    const stereo = new Uint8Array(44 + 2 * (wav.length - 44));
    stereo.set(wav.subarray(0, 44));
    const view = new DataView(stereo.buffer);
    view.setUint16(22, 2, true);
    view.setUint32(28, 44100 * 4, true);
    view.setUint16(32, 4, true);
    view.setUint32(4, stereo.length - 8, true);
    view.setUint32(40, stereo.length - 44, true);
    for (let at = 44; at < wav.length; at += 2) {
      for (const channel of [0, 2]) stereo.set(wav.subarray(at, at + 2), 44 + 2 * (at - 44) + channel);
    }
    expect(evenhandJson('strokes', flacOf(stereo)).json).toEqual(evenhandJson('strokes', fileOf('take.wav', wav)).json);
  });

  test('a file that ends early is doubtful, and what is there is heard', () => {
    const whole = readFileSync(flacOf(wavOf(samples)));
    const { exit, json } = evenhandJson('strokes', fileOf('take.flac', whole.subarray(0, whole.length / 2)));
    expect(exit).toBe(0);
    expect(codes(json)).toEqual(['take-damaged']);
    expect(json.strokes.length).toBeGreaterThan(5);
  });
});
