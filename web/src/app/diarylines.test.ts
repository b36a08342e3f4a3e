/** Lines of the diary's page: days away once and whole, what happened to phrases, and what is as the last time. */
import type { DiaryDay, DiaryView, KnownRecord } from '@evenhand/core/diary';
import { expect, test } from 'vitest';
import { asLastTime, chosenLines, eventsByDay, linesAhead, monthsOf, pastLines, phraseName } from './diarylines.ts';

const block = (exercise: string, finding: string, code = 'plan-reason-phrase') =>
  ({ body: { exercise: { id: exercise }, heard: { findings: [{ code: finding }] }, reason: { code } } }) as unknown as KnownRecord<'block'>;
const played = (day: string, blocks: readonly KnownRecord<'block'>[] = []) =>
  ({
    day,
    playedSec: 60,
    notes: [],
    sessions: [{ session: { day, body: { stickingPointId: null } }, blocks, playedSec: 60 }],
  }) as unknown as DiaryDay;
const noted = (day: string) => ({ day, playedSec: 0, notes: [{ body: { text: 'A line.' } }], sessions: [] }) as unknown as DiaryDay;
const point = (id: string, day: string, state?: { is: string; day: string }) =>
  ({ id, day, body: { name: id, sticking: 'RLL', ...(state ? { state } : {}) } }) as unknown as KnownRecord<'stickingPoint'>;
const setup = (day: string, drums: string) =>
  ({ day, body: { sticks: 'thin', drums, pedal: '', heel: '', phonePlace: '' } }) as DiaryView['setups'][number];

test('days away are one line, whole; a note on one of them and a plan that moved are said in it; one missed day is its own (says: issue 9, read by somebody who did not live it)', () => {
  const days = [played('2026-10-27'), played('2026-10-25'), noted('2026-10-18'), played('2026-10-15')];
  const view = { days, stickingPoints: [], setups: [] } as unknown as DiaryView;
  const lines = pastLines(view, { today: '2026-10-28', away: ['2026-10-20', '2026-10-21', '2026-10-26'] });
  expect(lines.map(({ day, entry, longer }) => [day, longer ? 'away' : entry ? 'day' : 'moved'])).toEqual([
    ['2026-10-27', 'day'],
    ['2026-10-26', 'moved'],
    ['2026-10-25', 'day'],
    ['2026-10-24', 'away'],
    ['2026-10-18', 'day'],
    ['2026-10-15', 'day'],
  ]);
  expect(lines[3]!.longer).toEqual({ from: '2026-10-16', to: '2026-10-24', days: 9, noted: true, moved: true, told: true });
});

test('one month, or only what the player wrote and what began, ended or changed (arithmetic: one line and one phrase of three days)', () => {
  const days = [played('2026-11-02'), noted('2026-10-18'), played('2026-10-15')];
  const view = { days, stickingPoints: [point('one', '2026-10-15')], setups: [] } as unknown as DiaryView;
  const lines = pastLines(view, { today: '2026-11-03', away: [] });
  expect(monthsOf(lines)).toEqual(['2026-11', '2026-10']);
  const chosen = (month: string, own: boolean) => chosenLines(lines, { month, own }).map(({ day, longer }) => `${day}${longer ? ' away' : ''}`);
  expect(chosen('', true)).toEqual(['2026-10-18', '2026-10-15']);
  expect(chosen('2026-11', false)).toEqual(['2026-11-02', '2026-11-01 away']);
});

test('every day of the diary is shown once, also one that has not begun here: its days began earlier when it was written, or it was later there (says: common sense, a line that was just written is there)', () => {
  const days = [noted('2026-10-29'), played('2026-10-28'), noted('2026-10-27')];
  const view = { days, stickingPoints: [point('one', '2026-10-30')], setups: [] } as unknown as DiaryView;
  for (const today of ['2026-10-26', '2026-10-27', '2026-10-28', '2026-10-31']) {
    const [ahead, past] = [linesAhead(view, today), pastLines(view, { today, away: [] })];
    const shown = [...ahead, { day: today }, ...past].filter(({ day }) => days.some((one) => one.day === day)).map(({ day }) => day);
    expect(shown, today).toEqual(['2026-10-29', '2026-10-28', '2026-10-27']);
  }
  expect(linesAhead(view, '2026-10-28').map(({ day, entry, events }) => [day, entry !== undefined, events.length])).toEqual([
    ['2026-10-30', false, 1],
    ['2026-10-29', true, 0],
  ]);
});

test('a phrase begun, closed and put aside, and a set-up that changed, stand on their days, also where nothing was played', () => {
  const stickingPoints = [
    point('one', '2026-10-15', { is: 'closed', day: '2026-10-25' }),
    point('two', '2026-10-25', { is: 'paused', day: '2026-10-26' }),
  ];
  const setups = [setup('2026-10-15', 'cellar'), setup('2026-10-25', 'mesh')];
  const view = { days: [played('2026-10-25'), played('2026-10-15')], stickingPoints, setups } as unknown as DiaryView;
  const said = pastLines(view, { today: '2026-10-28', away: [] }).map(({ day, events }) => [day, ...events.map((event) => event.of)]);
  expect(said.filter((line) => line.length > 1)).toEqual([
    ['2026-10-26', 'paused'],
    ['2026-10-25', 'closed', 'begun', 'setup'],
    ['2026-10-15', 'begun'],
  ]);
  expect(eventsByDay({ stickingPoints: [], setups: [] }).size).toBe(0);
  // One phrase was open on the first day, two on the second.
  expect(['2026-10-15', '2026-10-25'].map((day) => phraseName(played(day).sessions[0]!.session, view))).toEqual(['one', null]);
});

test('what is said as the last time is folded; news, and takes at a tempo of their own against each other, are not', () => {
  const reference = 'plan-reason-reference';
  const before = [
    played('2026-10-27', [block('a', 'late'), block('b', 'even')]),
    played('2026-10-26', [block('a', 'even', reference), block('c', 'late')]),
  ];
  const today = [block('a', 'late'), block('b', 'late'), block('c', 'late'), block('a', 'late', reference), block('d', 'late')];
  const told = ({ body }: KnownRecord<'block'>) => body.heard!.findings[0]!.code;
  const { news, same } = asLastTime(today, before, told);
  expect([news.map((one) => today.indexOf(one)), same.map((one) => today.indexOf(one))]).toEqual([
    [1, 3, 4],
    [0, 2],
  ]);
  expect(asLastTime(today, [], told).news).toEqual(today);
  expect(asLastTime(today, before, () => '').news).toEqual(today);
});
