/** End-to-end tests in the system's Chromium: `weeks`, `built` and `session` drive the built app, `modules` drives single modules under vite's server. */
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { defineConfig } from '@playwright/test';

const BUILT_PORT = Number(process.env.EVENHAND_BUILT_PORT ?? 4173);
const MODULES_PORT = Number(process.env.EVENHAND_MODULES_PORT ?? 5173);
/** `npm test` has built the app already when it comes here. */
const BUILD = process.env.EVENHAND_BUILT === 'yes' ? '' : 'npm run build --workspace web && ';

/** Chromium of this machine; Playwright's own is not downloaded. */
export function chromiumPath(): string {
  const folders = (process.env.PATH ?? '').split(delimiter);
  const names = ['chromium', 'chromium-browser', 'google-chrome-stable', 'google-chrome'];
  const found = folders.flatMap((folder) => names.map((name) => join(folder, name))).find((place) => existsSync(place));
  if (!found) throw new Error('No Chromium found on PATH. On Debian: apt-get install chromium');
  return found;
}

export const CHROMIUM_ARGUMENTS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** What serves each project. */
const SERVERS = {
  built: {
    command: `${BUILD}npm run preview --workspace web -- --port ${BUILT_PORT} --strictPort`,
    url: `http://localhost:${BUILT_PORT}/`,
    timeout: 180_000,
  },
  modules: {
    command: `npm run dev --workspace web -- --port ${MODULES_PORT} --strictPort`,
    url: `http://localhost:${MODULES_PORT}/`,
    env: { EVENHAND_TESTED: 'yes' },
  },
};

const BUILT = { baseURL: `http://localhost:${BUILT_PORT}/` };

/** One test that takes as long as all others of a worker together: it goes first, or it would run on alone when the others are through. */
const WEEKS = '**/weeks.spec.ts';

/** A drummer plays in real time and the ear answers in it: it goes last, when least else runs. */
const SESSION = '**/session.spec.ts';

export default defineConfig({
  testDir: 'web/e2e',
  outputDir: 'test-results',
  timeout: 60_000,
  // A busy machine is slow, not wrong: what never appears still fails.
  expect: { timeout: 15_000 },
  forbidOnly: !!process.env.CI,
  // A person waits for one test, mostly; `npm test` takes two, and more would make audio late on two cores.
  workers: 1,
  reporter: [['list']],
  use: { launchOptions: { executablePath: chromiumPath(), args: CHROMIUM_ARGUMENTS } },
  projects: [
    { name: 'weeks', testMatch: WEEKS, use: BUILT },
    { name: 'built', testIgnore: ['**/*.modules.spec.ts', WEEKS, SESSION], use: BUILT },
    { name: 'modules', testMatch: '**/*.modules.spec.ts', use: { baseURL: `http://localhost:${MODULES_PORT}/` } },
    { name: 'session', testMatch: SESSION, use: BUILT },
  ],
  webServer: Object.values(SERVERS),
});
