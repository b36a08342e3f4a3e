/** The demo in a real browser: made in a Worker in a database of its own, found again, mended when it was cut off, cleared without a trace. */
import { expect, test } from '@playwright/test';

const ASK = { today: '2026-03-11', zone: 'Europe/Berlin' };

test.beforeEach(({ page }) => page.goto('/e2e/machine/rig.html'));

test('the demo is made once, with sound to each take, and nothing of it stands in the drummer’s own diary', async ({ page }) => {
  const result = await page.evaluate(async (ask) => {
    const { openDemo } = await import('../../src/demo/open.ts');
    const own = await window.rig.storeOf('evenhand');
    // Two at once, as from two tabs: the second waits and finds it made.
    const [first, second] = await Promise.all([openDemo(ask), openDemo(ask)]);
    const records = (await first.value!.records()).value!;
    const takes = records.filter(({ kind }) => kind === 'take');
    const sounds = await Promise.all(takes.map(async ({ id }) => (await first.value!.take(id)).value!));
    return {
      problems: [...first.problems, ...second.problems],
      same: (await second.value!.records()).value!.length === records.length,
      sessions: records.filter(({ kind }) => kind === 'session').length,
      owners: new Set(records.map(({ ownerId }) => ownerId)).size,
      lengths: takes.map(({ body }, k) => (body as { durationSec: number }).durationSec * sounds[k]!.sampleRateHz - sounds[k]!.samples.length),
      loud: sounds.every(({ samples }) => samples.some((sample) => Math.abs(sample) > 0.05)),
      own: (await own.records()).value!.length,
      elsewhere: [localStorage.length, sessionStorage.length, (await caches.keys()).length],
    };
  }, ASK);
  expect(result).toEqual({ problems: [], same: true, sessions: 10, owners: 1, lengths: [0, 0, 0], loud: true, own: 0, elsewhere: [0, 0, 0] });
});

test('one that was cut off while it was made is made anew; clearing leaves no database', async ({ page }) => {
  const result = await page.evaluate(async (ask) => {
    const { clearDemo, openDemo } = await import('../../src/demo/open.ts');
    const { DEMO_NAME } = await import('../../src/demo/asked.ts');
    const cut = await window.rig.storeOf(DEMO_NAME);
    await cut.append([window.rig.note('left over')]);
    cut.close();
    const failed = await openDemo(ask, () => Promise.reject(new Error('no sound today')));
    const demo = await openDemo(ask);
    const texts = window.rig.textsOf((await demo.value!.records()).value);
    const told = new Promise<string>((resolve) => demo.value!.onProblem(({ code }) => resolve(code)));
    const cleared = await clearDemo();
    const left = (await indexedDB.databases()).map(({ name }) => name);
    return {
      failed: failed.problems,
      leftOver: texts.includes('left over'),
      told: await told,
      cleared: cleared.value,
      left: left.includes(DEMO_NAME),
    };
  }, ASK);
  expect(result).toEqual({
    failed: [{ code: 'store-failed', severity: 'refused', params: { reason: 'no sound today' } }],
    leftOver: false,
    told: 'store-closed',
    cleared: true,
    left: false,
  });
});
