/** Progress as tables: read back by the door for tables, cell by cell. */
import { readCsv } from '@evenhand/core/csv';
import { addDays } from '@evenhand/core/day';
import { ownExercise, readContent } from '@evenhand/core/exercise';
import type { BlockResult } from '@evenhand/core/progress';
import { readSticking } from '@evenhand/core/sticking';
import { expect, test } from 'vitest';
import { allRisenCsv, tempoCsv } from './tables.ts';

const exerciseOf = (sticking: string, title: string) => ownExercise(readContent(readSticking(sticking).value!, { perBeat: 4 }).value!, title);
const [phrase, other] = [exerciseOf('RLRLKK', 'The phrase'), exerciseOf('KKRL', '=SUM(A1)')];
const MONDAY = '2026-01-05';

/** Eight weeks of both, each a little faster every week: half of the runs at the higher tempo are clean. */
const results: readonly BlockResult[] = Array.from({ length: 8 }, (_, week) =>
  [phrase, other].flatMap((exercise) =>
    [0, 2, 4].flatMap((day) =>
      [
        [80, 20],
        [96, 10],
      ].map(([bpm, clean]) => ({
        ...{ exerciseId: exercise.id, exercise, day: addDays(MONDAY, 7 * week + day), tempoBpm: bpm! + 2 * week, clean: clean!, runs: 20 },
        ...{ byEar: exercise === phrase, reference: exercise === phrase },
      })),
    ),
  ),
).flat();
const rowsOf = (text: string) => {
  const [head, ...rows] = readCsv(text).rows.map(({ fields }) => fields);
  return rows.map((fields) => Object.fromEntries(head!.map((name, k) => [name, fields[k]!])));
};

test('a row for each exercise and day, with its range, its runs and by whom (says: docs/formats/exports.md)', () => {
  const text = tempoCsv(results);
  expect(text.startsWith('\uFEFFday,exercise,sticking,perBeat,family,cleanTempoBpm,low90,high90,clean,runs,by,exerciseId\r\n')).toBe(true);
  const rows = rowsOf(text);
  expect(rows).toHaveLength(2 * 24);
  const last = rows.filter(({ sticking }) => sticking === 'RLRLKK').at(-1)!;
  expect(last).toMatchObject({ day: '2026-02-27', perBeat: '4', clean: '30', runs: '40', by: 'ear', exerciseId: phrase.id });
  // Arithmetic: all clean at 94 and half at 110 that week, so 85 of 100 lie between them.
  expect(Number(last.cleanTempoBpm)).toBeGreaterThan(90);
  expect(Number(last.cleanTempoBpm)).toBeLessThan(110);
  expect(Number(last.low90)).toBeLessThan(Number(last.cleanTempoBpm));
});

test('a title that a spreadsheet would run is made harmless; a change below zero stays a number (says: OWASP)', () => {
  expect(tempoCsv(results)).toContain("'=SUM(A1)");
  expect(allRisenCsv(results, '2026-03-01')).not.toMatch(/'-\d/);
});

test('what rose with the phrase, week against week: both rose in all seven (arithmetic: eight weeks have seven steps)', () => {
  expect(rowsOf(allRisenCsv(results, '2026-03-01'))).toEqual([
    expect.objectContaining({ against: 'RLRLKK', sticking: 'KKRL', perBeat: '4', weeks: '7', roseWeeks: '7', bothRoseWeeks: '7', word: 'notSure' }),
  ]);
});
