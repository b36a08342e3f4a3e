/** Builds and serves the drummer's app. */
import { resolve } from 'node:path';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vite';
import { offlinePlugin, SERVICE_WORKER } from './vite/offline-plugin.ts';
import { HEADER_POLICY } from './vite/policy.ts';
import { policyPlugin } from './vite/policy-plugin.ts';

const here = import.meta.dirname;

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
      output: { entryFileNames: ({ name }) => (name === 'service-worker' ? SERVICE_WORKER : 'assets/[name]-[hash].js') },
    },
  },
  preview: { headers: { 'Content-Security-Policy': HEADER_POLICY, 'X-Content-Type-Options': 'nosniff' } },
});
