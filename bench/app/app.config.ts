/** Runs the bench of the app in the system's Chromium: `npm run bench:app`. */
import { defineConfig } from '@playwright/test';
import { CHROMIUM_ARGUMENTS, chromiumPath } from '../../playwright.config.ts';

/** A microphone that is always there, so that a session can start. */
const MICROPHONE = ['--use-fake-ui-for-media-stream', '--use-fake-device-for-media-stream', '--autoplay-policy=no-user-gesture-required'];

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
    launchOptions: { executablePath: chromiumPath(), args: [...CHROMIUM_ARGUMENTS, ...MICROPHONE] },
  },
});
