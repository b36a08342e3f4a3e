/** Runs the bench of the ear while it records in the system's Chromium: `npm run bench:live`. */
import { defineConfig } from '@playwright/test';

const PORT = Number(process.env.EVENHAND_MODULES_PORT ?? 5173);

export default defineConfig({
  testDir: '.',
  testMatch: 'live.bench.ts',
  outputDir: '../../test-results',
  timeout: 300_000,
  workers: 1,
  reporter: [['list']],
  use: { baseURL: `http://localhost:${PORT}/` },
  webServer: {
    command: `npm run dev --workspace web -- --port ${PORT} --strictPort`,
    cwd: '../..',
    url: `http://localhost:${PORT}/`,
    env: { EVENHAND_TESTED: 'yes' },
  },
});
