/** Runs a bench written in TypeScript: `node bench/run.mjs bench/listen/listen.ts`. Bundles it to a temporary file first. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { rolldown } from 'rolldown';

const [entry] = process.argv.slice(2);
if (!entry) {
  console.error('Say which bench to run: node bench/run.mjs bench/listen/listen.ts');
  process.exit(2);
}
const folder = mkdtempSync(join(tmpdir(), 'evenhand-bench-'));
try {
  const file = join(folder, 'bench.mjs');
  const bundle = await rolldown({ input: resolve(entry), platform: 'node', external: [/^node:/] });
  await bundle.write({ dir: folder, entryFileNames: 'bench.mjs', format: 'esm' });
  await import(pathToFileURL(file).href);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
