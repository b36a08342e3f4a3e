/** Bundles the command line, the core inside it, into one file for Node: one file starts faster than a hundred. */
import { defineConfig } from 'vite';

export default defineConfig({
  build: {
    ssr: 'src/main.ts',
    target: 'node20',
    outDir: 'dist',
    emptyOutDir: true,
    minify: false,
    rolldownOptions: { output: { entryFileNames: 'evenhand.mjs', chunkFileNames: '[name]-[hash].mjs' } },
  },
  ssr: { noExternal: true, external: ['libflacjs', 'canvaskit-wasm', 'minimp3-wasm', 'opus-decoder', 'stb-vorbis'] },
});
