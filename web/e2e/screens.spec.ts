import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { microphoneOf, plantedFile, silentFile } from './planted.ts';
import { glanceFaults, standFaults } from './stand.ts';
import { walk } from './way.ts';

/** Set EVENHAND_LOOK to a folder to get a picture of every screen at every size. */
const LOOK = process.env.EVENHAND_LOOK;

const SIZES = [
  { name: '390', width: 390, height: 844 },
  { name: '820', width: 820, height: 1180 },
  { name: '1440', width: 1440, height: 900 },
  { name: 'across', width: 844, height: 390 },
] as const;

const file = plantedFile('phrase.wav', { sticking: 'RLRLKK', perBeat: 4, tempoBpm: 96, cycles: 14, faults: [{ index: 5, earlyMs: 18, softDb: 6 }] });
const recording = readFileSync(file);
const silence = readFileSync(silentFile('silence.wav'));

test.use({
  launchOptions: async ({ launchOptions }, use) => use({ ...launchOptions, args: [...(launchOptions.args ?? []), ...microphoneOf(file)] }),
});

/** Without the pictures, a phone by day and a laptop by night: colours and layout both change, and it takes a minute less. */
const wanted = (size: string, colorScheme: string): boolean => Boolean(LOOK) || ['390 light', '1440 dark'].includes(`${size} ${colorScheme}`);

for (const size of SIZES) {
  for (const colorScheme of ['light', 'dark'] as const) {
    if (!wanted(size.name, colorScheme)) continue;
    test.describe(`${size.name} ${colorScheme}`, () => {
      test.use({ viewport: { width: size.width, height: size.height }, colorScheme });

      test(`every screen, ${size.name}, ${colorScheme}: axe finds nothing, nothing is wider than the page, the console stays quiet, the session is read from two metres (ISO 9241-303)`, async ({
        page,
      }) => {
        test.setTimeout(150_000);
        const faults: string[] = [];
        // What the content security policy forbids is told on the console too.
        page.on('console', (message) => message.type() === 'error' && faults.push(`console: ${message.text()}`));
        page.on('pageerror', (error) => faults.push(`page: ${error.message}`));
        await walk(page, {
          recording,
          silence,
          see: async (name) => {
            faults.push(...(await faultsOf(page, name)));
            const fromAfar = { 'session-paused': standFaults, 'session-between': glanceFaults }[name];
            if (fromAfar) {
              for (const at of SIZES) faults.push(...(await fromAfar(page, at)));
              await page.setViewportSize(size);
            }
            if (LOOK) await picture(page, join(LOOK, `${name}-${size.name}-${colorScheme}.png`), name);
          },
        });
        expect(faults).toEqual([]);
      });
    });
  }
}

async function faultsOf(page: Page, name: string): Promise<readonly string[]> {
  const { violations } = await new AxeBuilder({ page }).analyze();
  const wide = await page.evaluate(() => document.documentElement.scrollWidth > document.documentElement.clientWidth);
  const found = violations.map(({ id, nodes }) => `${name}: ${id} at ${nodes.map((node) => node.target.join(' ')).join(', ')}`);
  return wide ? [...found, `${name}: wider than the page`] : found;
}

async function picture(page: Page, path: string, name: string): Promise<void> {
  mkdirSync(LOOK!, { recursive: true });
  await page.screenshot({ path, fullPage: !/session-(ready|count|playing|paused|between)/.test(name) });
}
