/** Canonical JSON held against its standard; the plan of an import and entries by hand against what was put in. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { draftsByHand, isByHand } from './byhand.ts';
import { canonicalJson } from './canonical.ts';
import { fold } from './fold.ts';
import { isNewerFormat, isTakeId, mergeRecords, ownerOf, planImport, takeEntry, takeIdOf, writeRecord } from './index.ts';
import type { DiaryRecord, KnownRecord } from './record.ts';
import { anyRecords } from './records.case.ts';

describe('canonical JSON', () => {
  it.each([
    {
      says: 'RFC 8785, 3.2.2',
      text: '{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],"string":"\\u20ac$\\u000F\\u000aA\'\\u0042\\u0022\\u005c\\\\\\"\\/","literals":[null,true,false]}',
      canonical: '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
    },
    {
      says: 'RFC 8785, 3.2.3',
      text: '{"\\u20ac":1,"\\r":2,"\\ufb33":3,"1":4,"\\ud83d\\ude00":5,"\\u0080":6,"\\u00f6":7}',
      canonical: '{"\\r":2,"1":4,"\u0080":6,"ö":7,"€":1,"😀":5,"\ufb33":3}',
    },
    { says: 'arithmetic: minus zero is zero', text: '[-0]', canonical: '[0]' },
    { says: 'RFC 8259: names are any text', text: '{"toString":1,"__proto__":{"b":1,"a":2}}', canonical: '{"__proto__":{"a":2,"b":1},"toString":1}' },
  ])('writes $text as it should (says: $says)', ({ text, canonical }) => {
    expect(canonicalJson(JSON.parse(text))).toBe(canonical);
  });

  it('means what it was made from, and is made from what it means', () => {
    fc.assert(
      fc.property(fc.jsonValue({ stringUnit: 'binary' }), (value) => {
        const text = canonicalJson(value);
        expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(value)));
        expect(canonicalJson(JSON.parse(text))).toBe(text);
      }),
    );
  });

  it('leaves out what is undefined', () => {
    expect(canonicalJson({ b: undefined, a: [undefined] })).toBe('{"a":[null]}');
  });
});

const note = (id: string, text: string, wallMs = 1): DiaryRecord => ({
  v: 1,
  id,
  kind: 'note',
  ownerId: `owner of ${id}`,
  made: { wallMs, counter: 0, deviceId: 'd' },
  atMs: wallMs,
  zone: 'UTC',
  day: '2026-01-05',
  body: { text, sessionId: null },
});

describe('an import', () => {
  const present = [note('a', 'here'), note('b', 'both'), note('c', 'here says', 5)];
  const incoming = [note('b', 'both'), note('c', 'there says', 9), note('d', 'there')];

  it('keeps everything of both when merging, and of what differs the later', () => {
    const plan = planImport(present, incoming, 'merge');
    expect(plan.records).toEqual([note('a', 'here'), note('b', 'both'), note('d', 'there'), note('c', 'there says', 9)]);
    expect({ ...plan, records: 0 }).toEqual({ records: 0, added: [note('d', 'there')], knownCount: 1, differingCount: 1, removedCount: 0 });
  });

  it('takes the place of the diary when whole, and says what goes', () => {
    const plan = planImport(present, incoming, 'whole');
    expect(plan.records).toEqual(mergeRecords(incoming, []));
    expect({ ...plan, records: 0 }).toEqual({ records: 0, added: [note('d', 'there')], knownCount: 1, differingCount: 1, removedCount: 1 });
  });

  it('counts every record once and loses none, whatever the records', () => {
    fc.assert(
      fc.property(anyRecords, anyRecords, (a, b) => {
        const [here, there] = [mergeRecords(a, []), mergeRecords(b, [])];
        const merge = planImport(here, there, 'merge');
        expect(merge.records).toEqual(mergeRecords(here, there));
        expect(merge.added.length + merge.knownCount + merge.differingCount).toBe(there.length);
        expect(merge.records.length).toBe(here.length + merge.added.length);
        const whole = planImport(here, there, 'whole');
        expect(whole.records).toEqual(there);
        expect(whole.records.length).toBe(here.length + whole.added.length - whole.removedCount);
      }),
    );
  });

  it('knows whose diary it is by the first record', () => {
    expect(ownerOf([note('x', '', 3), note('y', '', 2)])).toBe('owner of y');
    expect(ownerOf([])).toBe(null);
  });
});

describe('an entry by hand', () => {
  const when = { day: '2026-02-04', atMs: Date.UTC(2026, 1, 4, 11), zone: 'Europe/Vienna' };
  const written = (entry: Parameters<typeof draftsByHand>[0]) =>
    draftsByHand(entry, 'ee'.repeat(16)).map((draft, i) =>
      writeRecord(draft, { id: `n${i}`, ownerId: 'o', made: { wallMs: 1, counter: i, deviceId: 'd' } }),
    );

  it('counts its minutes on its day and keeps its note beside them', () => {
    const day = fold(written({ ...when, minutes: 20, note: 'pad 🥁' })).days[0]!;
    expect({ day: day.day, playedSec: day.playedSec, blocks: day.sessions[0]!.blocks }).toEqual({ day: '2026-02-04', playedSec: 1200, blocks: [] });
    expect(isByHand(day.sessions[0]!.session)).toBe(true);
    expect(day.notes[0]!.body).toEqual({ text: 'pad 🥁', sessionId: 'ee'.repeat(16) });
  });

  it('may be a note alone or minutes alone, not nothing', () => {
    expect(written({ ...when, minutes: null, note: 'rest' }).map(({ kind, body }) => [kind, (body as { sessionId?: unknown }).sessionId])).toEqual([
      ['note', null],
    ]);
    expect(written({ ...when, minutes: 5, note: null }).map(({ kind }) => kind)).toEqual(['session']);
    expect(() => draftsByHand({ ...when, minutes: null, note: null }, 'x')).toThrow(/minutes, a note/);
  });

  it('is not what a session of the tool is', () => {
    const session = written({ ...when, minutes: 20, note: null })[0] as KnownRecord<'session'>;
    expect(fold([{ ...session, body: { ...session.body, reason: null } }]).days[0]!.playedSec).toBe(0);
  });
});

describe('names in a backup', () => {
  it('lead to takes and nowhere else', () => {
    expect(takeIdOf(takeEntry('0f'.repeat(16)))).toBe('0f'.repeat(16));
    for (const id of ['', 'x', '0F'.repeat(16), '../'.repeat(11), `${'0f'.repeat(16)}\n`]) expect(isTakeId(id)).toBe(false);
  });

  it.each([
    ['evenhand-backup/1', false],
    ['evenhand-backup/2', true],
    ['evenhand-backup/10', true],
    ['evenhand-backup/0', false],
    ['evenhand-backup/02', false],
    ['other/2', false],
  ])('%s is of a later version: %s', (format, newer) => {
    expect(isNewerFormat(format)).toBe(newer);
  });
});
