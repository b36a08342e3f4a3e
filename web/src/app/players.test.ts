/** Whose diary a page opens, and the list of players as it changes. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  DAYS_OFF,
  FIRST_PLAYER,
  LONGEST_NAME,
  nameInFiles,
  nameTrouble,
  type Player,
  playersDue,
  playersHere,
  playersOff,
  tidyName,
  whoOpens,
  withChange,
  withoutPlayer,
  withPlayer,
} from './players.ts';

const DAY_MS = 86_400_000;
const pair = withPlayer([], { id: 'b', name: ' Ben ', firstName: 'Ada', atMs: 1000 });
const three = withPlayer(pair, { id: 'c', name: 'Cleo', firstName: '', atMs: 2000 });
const names = (players: readonly Player[]): readonly string[] => players.map(({ name }) => name);

describe('says: issue 8, several players on one device', () => {
  test('a first visit needs no player, and the diary that is here becomes the first player’s where it lies', () => {
    expect(whoOpens([], null)).toEqual(FIRST_PLAYER);
    expect(whoOpens([], 'somebody who is gone').storeName).toBe('evenhand');
    expect(pair.map(({ name, storeName }) => [name, storeName])).toEqual([
      ['Ada', 'evenhand'],
      ['Ben', 'evenhand-player-b'],
    ]);
  });

  test('no two players ever share a database, whoever comes and goes', () => {
    const steps = fc.array(fc.record({ coming: fc.boolean(), which: fc.nat(5) }), { maxLength: 20 });
    fc.assert(
      fc.property(steps, (all) => {
        let players: readonly Player[] = [];
        all.forEach(({ coming, which }, k) => {
          const going = playersHere(players)[which];
          if (coming) players = withPlayer(players, { id: `id${k}`, name: `Name ${k}`, firstName: 'First', atMs: k + 1 });
          else if (going) players = withoutPlayer(players, going.id, k + 1);
        });
        expect(new Set(players.map(({ storeName }) => storeName)).size).toBe(players.length);
        // Somebody is always here, and whoever is taken off does not come up by itself.
        expect(playersHere(players).length).toBeGreaterThan(0);
        expect(whoOpens(players, null).offAtMs).toBeNull();
      }),
      { numRuns: 100, seed: 8 },
    );
  });

  test('a page keeps its own player; a page without one opens the diary that was last changed over to', () => {
    const changed = withChange(three, 'c', { openedAtMs: 3000 });
    expect(whoOpens(changed, 'b').name).toBe('Ben');
    expect(whoOpens(changed, null).name).toBe('Cleo');
    // The page of a player who was taken off meanwhile opens another's.
    expect(whoOpens(withoutPlayer(changed, 'b', 4000), 'b').name).toBe('Cleo');
  });

  test('taken off, brought back, and due only after the days that were told', () => {
    const off = withoutPlayer(three, 'b', 5000);
    expect([names(playersHere(off)), names(playersOff(off))]).toEqual([['Ada', 'Cleo'], ['Ben']]);
    expect(playersDue(off, 5000 + DAYS_OFF * DAY_MS - 1)).toEqual([]);
    expect(names(playersDue(off, 5000 + DAYS_OFF * DAY_MS))).toEqual(['Ben']);
    expect(withChange(off, 'b', { offAtMs: null })).toEqual(three);
  });

  test('the last one here is not taken off', () => {
    const one = withoutPlayer(pair, 'b', 5000);
    expect(withoutPlayer(one, 'first', 6000)).toBe(one);
  });
});

describe('names', () => {
  test.each([
    ['', null, 'missing'],
    ['   ', null, 'missing'],
    ['ada', null, 'taken'],
    ['  Ben ', null, 'taken'],
    ['BEN', 'b', null],
    ['Cleo', null, null],
  ] as const)('says: issue 8, a name tells players apart: %j for %s is %s', (typed, ownId, trouble) => {
    expect(nameTrouble(typed, pair, ownId)).toBe(trouble);
  });

  test.each([
    ['Ada', 'Ada'],
    ['Ada  B.', 'Ada-B'],
    ['../../etc', 'etc'],
    ['a/b\\c:d*e?"<>|', 'a-b-c-d-e'],
    ['Зоя', 'Зоя'],
    ['🥁', 'player'],
  ])('common practice, no source: %j is %s in the name of a file, on any system', (name, inFiles) => {
    expect(nameInFiles(name)).toBe(inFiles);
  });

  test('arithmetic: a tidy name is never longer than a line, cuts no letter in half, and is tidy already', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 60 }), (typed) => {
        const name = tidyName(typed);
        expect([...name].length).toBeLessThanOrEqual(LONGEST_NAME);
        // Half a letter cannot be written in an address.
        expect(() => encodeURIComponent(name)).not.toThrow();
        expect(tidyName(name)).toBe(name);
      }),
      { numRuns: 200, seed: 8 },
    );
  });
});
