/** Runs the bench of a running session in the system's Chromium: `npm run bench:session`. */
import { defineConfig } from '@playwright/test';

export default defineConfig({
  testDir: '.',
  testMatch: 'session.bench.ts',
  outputDir: '../../test-results',
  workers: 1,
  reporter: [['list']],
  // A busy machine is slow, not wrong.
  expect: { timeout: 15_000 },
});
