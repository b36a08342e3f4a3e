/** Builds and serves the drummer's app. */
import { resolve } from 'node:path';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vite';
import { HEADER_POLICY } from '../adapters/src/policy/index.ts';
import { offlinePlugin, SERVICE_WORKER } from './vite/offline-plugin.ts';
import { policyPlugin } from './vite/policy-plugin.ts';

const here = import.meta.dirname;
/** Tests drive single modules on the development server; a page that loads itself anew would break them. */
const isTested = process.env.EVENHAND_TESTED === 'yes';

export default defineConfig({
  root: here,
  // A relative base lets the app live in any folder of a static host.
  base: './',
  plugins: [svelte(), policyPlugin(), offlinePlugin()],
  worker: { format: 'es' },
  build: {
    target: 'es2022',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rolldownOptions: {
      input: { app: resolve(here, 'index.html'), 'service-worker': resolve(here, 'src/offline/service-worker.ts') },
      output: {
        entryFileNames: ({ name }) => (name === 'service-worker' ? SERVICE_WORKER : 'assets/[name]-[hash].js'),
        // What the first screens need comes as one file, not as one for each part that another screen shares.
        // So does what today's session needs: each file more is one more answer of the service worker that a cold open waits for.
        codeSplitting: {
          groups: [
            { name: 'first', tags: ['$initial'], test: (id) => !id.includes('/src/offline/service-worker'), priority: 2 },
            { name: 'today', test: /\/web\/src\/(app\/desk\.svelte\.ts|screens\/Session\.svelte)$/, priority: 1 },
          ],
        },
      },
    },
  },
  // Everything that is imported anywhere is prepared at the start, not found on the way with a reload.
  optimizeDeps: { entries: ['index.html', 'src/**/*.worker.ts', 'e2e/**/*.html'] },
  server: isTested ? { hmr: false, watch: null } : {},
  preview: { headers: { 'Content-Security-Policy': HEADER_POLICY, 'X-Content-Type-Options': 'nosniff' } },
});
