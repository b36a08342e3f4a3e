import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: [
      'core/**/*.test.ts',
      'adapters/**/*.test.ts',
      'cli/**/*.test.ts',
      'web/src/**/*.test.ts',
      'scripts/**/*.test.mjs',
      'bench/**/*.test.ts',
    ],
    exclude: ['**/node_modules/**', '**/dist/**'],
    setupFiles: ['scripts/laws.mjs'],
    expect: { requireAssertions: true },
    // They give way to the browser tests, so that a busy machine keeps them waiting; what never ends still fails.
    testTimeout: 180_000,
    // The files of a worker share a process: the core has no state that one could leave to another, and a process each takes as long again as the tests.
    isolate: false,
    env: { TZ: 'UTC' },
  },
});
