import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { holdOf, RUDIMENTS, readSticking, soundingOf, soundingOfRudiment, stickingOfRudiment, timesHeld } from './index.ts';

interface Row {
  readonly no: number;
  readonly name: string;
  readonly cycle: string;
  readonly alternates: boolean | null;
}
const file = new URL('../../../../shared/reference/rudiments/rudiments.json', import.meta.url);
const present = existsSync(file);
if (!present) process.stderr.write('rudimenttable.test.ts skipped: ../shared/reference/rudiments is not here\n');
const rows: readonly Row[] = present ? JSON.parse(readFileSync(file, 'utf8')) : [];
const confirmed = [1, 7, 14, 16, 20, 24, 27, 29, 35, 36, 37, 38];

describe.skipIf(!present)('the table of 40 against reference/rudiments', () => {
  test.each(rows)('number $no: name, letters, graces, accents and alternation', ({ no, name, cycle, alternates }) => {
    const rudiment = RUDIMENTS[no - 1]!;
    const { strokes } = stickingOfRudiment(rudiment);
    expect(rudiment).toMatchObject({ number: no, name, alternates });
    const accents = strokes.map(({ limb, graces, accent }) => graces.join('').toLowerCase() + (accent ? '^' : '') + limb).join('');
    expect(accents).toBe(cycle.replaceAll(' ', ''));
  });
});

test('PAS list: 40 rudiments, each reads without a problem and in its canonical text', () => {
  expect(RUDIMENTS).toHaveLength(40);
  for (const { text } of RUDIMENTS) expect(readSticking(text)).toMatchObject({ problems: [], value: { text } });
});

test('law: what a rudiment sounds like is the same from its text as from its strokes, on both leads', () => {
  for (const rudiment of RUDIMENTS)
    for (const lead of ['R', 'L'] as const) expect(soundingOfRudiment(rudiment, lead)).toBe(soundingOf(stickingOfRudiment(rudiment, lead)));
});

test('FACTS.md 9: rows whose sticking is confirmed stand apart from those from memory', () => {
  expect(RUDIMENTS.filter(({ says }) => says === 'confirmed').map(({ number }) => number)).toEqual(confirmed);
});

test('FACTS.md 9: a rudiment that alternates is its own mirror, half a cycle on', () => {
  for (const rudiment of RUDIMENTS) {
    const [right, left] = (['R', 'L'] as const).map((lead) => soundingOf(stickingOfRudiment(rudiment, lead)));
    const half = right!.length / 2;
    if (rudiment.alternates) expect(right!.slice(half) + right!.slice(0, half)).toBe(left);
    else if (rudiment.alternates === false) expect(right!.slice(half) + right!.slice(0, half)).not.toBe(left);
  }
});

test('FACTS.md 9, computed: 23 hold LL with nothing between, 29 with graces ignored, 35 with graces counted', () => {
  const holds = RUDIMENTS.map((rudiment) => ({ number: rudiment.number, hold: holdOf(soundingOfRudiment(rudiment), 'LL') }));
  const numbers = (...classes: readonly string[]) => holds.filter(({ hold }) => hold && classes.includes(hold)).map(({ number }) => number);
  const ignored = [5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 22, 24, 25, 26, 29, 30, 32, 33, 35, 36, 37, 38, 39, 40];
  expect(ignored).toHaveLength(29);
  expect(numbers('plain')).toEqual(ignored.filter((number) => ![29, 32, 33, 38, 39, 40].includes(number)));
  expect(numbers('plain')).toHaveLength(23);
  expect(numbers('plain', 'graces-between')).toEqual(ignored);
  const counted = RUDIMENTS.filter((rudiment) =>
    /LL/.test((soundingOf(stickingOfRudiment(rudiment)) + soundingOf(stickingOfRudiment(rudiment))[0]).toUpperCase()),
  );
  expect(counted).toHaveLength(35);
  expect(counted.map(({ number }) => number)).toEqual(
    Array.from({ length: 40 }, (_, i) => i + 1).filter((number) => ![1, 2, 3, 4, 29].includes(number)),
  );
  expect(numbers('plain', 'graces-between', 'graces-counted')).toEqual(
    [...new Set([...ignored, ...counted.map(({ number }) => number)])].sort((a, b) => a - b),
  );
});

test('FACTS.md 9, computed: led by the left, 28 and 34 gain LL among main strokes', () => {
  const left = (number: number) => holdOf(soundingOfRudiment(RUDIMENTS[number - 1]!, 'L'), 'LL');
  expect([left(28), left(34)]).toEqual(['plain', 'graces-between']);
});

test.each([
  { word: 'RRLL', cell: 'LL', times: 1, says: 'by hand' },
  { word: 'RLRRLRLL', cell: 'RR', times: 1, says: 'by hand' },
  { word: 'LRL', cell: 'LL', times: 1, says: 'by hand, across the end' },
  { word: 'RRRLLL', cell: 'RR', times: 1, says: 'by hand, no stroke twice' },
  { word: 'RLRL', cell: 'RL', times: 2, says: 'by hand' },
  { word: 'RL', cell: 'LL', times: 0, says: 'by hand' },
])('$says: $cell stands $times times in $word', ({ word, cell, times }) => {
  expect(timesHeld(word, cell)).toBe(times);
});
