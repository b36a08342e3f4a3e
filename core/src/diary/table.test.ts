/** The diary as a table: out, in, and every odd text as it was. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { defused, readCsv, restored } from '../csv.ts';
import { ownExercise, readContent } from '../exercise/index.ts';
import { readSticking } from '../sticking/index.ts';
import { draftsOfTable, fold, type RecordDraft, readTable, recordId, TABLE_COLUMNS, writeRecord, writeTable } from './index.ts';

const idOf = (n: number): string => recordId(Uint8Array.from({ length: 16 }, (_, i) => (n >> (8 * i)) & 255));

/** A diary of drafts, stamped one after another. */
const diaryOf = (drafts: readonly RecordDraft[]) =>
  fold(drafts.map((draft, k) => writeRecord(draft, { id: idOf(1000 + k), ownerId: 'o', made: { wallMs: k, counter: 0, deviceId: 'd' } })));

const broughtIn = (text: string, known: ReadonlySet<string> = new Set()) => {
  let n = 5000;
  return draftsOfTable(readTable(text).value!, {
    known,
    newId: () => idOf(n++),
    zone: 'Europe/Berlin',
    noonOf: (day) => Date.parse(`${day}T11:00:00Z`),
  });
};

const text = fc.oneof(
  fc.string({ unit: 'grapheme' }),
  fc.string({ unit: 'binary' }),
  fc.constantFrom('=1+1', "'=1+1", "''@x", '+49', '-', '\t=', ' =cmd', 'שלום, “עולם”', '🥁👩‍🎤', 'a\r\nb', '"', ',', '\uFEFF', "'", '＝1', ' '),
);
const zone = fc.constantFrom('Europe/Berlin', 'Asia/Kathmandu', 'Pacific/Apia', 'UTC', 'America/Argentina/Buenos_Aires');
const day = fc.integer({ min: 0, max: 3652 }).map((n) => new Date(Date.UTC(2020, 0, 1 + n)).toISOString().slice(0, 10));
const exercise = fc
  .constantFrom('RLRLKK', '>RLL>R', 'lR R L', '(R)L/', 'R+K -')
  .map((sticking) => ownExercise(readContent(readSticking(sticking).value!, { perBeat: 4 }).value!, ''));
const when = fc.record({ day, zone, atMs: fc.integer({ min: 0, max: 4e12 }) });
const result = fc.record({ runs: fc.integer({ min: 0, max: 40 }), share: fc.double({ min: 0, max: 1, noNaN: true }), byEar: fc.boolean() });

const felt = fc.constantFrom('easy', 'tired', null);
const note = fc
  .tuple(when, text, felt)
  .map(([at, words, how]): RecordDraft => ({ ...at, kind: 'note', body: { text: words, sessionId: null, ...(how && { felt: how }) } }));
const session = fc.tuple(when, fc.integer({ min: 0, max: 600_000 }), fc.constantFrom('done', 'stopped', 'hurt', null)).map(
  ([at, lengthMs, ended]): RecordDraft => ({
    ...at,
    kind: 'session',
    body: { stickingPointId: null, plannedMinutes: 12, endedAtMs: ended === null ? null : at.atMs + lengthMs, ended, reason: null },
  }),
);
const block = fc
  .tuple(when, exercise, result, fc.integer({ min: 20, max: 320 }), fc.integer({ min: 0, max: 600 }))
  .map(([at, played, { runs, share, byEar }, tempoBpm, durationSec]): RecordDraft => {
    const clean = Math.floor(runs * share);
    const heard = { trackedBpm: tempoBpm, offsetMs: null, places: [], pairs: [], cleanRunCount: clean, runCount: runs, findings: [], problems: [] };
    const said = byEar ? { heard } : { heard: null, playerRounds: { hadIt: clean, again: runs - clean } };
    return {
      ...at,
      kind: 'block',
      body: {
        ...said,
        sessionId: '',
        position: 0,
        exercise: played,
        tempoBpm,
        durationSec,
        takeIds: [],
        playerSays: null,
        nextTempo: null,
        reason: null,
      },
    };
  });

describe('the diary as a table', () => {
  test('goes out, comes into an empty diary, and goes out the same (law: out · in · out = out)', () => {
    fc.assert(
      fc.property(fc.array(fc.oneof(note, session, block), { maxLength: 12 }), (drafts) => {
        const out = writeTable(diaryOf(drafts));
        const { value, problems } = readTable(out);
        expect(problems).toEqual([]);
        expect(value!.length).toBe(drafts.length);
        expect(writeTable(diaryOf(broughtIn(out).drafts))).toBe(out);
      }),
      { numRuns: 150, seed: 9 },
    );
  });

  test('what is here already stays as it is, and comes in once (law: in twice = in once)', () => {
    const out = writeTable(diaryOf([{ day: '2026-02-04', zone: 'UTC', atMs: 5, kind: 'note', body: { text: 'mine', sessionId: null } }]));
    expect(broughtIn(out, new Set([idOf(1000)]))).toMatchObject({ drafts: [], knownCount: 1 });
  });

  test('no cell begins as a formula, whatever was typed, and every text comes back (says: OWASP CSV Injection, from memory)', () => {
    fc.assert(
      fc.property(text, (typed) => {
        expect(defused(typed)).not.toMatch(/^\s*[=+\-@\t\r＝＋－＠]/);
        expect(restored(defused(typed))).toBe(typed);
      }),
      { numRuns: 1000, seed: 3 },
    );
  });

  test('a table by hand needs day, minutes and text only, in any order, with a comma for a point', () => {
    const { drafts, sessionCount, noteCount } = broughtIn(
      'text,Day,minutes,colour\nslow doubles,2026-02-04,"12,5",blue\n,2026-02-05,20,\nonly a thought,2026-02-06,,\n',
    );
    expect([drafts.length, sessionCount, noteCount]).toEqual([4, 2, 2]);
    const view = diaryOf(drafts);
    expect(view.days.map((one) => [one.day, one.playedSec])).toEqual([
      ['2026-02-06', 0],
      ['2026-02-05', 1200],
      ['2026-02-04', 750],
    ]);
  });

  test.each([
    ['2026-02-30,5', 'table-day', 3],
    ['2026-02-04,minus one', 'table-number', 3],
    ['2026-02-04,1441', 'table-number', 3],
    ['2026-02-04,,', 'table-nothing', 3],
    ['2026-02-04,5,"a\nb",zzz', 'table-choice', 3],
    ['2026-02-04,5,,block', 'table-sticking', 3],
    ['2026-02-04,5,,block,RLX', 'table-sticking', 3],
    ['2026-02-04,5,,block,RL', 'table-number', 3],
    ['2026-02-04,5,,block,RL,4,90,9,8', 'table-clean-more', 3],
    ['2026-02-04,5,,,,,,,,abc', 'table-id', 3],
    ['2026-02-04,5,,,,,,,,,yesterday', 'table-at', 3],
    ['2026-02-04,5,"never closed', 'table-quote-open', 3],
  ])('%s is left out with its line: %s (arithmetic: the third line)', (row, code, line) => {
    const { value, problems } = readTable(`day,minutes,text,kind,sticking,perBeat,tempoBpm,clean,runs,id,at\n2026-02-03,5\n${row}\n`);
    expect(problems.map((problem) => [problem.code, problem.params])).toEqual([[code, expect.objectContaining({ line })]]);
    expect(value!.map((one) => one.day)).toEqual(['2026-02-03']);
  });

  test('of a block in which the tempo moved it tells the tempo with most runs, the later of two alike (docs/formats/diary-table.md)', () => {
    const played = ownExercise(readContent(readSticking('RLRLKK').value!, { perBeat: 4 }).value!, '');
    const at = { day: '2026-02-04', zone: 'UTC', atMs: 0, kind: 'block' as const };
    const of = {
      sessionId: '',
      position: 0,
      exercise: played,
      tempoBpm: 72,
      durationSec: 60,
      takeIds: [],
      heard: null,
      playerSays: null,
      nextTempo: null,
      reason: null,
    };
    const stretches = [72, 76, 72].map((tempoBpm, k) => ({ tempoBpm, clean: k, runs: k === 0 ? 6 : 8, byEar: true }));
    const [, row] = readCsv(writeTable(diaryOf([{ ...at, body: { ...of, stretches } }]))).rows;
    expect(['tempoBpm', 'clean', 'runs', 'by'].map((column) => row!.fields[TABLE_COLUMNS.indexOf(column as 'by')])).toEqual(['72', '2', '8', 'ear']);
  });

  test('a table without days is refused, and two rows with one id give one', () => {
    expect(readTable('when,what\n1,2\n')).toMatchObject({ value: null, problems: [{ code: 'table-no-day', severity: 'refused' }] });
    const twice = `day,minutes,id\n2026-02-03,5,${idOf(1)}\n2026-02-04,6,${idOf(1)}\n`;
    expect(readTable(twice)).toMatchObject({ value: [{ day: '2026-02-03' }], problems: [{ code: 'table-twice', params: { line: 3, first: 2 } }] });
  });

  test('its first line names the columns of docs/formats/diary-table.md', () => {
    expect(readCsv(writeTable(diaryOf([]))).rows.map(({ fields }) => fields)).toEqual([[...TABLE_COLUMNS]]);
  });
});
