/** A look at one screen: axe, nothing wider than the page, and pictures when they are wanted. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import AxeBuilder from '@axe-core/playwright';
import { expect, type Page } from '@playwright/test';

/** Set EVENHAND_LOOK to a folder to get a picture of every screen at every size. */
const LOOK = process.env.EVENHAND_LOOK;

const SIZES = [
  { width: 390, height: 844 },
  { width: 820, height: 1180 },
  { width: 1440, height: 900 },
];

/**
 * A phone by day and a laptop by night; with pictures every size by day and by night. Leaves the page as a laptop by day.
 * @param part what axe looks at, as a selector; default all.
 */
export async function lookAt(page: Page, name: string, part = 'html'): Promise<void> {
  for (const size of SIZES) {
    for (const colorScheme of ['light', 'dark'] as const) {
      if (!LOOK && !['390 light', '1440 dark'].includes(`${size.width} ${colorScheme}`)) continue;
      await page.setViewportSize(size);
      await page.emulateMedia({ colorScheme });
      const { violations } = await new AxeBuilder({ page }).include(part).analyze();
      const faults = violations.map(({ id, nodes }) => `${id} at ${nodes.map((node) => node.target.join(' ')).join(', ')}`);
      expect(faults, `${name}, ${size.width}, ${colorScheme}`).toEqual([]);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth > document.documentElement.clientWidth);
      expect(wide, `${name}, ${size.width}: wider than the page`).toBe(false);
      if (!LOOK) continue;
      mkdirSync(LOOK, { recursive: true });
      await page.screenshot({ path: join(LOOK, `${name}-${size.width}-${colorScheme}.png`), fullPage: true });
    }
  }
  await page.emulateMedia({ colorScheme: 'light' });
}
