import { test } from '@playwright/test';
test('q', async ({ page, context }) => {
  await page.goto('/e2e/machine/rig.html');
  const session = await context.newCDPSession(page);
  const origin = new URL(page.url()).origin;
  for (const quota of [1000, 1_000_000, 20_000_000]) {
    await session.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: quota });
    const r = await page.evaluate(async (q) => {
      const store = await window.rig.storeOf('full' + q);
      const out: string[] = [JSON.stringify(await navigator.storage.estimate())];
      for (let i = 0; i < 12; i++) { const p = await store.append([window.rig.note('x'.repeat(2_000_000))]); out.push(p.problems.map((x) => x.code).join() + JSON.stringify((await navigator.storage.estimate()).usage)); if (p.problems.length) break; }
      return out;
    }, quota);
    console.log(quota, r);
  }
});
