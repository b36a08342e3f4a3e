/** When npm packages count as missing, and where a program is looked for. */
import { expect, test } from 'vitest';
import { missingPackages } from './packages.mjs';
import { isInstalled } from './programs.mjs';

test.each([
  { says: 'nothing installed', wanted: { 'node_modules/a': { version: '1.0.0' } }, installed: {}, missing: ['node_modules/a'] },
  {
    says: 'the same version',
    wanted: { 'node_modules/a': { version: '1.0.0' } },
    installed: { 'node_modules/a': { version: '1.0.0' } },
    missing: [],
  },
  {
    says: 'another version',
    wanted: { 'node_modules/a': { version: '1.1.0' } },
    installed: { 'node_modules/a': { version: '1.0.0' } },
    missing: ['node_modules/a'],
  },
  { says: 'for another machine', wanted: { 'node_modules/a-win32': { version: '1.0.0', optional: true } }, installed: {}, missing: [] },
  {
    says: 'the project itself and its workspaces',
    wanted: { '': {}, core: {}, 'node_modules/@evenhand/core': { link: true } },
    installed: {},
    missing: [],
  },
])('packages missing with $says: $missing.length', ({ wanted, installed, missing }) => {
  expect(missingPackages(wanted, installed)).toEqual(missing);
});

test('a program is found on the path, or not', () => {
  expect(isInstalled('sh', '/nowhere:/bin')).toBe(true);
  expect(isInstalled('sh', '/nowhere')).toBe(false);
});
