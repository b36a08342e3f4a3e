/** The diary's laws: merging, folding, editing, and what is not understood. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareRecords } from './clock.ts';
import { correctionsOf, deletionOf, editOf } from './edit.ts';
import { dayOf, fold } from './fold.ts';
import { letGoOf } from './letgo.ts';
import { mergeRecords } from './merge.ts';
import type { DiaryRecord, EditBody, KnownRecord, RecordDraft } from './record.ts';
import { anyRecords, DRAFTS } from './records.case.ts';
import { searchDays } from './search.ts';
import { upgradeBy } from './upgrade.ts';
import { readLines, writeLines, writeRecord } from './write.ts';

const recordOf = (draft: RecordDraft, counter: number): KnownRecord =>
  writeRecord(draft, {
    id: counter.toString(16).padStart(32, '0'),
    ownerId: 'aa'.repeat(16),
    made: { wallMs: 1_767_632_400_000, counter, deviceId: 'bb'.repeat(16) },
  });
const RECORDS = DRAFTS.map(recordOf);
const ofKind = <Kind extends KnownRecord['kind']>(kind: Kind): KnownRecord<Kind> =>
  RECORDS.find((record) => record.kind === kind) as KnownRecord<Kind>;
const editRecord = (body: EditBody, counter: number): KnownRecord =>
  recordOf({ kind: 'edit', atMs: 0, zone: 'UTC', day: '2026-01-06', body }, counter);

describe('merging', () => {
  it('does not depend on which is first, on grouping, or on repetition', () => {
    fc.assert(
      fc.property(anyRecords, anyRecords, anyRecords, (a, b, c) => {
        expect(mergeRecords(a, b)).toEqual(mergeRecords(b, a));
        expect(mergeRecords(mergeRecords(a, b), c)).toEqual(mergeRecords(a, mergeRecords(b, c)));
        expect(mergeRecords(mergeRecords(a, b), b)).toEqual(mergeRecords(a, b));
      }),
    );
  });

  it('keeps every id, whatever the kind, in one order', () => {
    fc.assert(
      fc.property(anyRecords, anyRecords, (a, b) => {
        const merged = mergeRecords(a, b);
        expect(new Set(merged.map(({ id }) => id))).toEqual(new Set([...a, ...b].map(({ id }) => id)));
        expect(merged.every((record, i) => i === 0 || compareRecords(merged[i - 1]!, record) < 0)).toBe(true);
      }),
    );
  });
});

describe('the view', () => {
  it('does not depend on the order of records or on doubles', () => {
    fc.assert(
      fc.property(
        anyRecords.chain((records) => fc.tuple(fc.constant(records), fc.shuffledSubarray([...records], { minLength: records.length }))),
        ([records, shuffled]) => {
          expect(fold([...shuffled, ...records])).toEqual(fold(records));
        },
      ),
    );
  });

  it('gathers a session with its blocks, takes and note on its day', () => {
    const view = fold(RECORDS);
    const [day] = view.days;
    expect(view.days.map((entry) => entry.day)).toEqual(['2026-01-05']);
    expect(day!.sessions[0]!.blocks.map(({ id }) => id)).toEqual([ofKind('block').id]);
    expect(day!.sessions[0]!.takes.map(({ id }) => id)).toEqual([ofKind('take').id]);
    expect(day!.sessions[0]!.session.body.ended).toBe('done');
    expect(day!.notes[0]!.body.text).toBe('left foot heavy today 🥁 שלום');
    expect({ played: day!.playedSec, settings: view.settings, notShown: view.notShownCount }).toEqual({
      played: 60,
      settings: { cutOverHour: 4 },
      notShown: 0,
    });
    expect(dayOf(view, '2026-01-06')).toEqual({ day: '2026-01-06', sessions: [], notes: [], loose: [], playedSec: 0 });
  });

  it('shows a block whose session is not here as loose, and hides one whose session is deleted', () => {
    const withoutSession = RECORDS.filter(({ kind }) => kind !== 'session');
    expect(fold(withoutSession).days[0]!.loose.map(({ kind }) => kind)).toEqual(['take', 'block']);
    const deleted = [...RECORDS, editRecord(deletionOf(ofKind('session')), 100)];
    expect(fold(deleted).days[0]).toMatchObject({ sessions: [], loose: [], playedSec: 0 });
    expect(fold([...deleted, editRecord(deletionOf(ofKind('session'), 'undo'), 101)]).days[0]!.sessions.length).toBe(1);
  });
});

describe('a plan', () => {
  const plan = ofKind('plan');

  it('stands until a later revision names it, whichever comes in first', () => {
    const next = recordOf({ ...plan, id: '2c'.repeat(16), body: { ...plan.body, minutes: 5, replaces: plan.id } }, 60);
    for (const records of [
      [plan, next],
      [next, plan],
    ])
      expect(fold(records).plan).toEqual(next);
    expect(fold([]).plan).toBe(null);
  });
});

describe('an edit', () => {
  const note = ofKind('note');

  it('counts by when it was made, not by when it arrives', () => {
    const early = editRecord(editOf(note, 'text', 'early'), 50);
    const late = editRecord(editOf(note, 'text', 'late'), 51);
    for (const records of [
      [note, early, late],
      [late, early, note],
    ])
      expect(fold(records).days[0]!.notes[0]!.body.text).toBe('late');
  });

  it('changes one field and leaves the record itself as it was', () => {
    const before = JSON.stringify(note);
    const shown = fold([note, editRecord(editOf(note, 'text', 'new'), 50)]).days[0]!.notes[0]!;
    expect(shown).toEqual({ ...note, body: { ...note.body, text: 'new' } });
    expect(JSON.stringify(note)).toBe(before);
  });

  it('moves an entry to another day, but only to one that exists', () => {
    const move = (value: unknown, counter: number): DiaryRecord => editRecord({ targetId: note.id, targetV: 1, field: 'day', value }, counter);
    expect(fold([note, move('2026-01-07', 50)]).days.map(({ day }) => day)).toEqual(['2026-01-07']);
    expect(fold([note, move('2026-02-30', 50)]).days.map(({ day }) => day)).toEqual([note.day]);
  });

  it('of the wrong kind of value changes nothing', () => {
    expect(fold([note, editRecord({ targetId: note.id, targetV: 1, field: 'body.text', value: 7 }, 50)]).days[0]!.notes[0]).toEqual(note);
  });
});

describe('versions', () => {
  const reader = {
    v: 3,
    fields: { words: 'text', loud: 'number' },
    steps: [
      ({ text, ...rest }: Readonly<Record<string, unknown>>) => ({ ...rest, words: text }),
      (body: Readonly<Record<string, unknown>>) => ({ loud: String(body.words).length, ...body }),
    ],
  } as const;
  const old: DiaryRecord = { ...ofKind('note'), body: { text: 'old', kept: true } };
  const edit = (targetV: number, field: string, value: unknown): EditBody => ({ targetId: old.id, targetV, field, value });

  it('are climbed step by step, with the edits made on each', () => {
    expect(upgradeBy(reader, old, [])?.body).toEqual({ words: 'old', loud: 3, kept: true });
    expect(upgradeBy(reader, old, [edit(1, 'body.text', 'edited')])?.body).toEqual({ words: 'edited', loud: 6, kept: true });
    expect(upgradeBy(reader, old, [edit(1, 'body.text', 'edited'), edit(3, 'body.words', 'again')])?.body).toEqual({
      words: 'again',
      loud: 6,
      kept: true,
    });
    expect(upgradeBy(reader, old, [edit(4, 'body.words', 'from the future')])?.body).toEqual({ words: 'old', loud: 3, kept: true });
  });

  it('that are newer, and kinds that are not known, are counted, kept and passed on, not shown', () => {
    const newer = { ...ofKind('note'), id: 'f'.repeat(32), v: 2, sky: 'blue' };
    const unknown = { ...ofKind('note'), id: 'e'.repeat(32), kind: 'dream' };
    const view = fold([newer, unknown]);
    expect({ days: view.days, notShown: view.notShownCount }).toEqual({ days: [], notShown: 2 });
    expect(readLines(writeLines([newer, unknown])).value).toEqual(mergeRecords([newer, unknown], []));
  });
});

describe('JSON lines', () => {
  it('give back every record, unknown kinds and fields and odd text included', () => {
    fc.assert(
      fc.property(anyRecords, (records) => {
        const read = readLines(writeLines(records));
        expect(read.problems).toEqual([]);
        expect(read.value).toEqual(JSON.parse(JSON.stringify(mergeRecords(records, []))));
        expect(writeLines(read.value!)).toBe(writeLines(records));
      }),
    );
  });

  it('name the line that is not readable and keep the rest', () => {
    const text = `${JSON.stringify(RECORDS[0])}\nnot json\n{"id":"x"}\n\n${JSON.stringify({ ...RECORDS[1], day: '2026-02-30' })}\n${JSON.stringify(RECORDS[2])}`;
    const read = readLines(text);
    expect(read.value).toEqual([RECORDS[0], RECORDS[2]]);
    expect(read.problems.map(({ code, at }) => [code, at])).toEqual([
      ['diary-line-not-json', 2],
      ['diary-line-not-record', 3],
      ['diary-line-not-record', 5],
    ]);
  });

  it('of version 1 are read for ever as they were meant', () => {
    const text = readFileSync(new URL('./fixtures/version-1.jsonl', import.meta.url), 'utf8');
    const { value, problems } = readLines(text);
    expect(problems).toEqual([]);
    const view = fold(value!);
    const session = view.days[1]!.sessions[0]!;
    expect(view.days.map(({ day }) => day)).toEqual(['2026-01-06', '2026-01-05']);
    expect(session.session.body).toMatchObject({ ended: 'done', endedAtMs: 1767632640000, plannedMinutes: 3 });
    expect(session.blocks[0]!.body).toMatchObject({ tempoBpm: 90, exercise: { sticking: 'KKRLRL' }, heard: { cleanRunCount: 9, runCount: 12 } });
    expect(session.takes[0]!.body).toMatchObject({ strokes: [{ timeSec: 0.002, levelDb: -18.5, confidence: 0.97, drum: 'snare' }] });
    expect(view.days[0]!.notes.map(({ body }) => body.text)).toEqual(['the pad was wet']);
    expect(view.stickingPoints[0]!.body.sticking).toBe('RLRLKK');
    expect({ settings: view.settings, sticks: view.setup?.body.sticks, notShown: view.notShownCount }).toEqual({
      settings: { cutOverHour: 4 },
      sticks: '5A',
      notShown: 0,
    });
  });

  it('of version 1 with plans and words round by round are read for ever as they were meant', () => {
    const { value, problems } = readLines(readFileSync(new URL('./fixtures/version-1-plan.jsonl', import.meta.url), 'utf8'));
    expect(problems).toEqual([]);
    const { plan, days, setups, notShownCount } = fold(value!);
    expect(plan!.body).toMatchObject({ replaces: '3a'.repeat(16), away: ['2026-01-07'], goalBpm: 96, weekdays: [1, 3] });
    expect(plan!.body.sessions.map(({ date, minutes, blocks }) => [date, minutes, blocks[0]!.part])).toEqual([
      ['2026-01-05', 3, 'work'],
      ['2026-01-12', 3, 'work'],
    ]);
    expect(plan!.body.exercises[0]!.sticking).toBe('KKRLRL');
    expect(days[0]!.sessions[0]!.blocks[0]!.body).toMatchObject({ heard: null, playerSays: 'hadIt', playerRounds: { hadIt: 4, again: 1 } });
    expect({ sticks: setups.map(({ body }) => body.sticks), notShownCount }).toEqual({ sticks: ['5A', '7A'], notShownCount: 0 });
  });

  it('of version 1 with choices: of an exercise the one made last stands, wherever it comes in the file (docs/formats/diary-records.md)', () => {
    const { value, problems } = readLines(readFileSync(new URL('./fixtures/version-1-choice.jsonl', import.meta.url), 'utf8'));
    expect(problems).toEqual([]);
    const { choices, notShownCount } = fold([...value!].reverse());
    expect(choices.map(({ body }) => [body.exercise.id, body.is, body.own])).toEqual([
      ['e2', 'open', true],
      ['e1', 'kept', false],
      ['e3', 'dropped', false],
    ]);
    expect(notShownCount).toBe(0);
  });

  it('of version 1 with a block in which the tempo moved', () => {
    const { value, problems } = readLines(readFileSync(new URL('./fixtures/version-1-stretches.jsonl', import.meta.url), 'utf8'));
    expect(problems).toEqual([]);
    const { days, notShownCount } = fold(value!);
    const [body] = days[0]!.loose.map((one) => one.body);
    expect([body, notShownCount]).toMatchObject([{ tempoBpm: 72, stretches: [{ runs: 14 }, { tempoBpm: 76, clean: 3, byEar: true }] }, 0]);
  });

  it('of version 1 with plans for two phrases, what was agreed in one, and a tempo that was searched for', () => {
    const { value, problems } = readLines(readFileSync(new URL('./fixtures/version-1-agreed.jsonl', import.meta.url), 'utf8'));
    expect(problems).toEqual([]);
    const { plans, plan, days, notShownCount } = fold(value!);
    expect([plans.map(({ body }) => body.stickingPointId), plan]).toEqual([['0a'.repeat(16), '1a'.repeat(16)], plans[1]]);
    expect(plans[0]!.body).toMatchObject({
      caps: [{ exerciseId: 'e1', tempoBpm: 80, until: '2026-01-18' }],
      ways: [{ exerciseId: 'e1', way: 'oneTempo', tempoBpm: 72 }],
      own: [{ as: 'repertoire', tempoBpm: 100, minutes: 3 }],
    });
    expect([plans[1]!.body.caps, days[0]!.loose[0]!.body]).toMatchObject([undefined, { search: [{ byEar: true }, { tempoBpm: 80, runs: 1 }] }]);
    expect(notShownCount).toBe(0);
  });
});

it('a plan of version 1 with the click of its blocks is read as written, one from before it without (says: docs/formats/diary-records.md)', () => {
  const plansOf = (name: string) => fold(readLines(readFileSync(new URL(`./fixtures/${name}.jsonl`, import.meta.url), 'utf8')).value!).plans;
  const [plan] = plansOf('version-1-clicks');
  expect(plan!.body.clicks).toMatchObject([
    { click: { place: 'twoAndFour', gainDb: -6 }, until: '2026-01-18' },
    { click: { perBeat: 2, accents: [0, 2] }, fewerClicks: true },
  ]);
  expect(plan!.body.sessions[0]!.blocks[0]).toMatchObject({ click: { place: 'twoAndFour' } });
  expect(plansOf('version-1-agreed').map(({ body }) => body.clicks)).toEqual([undefined, undefined]);
});

it('lines of version 1 with sound that was let go, once for good and once taken back (docs/formats/diary-records.md)', () => {
  const { value, problems } = readLines(readFileSync(new URL('./fixtures/version-1-thinning.jsonl', import.meta.url), 'utf8'));
  expect(problems).toEqual([]);
  const view = fold(value!);
  expect([...letGoOf(view)]).toEqual([['2c'.repeat(16), '2026-04-06']]);
  expect([view.thinnings.length, view.notShownCount, view.days.length]).toEqual([1, 0, 2]);
});

it('a take of version 1 says what its click sounded like; one from before it does not (docs/formats/diary-records.md)', () => {
  const soundsOf = (name: string) =>
    readLines(readFileSync(new URL(`./fixtures/${name}.jsonl`, import.meta.url), 'utf8')).value!.flatMap(({ kind, body }) =>
      kind === 'take' ? [(body as { readonly clickSound?: string }).clickSound] : [],
    );
  expect(soundsOf('version-1-clicksound')).toEqual(['knock']);
  expect(soundsOf('version-1')).toEqual([undefined]);
  expect(fold(readLines(readFileSync(new URL('./fixtures/version-1-clicksound.jsonl', import.meta.url), 'utf8')).value!).notShownCount).toBe(0);
});

describe('a draft', () => {
  it('whose body is not of its kind is a programming error', () => {
    expect(() => recordOf({ ...DRAFTS.find(({ kind }) => kind === 'note')!, body: { words: 'no text' } } as never, 0)).toThrow(/body of note/);
  });
});

describe('finding again', () => {
  it('finds a day by all words asked for, whatever capitals and accents (says: common practice, no source)', () => {
    const { days } = fold([noteOf('Après la répétition: slow doubles', '2026-01-06', 1), noteOf('slow singles', '2026-02-07', 2)]);
    const found = (asked: string) =>
      searchDays(days, asked, { ofBlock: () => '', ofDay: ({ day }) => (day === days[0]!.day ? 'Mesh heads' : '') }).map(({ day }) => day);
    expect(found('SLOW apres')).toEqual(['2026-01-06']);
    expect(found('slow')).toEqual(['2026-02-07', '2026-01-06']);
    expect(found('2026-02')).toEqual(['2026-02-07']);
    expect(found('mesh heads')).toEqual(['2026-02-07']);
    expect(found('triples')).toEqual([]);
    expect(found('  ')).toHaveLength(2);
  });

  it('tells every correction of a note with what stood there before (arithmetic: two changes, then struck out)', () => {
    const note = noteOf('one', '2026-01-06', 1);
    const edits = [editOf(note, 'text', 'two'), editOf(note, 'text', 'three'), deletionOf(note)].map((body, k) => editRecord(body, 10 + k));
    expect(correctionsOf([...edits].reverse().concat(note), note.id).map(({ field, before, after }) => [field, before, after])).toEqual([
      ['body.text', 'one', 'two'],
      ['body.text', 'two', 'three'],
      ['deleted', false, true],
    ]);
    expect(correctionsOf(edits, note.id)).toEqual([]);
  });
});

const noteOf = (text: string, day: string, counter: number) =>
  recordOf({ kind: 'note', atMs: 0, zone: 'UTC', day, body: { text, sessionId: null } }, counter) as KnownRecord<'note'>;
