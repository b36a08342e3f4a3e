/** Units change in core/src/units.ts alone, as ARCHITECTURE.md says. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const root = join(import.meta.dirname, '..');

/** What a change of unit looks like: sixty, a thousand, ten to a power, a logarithm to ten. */
const CHANGE = /\b60_?000\b|\b86_?400|\b60 [/*]|[/*] 60\b|\b1_?000 \*|[*/] 1_?000\b|\b10 \*\* |Math\.log10/;

/** Where the same figures mean something else. */
const OTHERS = {
  'core/src/tempo/fittedcurve.ts': 'a thousandth of a spread, no unit',
  'core/src/player/room.ts': 'a reverberation time is the time of 60 dB',
  'core/src/stroke/parameters.ts': 'sixty thousand frames',
  'cli/src/figures.ts': 'digits after the point',
  'web/src/app/standsize.ts': 'minutes of arc',
  'web/src/demo/scenario.ts': 'times of the day, hours and minutes as one writes them',
};

const sources = ['core/src', 'adapters/src', 'cli/src', 'web/src'].flatMap((folder) =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(ts|svelte)$/.test(name) && !/\.(test|case)\.ts$|\.generated\.ts$/.test(name))
    .map((name) => `${folder}/${name}`.replaceAll('\\', '/')),
);

/** Lines of code; those of a comment say what they like. */
const linesOf = (file) =>
  readFileSync(join(root, file), 'utf8')
    .split('\n')
    .filter((line) => !/^\s*(\/\*|\*|\/\/|<!--)/.test(line));

test('no unit is changed anywhere but in core/src/units.ts', () => {
  expect(sources.length).toBeGreaterThan(500);
  const changed = sources.filter((file) => file !== 'core/src/units.ts' && !(file in OTHERS));
  expect(changed.flatMap((file) => linesOf(file).flatMap((line) => (CHANGE.test(line) ? [`${file}: ${line.trim()}`] : [])))).toEqual([]);
});

test('every exception is still one', () => {
  expect(Object.keys(OTHERS).filter((file) => !sources.includes(file) || !linesOf(file).some((line) => CHANGE.test(line)))).toEqual([]);
});
