/** The code map of ARCHITECTURE.md and the folders there are say the same. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { workspacesOf } from './packages.mjs';

const root = join(import.meta.dirname, '..');
const map = readFileSync(join(root, 'ARCHITECTURE.md'), 'utf8');
const named = [...map.matchAll(/^- `((?:\w+)\/src\/[^`]*)`/gm)].map((match) => match[1]);
const foldersIn = (place) => readdirSync(join(root, place), { withFileTypes: true }).filter((entry) => entry.isDirectory());
const stages = foldersIn('core/src').map(({ name }) => `core/src/${name}/`);

/** A workspace beside the core is named as a whole, or folder by folder. */
const apps = workspacesOf(root)
  .filter((workspace) => workspace !== 'core')
  .flatMap((workspace) =>
    named.includes(`${workspace}/src/`) ? [`${workspace}/src/`] : foldersIn(`${workspace}/src`).map(({ name }) => `${workspace}/src/${name}/`),
  );

test('the map names every stage of the core and every other workspace, and nothing that is not there', () => {
  expect(named.toSorted()).toEqual([...stages, ...apps].toSorted());
});

test('every stage has its one door', () => {
  const doorless = stages.filter((stage) => !existsSync(join(root, stage, 'index.ts')));
  expect(stages.length).toBeGreaterThan(0);
  expect(doorless).toEqual([]);
});
