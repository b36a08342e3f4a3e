import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { decodeFlac } from '../../adapters/src/flac/index.ts';
import { saidIn } from './said.ts';

const folder = '../shared/reference/takes/';
const there = existsSync(folder);
if (!there) console.log('Skipped: ../shared/reference/takes is absent, so other drumming was not listened to.');

test.skipIf(!there)('two takes of other drumming say nothing (says: ../shared/reference/takes, real drum samples and a pad)', async () => {
  const names = readdirSync(folder).filter((name) => /^D0[13]_.*\.flac$/.test(name));
  expect(names).toHaveLength(2);
  for (const name of names) {
    const { samples, sampleRateHz } = await decodeFlac(new Uint8Array(readFileSync(folder + name)));
    expect(saidIn(samples, sampleRateHz), name).toEqual([]);
  }
});
