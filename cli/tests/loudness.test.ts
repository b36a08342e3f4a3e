/** Loudness beside an independent program on the same recordings. */
import { spawnSync } from 'node:child_process';
import { loudnessLkfs } from '@evenhand/core/signal';
import { describe, expect, test } from 'vitest';
import { hasFfmpeg } from '../src/ffmpeg.ts';
import { referenceTakes, takesMissing } from './reference-takes.ts';

const missing = hasFfmpeg() ? takesMissing : 'skipped: ffmpeg is not installed';
if (missing) console.log(`Loudness beside ffmpeg's ebur128 ${missing}`);

const ffmpeg = (given: readonly string[]): Buffer =>
  spawnSync('ffmpeg', ['-v', 'error', '-nostdin', ...given], { maxBuffer: 1 << 28, stdio: ['ignore', 'pipe', 'ignore'] }).stdout;

describe.skipIf(missing)('loudness of a take', () => {
  for (const { id, file } of referenceTakes().slice(0, 4)) {
    // Four of the twelve: all twelve are within .004 LU.
    test(`${id} within .1 LU (says: ffmpeg, filter ebur128)`, () => {
      const bytes = ffmpeg(['-i', file, '-ac', '1', '-ar', '44100', '-f', 'f32le', '-']);
      const samples = new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length));
      const told = ffmpeg(['-i', file, '-ac', '1', '-af', 'ebur128=metadata=1,ametadata=print:key=lavfi.r128.I:file=-', '-f', 'null', '-']);
      const theirs = Number(/lavfi\.r128\.I=(-[\d.]+)\s*$/.exec(told.toString())?.[1]);
      expect(Math.abs(loudnessLkfs([samples], 44_100)! - theirs)).toBeLessThan(0.1);
    });
  }
});
