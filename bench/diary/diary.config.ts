/** Runs the bench of a diary of ten years in the system's Chromium: `npm run bench:diary`. */
import { defineConfig } from '@playwright/test';
import { CHROMIUM_ARGUMENTS, chromiumPath } from '../../playwright.config.ts';

export default defineConfig({
  testDir: '.',
  testMatch: 'diary.bench.ts',
  outputDir: '../../test-results',
  workers: 1,
  reporter: [['list']],
  use: { launchOptions: { executablePath: chromiumPath(), args: CHROMIUM_ARGUMENTS } },
});
