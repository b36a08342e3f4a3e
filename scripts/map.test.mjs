/** The code map of ARCHITECTURE.md and the folders there are say the same. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const root = join(import.meta.dirname, '..');
const map = readFileSync(join(root, 'ARCHITECTURE.md'), 'utf8');
const named = [...map.matchAll(/^- `((?:core|cli|web)\/[^`]+\/)`/gm)].map((match) => match[1]);
const stages = readdirSync(join(root, 'core/src'), { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map((entry) => `core/src/${entry.name}/`);

test('the map names every stage of the core, the command line and the app, and nothing else', () => {
  expect(named.toSorted()).toEqual([...stages, 'cli/src/', 'web/src/'].toSorted());
});

test('every stage has its one door', () => {
  const doorless = stages.filter((stage) => !existsSync(join(root, stage, 'index.ts')));
  expect(stages.length).toBeGreaterThan(0);
  expect(doorless).toEqual([]);
});
