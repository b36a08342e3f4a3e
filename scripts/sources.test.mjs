/** Every `@source [Key]` in the code is told in docs/SOURCES.md, and no key is told twice. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

const root = fileURLToPath(new URL('..', import.meta.url));
const told = [...readFileSync(join(root, 'docs/SOURCES.md'), 'utf8').matchAll(/^\| (\w+) \|/gm)].map((row) => row[1]).filter((key) => key !== 'key');

const usedKeys = (folder) =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(ts|svelte)$/.test(name) && !name.includes('node_modules'))
    .flatMap((name) => [...readFileSync(join(root, folder, name), 'utf8').matchAll(/@source ((?:\[\w+\][^[\n@]*)+)/g)])
    .flatMap((use) => [...use[1].matchAll(/\[(\w+)\]/g)].map((key) => key[1]));

test('every source named in the code stands in docs/SOURCES.md', () => {
  const used = ['core/src', 'cli/src', 'web/src', 'adapters/src'].flatMap(usedKeys);
  expect(used.length).toBeGreaterThan(20);
  expect([...new Set(used)].filter((key) => !told.includes(key))).toEqual([]);
});

test('no key is told twice', () => {
  expect(told.filter((key, i) => told.indexOf(key) !== i)).toEqual([]);
});
