/** Two thousand files damaged by chance: none may crash, hang or be passed over in silence. `npm run prove` takes a hundred thousand. */
import { join } from 'node:path';
import { inMemory } from '@evenhand/core/take';
import { describe, expect, test } from 'vitest';
import { openByOurselves } from '../src/sound.ts';
import { damagedBy, faultWith, wholeFiles } from './damaged.ts';

const folder = join(import.meta.dirname, '../fixtures/sounds');

describe('files damaged by chance', () => {
  test('the whole ones can be opened, so that it is the damage which is tried', async () => {
    for (const { name, bytes } of await wholeFiles(folder)) expect([name, (await openByOurselves(inMemory(bytes))).problems]).toEqual([name, []]);
  });

  test('2,000 of them are heard soundly or refused in words, none takes a second (says: the same check as npm run prove)', async () => {
    const wholes = await wholeFiles(folder);
    const faults: string[] = [];
    const slow: string[] = [];
    let { user } = process.cpuUsage();
    for (let seed = 0; seed < 2000; seed++) {
      const damaged = damagedBy(seed, wholes);
      const fault = await faultWith(damaged);
      if (fault) faults.push(fault);
      // Processor time, because a busy machine may let any file wait for a second.
      const began = user;
      user = process.cpuUsage().user;
      if (user - began > 1e6) slow.push(damaged.what);
    }
    expect([faults.slice(0, 5), slow]).toEqual([[], []]);
  });
});
