/** The lock that keeps the screen on, with a browser of the test's own: asked for again in sight, and never kept after a session. */
import { afterEach, expect, test, vi } from 'vitest';
import { stayAwake } from './awake.ts';

afterEach(() => void vi.unstubAllGlobals());

/** A browser that gives each lock when the test says so. */
function browser() {
  const page = Object.assign(new EventTarget(), { visibilityState: 'visible' });
  const locks: { released: boolean; give(): Promise<void> }[] = [];
  const request = () =>
    new Promise((resolve) => {
      const release = async () => {
        lock.released = true;
      };
      const lock = { released: false, release, give: async () => resolve(lock) };
      locks.push(lock);
    });
  vi.stubGlobal('document', page);
  vi.stubGlobal('navigator', { wakeLock: { request } });
  const see = (seen: 'hidden' | 'visible') => {
    page.visibilityState = seen;
    page.dispatchEvent(new Event('visibilitychange'));
  };
  return { locks, see };
}

test('asked for at the beginning and each time the page comes back in sight; given back at the end (says: Screen Wake Lock, handling document loss of visibility)', async () => {
  const { locks, see } = browser();
  const awake = stayAwake();
  await locks[0]!.give();
  const sleep = await awake;
  see('hidden');
  expect(locks).toHaveLength(1);
  see('visible');
  expect(locks).toHaveLength(2);
  await locks[1]!.give();
  await Promise.resolve();
  sleep();
  expect(locks[1]!.released).toBe(true);
  see('hidden');
  see('visible');
  expect(locks).toHaveLength(2);
});

test('a lock that is given only after the session is let go at once', async () => {
  const { locks, see } = browser();
  const awake = stayAwake();
  await locks[0]!.give();
  const sleep = await awake;
  see('hidden');
  see('visible');
  sleep();
  await locks[1]!.give();
  await vi.waitFor(() => expect(locks[1]!.released).toBe(true));
});
