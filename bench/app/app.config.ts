/** Runs the bench of the app in the system's Chromium: `npm run bench:app`. */
import { defineConfig } from '@playwright/test';
import { CHROMIUM_ARGUMENTS, chromiumPath } from '../../playwright.config.ts';
import { ANY_MICROPHONE } from '../../web/e2e/planted.ts';

/** Assumption: what takes longer than this on a busy machine is broken. */
const ACTION_MS = 15_000;

export default defineConfig({
  testDir: '.',
  testMatch: 'app.bench.ts',
  outputDir: '../../test-results',
  workers: 1,
  reporter: [['list']],
  // What is not there is told, and never waited for.
  use: {
    actionTimeout: ACTION_MS,
    navigationTimeout: ACTION_MS,
    launchOptions: { executablePath: chromiumPath(), args: [...CHROMIUM_ARGUMENTS, ...ANY_MICROPHONE] },
  },
});
