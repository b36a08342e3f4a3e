/** Runs the bench of a page out of sight in the system's Chromium: `npm run bench:hidden`. */
import { defineConfig } from '@playwright/test';
import live from './live.config.ts';

export default defineConfig(live, { testMatch: 'hidden.bench.ts' });
