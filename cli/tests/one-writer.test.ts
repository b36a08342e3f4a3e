/** The lock of a diary's folder: one writer at a time, and none that is waited for in vain. */
import { readdirSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { describe, expect, test, vi } from 'vitest';
import { asOnlyWriter } from '../src/diary-folder/lock.ts';
import { folder } from './evenhand.ts';

describe('one writer at a time', () => {
  const lockOf = (home: string, holder: object) => writeFileSync(join(home, 'lock'), JSON.stringify({ token: 'y', ...holder }));

  test.each([
    { whose: 'a program that runs', holder: { pid: process.pid, host: hostname() } },
    { whose: 'another machine', holder: { pid: 1, host: `not ${hostname()}` } },
  ])('the lock of $whose is left, and its folder not written to', async ({ holder }) => {
    const home = folder();
    lockOf(home, holder);
    const work = vi.fn(() => ({ value: 1 }));
    const { problem } = await asOnlyWriter(home, work, 30);
    expect(problem).toMatchObject({ code: 'diary-busy', params: { folder: home, lock: join(home, 'lock') } });
    expect(work).not.toHaveBeenCalled();
    expect(readdirSync(home)).toEqual(['lock']);
  });

  test('work is done one after another, also behind a lock that was left behind, and a failure lets go', async () => {
    const home = folder();
    lockOf(home, { pid: 2 ** 30, host: hostname() });
    let inside = 0;
    const work = async () => {
      expect(++inside).toBe(1);
      await new Promise((resolve) => setTimeout(resolve, 2));
      inside--;
      return { value: true };
    };
    const all = await Promise.all(Array.from({ length: 10 }, () => asOnlyWriter(home, work)));
    expect(all).toEqual(Array(10).fill({ value: true }));
    await expect(asOnlyWriter(home, () => Promise.reject(new Error('disk')))).rejects.toThrow('disk');
    expect(readdirSync(home)).toEqual([]);
  });
});
