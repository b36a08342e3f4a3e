/** The engraver in a real browser: the same bytes as in Node. */
import { expect, test } from '@playwright/test';
import { sheets } from './sheets.ts';

test('law: a sheet and an exercise’s id are the same bytes in the browser and in Node', async ({ page }) => {
  await page.goto('/e2e/machine/rig.html');
  const inBrowser = await page.evaluate(async () => {
    const { sheets: engraved } = await import('./sheets.ts');
    return engraved();
  });
  expect(inBrowser).toContain('<svg ');
  expect(inBrowser).toBe(sheets());
});
