/** The page of then and now, from what a diary keeps, at its longest. */
import { fold, type SavedPlace, type SetupBody } from '@evenhand/core/diary';
import { ownExercise, readContent } from '@evenhand/core/exercise';
import { comparisonsOf } from '@evenhand/core/progress';
import { readSticking } from '@evenhand/core/sticking';
import { expect, test } from 'vitest';
import { thenNowPdf, thenNowSheet } from './thennow.ts';

const LONG = 'a set-up that is told at length, as some players do: '.repeat(3);
const SETUPS: readonly SetupBody[] = [
  { sticks: LONG, drums: 'pad', pedal: LONG, heel: LONG, phonePlace: LONG },
  { sticks: 'others', drums: 'kit', pedal: 'other', heel: 'up', phonePlace: 'shelf' },
];

/** Two reference takes of a phrase, five weeks apart; of the strokes from the first to the last of `nearer` every one came 20 ms nearer in time. */
function compared(sticking: string, nearer: readonly [number, number]) {
  const exercise = ownExercise(readContent(readSticking(sticking).value!, { perBeat: 4 }).value!, 'x');
  const limbs = sticking.split('');
  const place = (index: number, biasMs: number): SavedPlace => ({
    ...{ index, limb: limbs[index]!, count: 40, unsure: false, missed: 0, notAudible: 0, levelDb: -20, spreadMs: 6 },
    ...{ biasMs, biasLowMs: biasMs - 2, biasHighMs: biasMs + 2 },
  });
  const records = ['2026-02-03', '2026-03-10'].flatMap((day, k) => {
    const biasOf = (index: number) => (k === 0 && index >= nearer[0] && index <= nearer[1] ? -24 : -4);
    const envelope = { v: 1, ownerId: 'o', atMs: k, zone: 'UTC', day };
    const heard = {
      ...{ trackedBpm: 90, offsetMs: 0, pairs: [], cleanRunCount: 1, runCount: 2, findings: [], problems: [] },
      places: limbs.map((_, index) => place(index, biasOf(index))),
    };
    const block = {
      ...{ sessionId: `s${k}`, position: 0, exercise, tempoBpm: 90, durationSec: 45, takeIds: [], playerSays: null, nextTempo: null, heard },
      reason: { code: 'plan-reason-reference', params: { week: 1 } },
    };
    const session = { stickingPointId: null, plannedMinutes: 1, endedAtMs: 0, ended: 'done', reason: null };
    return [
      ['setup', `u${k}`, SETUPS[k]],
      ['session', `s${k}`, session],
      ['block', `b${k}`, block],
    ].map(([kind, id, body], n) => ({ ...envelope, kind, id, body, made: { wallMs: k, counter: n, deviceId: 'd' } }));
  });
  return comparisonsOf(fold(records as never)).find(({ of }) => of === 'days')!;
}

const textOf = (bytes: Uint8Array): string => Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');

test('words before figures: what changed, then a row a stroke with both times, the change with its range, and both spreads', () => {
  const sheet = thenNowSheet(compared('RLRLKK', [5, 5]));
  expect(sheet.changed.lines[1]).toBe('Stroke 6 (kick) is nearer in time: 24 ms early then, 4 ms early now.');
  // Arithmetic: both ranges are ± 2, so that of the difference is ± √8; of 40 strokes the spread is known to a factor of e^(1.96·1.17/√40).
  expect(sheet.strokes.rows[5]).toEqual({
    sure: true,
    cells: ['6 K', 'early (−24, −26 to −22 ms)', 'in time (−4, −6 to −2 ms)', '+20 (+17 to +23) ms, for sure', '± 6 (4 to 9) ms', '± 6 (4 to 9) ms'],
  });
});

test.each(['letter'] as const)(
  '48 strokes, of which 7 changed for sure, and a set-up told at length are one page of %s, tagged; what is left out is said (says: issue 9, one page)',
  async (size) => {
    const of = compared('RLRRLRLLRLRLKKRLRRLRLLKK'.repeat(2), [10, 16]);
    const bytes = await thenNowPdf(of, { madeMs: 0, size });
    const text = textOf(bytes);
    expect(text.match(/\/Type \/Page\b/g)).toHaveLength(1);
    expect(text).toContain('/MediaBox [0 0 612 792]');
    // Two rings with their words; head and the seven strokes.
    expect(text.match(/\/S \/Figure/g)).toHaveLength(2);
    expect(text.match(/\/S \/TR/g)).toHaveLength(8);
    expect(thenNowSheet(of).strokes.rest(41)).toMatch(/^41 more strokes are left out here/);
  },
);
