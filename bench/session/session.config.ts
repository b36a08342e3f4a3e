/** Runs the bench of a running session in the system's Chromium: `npm run bench:session`. */
import { defineConfig } from '@playwright/test';
import { CHROMIUM_ARGUMENTS, chromiumPath } from '../../playwright.config.ts';
import { plantedFile, repeatedMicrophone } from '../../web/e2e/planted.ts';

/** Played over and over: somebody plays all the time, only not in time with the click, which costs the ear no less. */
const PLAYED = plantedFile('bench-session.wav', { sticking: 'RLRLKK', perBeat: 4, tempoBpm: 96, cycles: 40, faults: [] });

export default defineConfig({
  testDir: '.',
  testMatch: 'session.bench.ts',
  outputDir: '../../test-results',
  workers: 1,
  reporter: [['list']],
  use: {
    launchOptions: {
      executablePath: chromiumPath(),
      args: [...CHROMIUM_ARGUMENTS, ...repeatedMicrophone(PLAYED)],
    },
  },
});
