#!/usr/bin/env node
/** The launcher of the command line: committed, so that installing links it; what it starts is made by `npm run build`. */
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const built = new URL('../dist/evenhand.mjs', import.meta.url);

if (existsSync(fileURLToPath(built))) {
  const { main } = await import(built.href);
  await main(process.argv.slice(2));
} else {
  const text = 'Evenhand is not built yet. Run `npm run build` in its folder, then try again.';
  process.stderr.write(`${text}\n`);
  const problems = [{ code: 'not-built', severity: 'refused', text, params: {} }];
  if (process.argv.includes('--json')) process.stdout.write(`${JSON.stringify({ format: 'evenhand/1', problems })}\n`);
  process.exitCode = 1;
}
