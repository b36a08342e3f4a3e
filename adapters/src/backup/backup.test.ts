/** A backup gives back what went into it, and notices every bit that is not as it was written. */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { type DiaryRecord, fold, manifestText, mergeRecords, planImport, RECORDS_ENTRY, takeEntry, writeLines } from '@evenhand/core/diary';
import { seededRandom } from '@evenhand/core/random';
import { say } from '@evenhand/core/words';
import fc from 'fast-check';
import { unzipSync, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { anyRecords } from '../../../core/src/diary/records.case.ts';
import { decodeFlac } from '../flac/index.ts';
import { utf8Of } from '../utf8.ts';
import { addEntry, EMPTY_ZIP, endZip, type ZipSoFar } from '../zip/index.ts';
import { backupBytes, bytesSource, partsOf, readBackup, readBackupAtOnce, writeBackup } from './index.ts';
import { idOf, pitRecords, pitTakes } from './pit-drummer.case.ts';

/** Written by the first version that wrote backups, and kept for ever. */
const FIXTURE = Uint8Array.from(readFileSync(new URL('../../fixtures/backup-version-1.zip', import.meta.url)));

const read = (bytes: Uint8Array) => readBackupAtOnce(bytesSource(bytes));
const codeOf = async (bytes: Uint8Array) => (await read(bytes)).problems[0]?.code;

/** A small backup: two records, one take of a few bytes. */
const TINY_TAKE = pitRecords.at(-1)!.id;
const tiny = () => backupBytes(pitRecords.slice(-2), [{ takeId: TINY_TAKE, flac: Uint8Array.from([102, 76, 97, 67]) }]);

/** An archive of our own layout with any entries. */
function wrap(entries: readonly (readonly [name: string, text: string])[]): Uint8Array {
  let zip: ZipSoFar = EMPTY_ZIP;
  const pieces: Uint8Array[] = [];
  for (const [name, text] of entries) {
    const added = addEntry(zip, name, utf8Of(text));
    zip = added.zip;
    pieces.push(added.header, utf8Of(text));
  }
  return Uint8Array.from(Buffer.concat([...pieces, ...endZip(zip)]));
}

async function takesOf(bytes: Uint8Array) {
  const backup = (await read(bytes)).value!;
  return Promise.all(backup.takeIds.map(async (takeId) => ({ takeId, flac: await backup.readTake(takeId) })));
}

describe('a backup of version 1', () => {
  it('is read for ever as it was meant', async () => {
    const { value, problems } = await read(FIXTURE);
    expect(problems).toEqual([]);
    const view = fold(value!.records);
    expect(view.days.map(({ day, playedSec, notes }) => [day, playedSec / 60, notes.map(({ body }) => body.text)])).toEqual([
      ['2026-02-05', 0, ['מחר הצגה כפולה — ‏20:00']],
      ['2026-02-04', 20, ['Pad in the dressing room, no tool 🥁']],
      ['2026-02-03', 6, ['=second kick "swallowed",\nlouder with heel up']],
    ]);
    expect(view.days[2]!.sessions[0]!.session.body.plannedMinutes).toBe(13);
    expect({ notShown: view.notShownCount, point: view.stickingPoints[0]!.body.sticking }).toEqual({ notShown: 1, point: 'RLRLKK' });
    expect(value!.records.find(({ kind }) => kind === 'curtain call')!.body).toEqual({
      bows: [1, 2, JSON.parse('{"half":"\\ud83e","__proto__":"own"}')],
      zero: 0,
      small: 1e-7,
      ünknown: 'ü',
    });
    const sound = await decodeFlac(await value!.readTake(value!.takeIds[0]!));
    expect({ ...sound, samples: sound.samples.length }).toEqual({
      sampleRateHz: 44100,
      bits: 16,
      samples: 22050,
      promisedCount: 22050,
      damaged: false,
    });
  });

  it('is written again with the same bytes', async () => {
    const { value } = await read(FIXTURE);
    expect(await backupBytes(value!.records, await takesOf(FIXTURE))).toEqual(FIXTURE);
  });

  it('can be opened without this program (says: fflate 0.8 and the SHA-256 of Node)', async () => {
    const entries = unzipSync(FIXTURE);
    const manifest = JSON.parse(Buffer.from(entries['manifest.json']!).toString());
    expect(manifest.format).toBe('evenhand-backup/1');
    expect(manifest.entries).toEqual(
      Object.entries(entries)
        .filter(([name]) => name !== 'manifest.json')
        .map(([name, bytes]) => ({ name, byteCount: bytes.length, sha256: createHash('sha256').update(bytes).digest('hex') })),
    );
    expect(
      Buffer.from(entries['records.jsonl']!)
        .toString()
        .trim()
        .split('\n')
        .map((line) => JSON.parse(line).id),
    ).toHaveLength(manifest.counts.records);
  });
});

describe('the same diary', () => {
  it('gives the same bytes, whatever the order of its records and of their fields, and whoever exports it', async () => {
    const takes = await pitTakes();
    const bytes = await backupBytes(pitRecords, takes);
    const turned = [...pitRecords].reverse().map((record) => Object.fromEntries(Object.entries(record).reverse()) as unknown as DiaryRecord);
    expect(await backupBytes(turned, takes)).toEqual(bytes);
    const { value } = await read(bytes);
    const elsewhere = planImport([], value!.records, 'whole').records;
    expect(fold(elsewhere)).toEqual(fold(pitRecords));
    expect(await backupBytes(elsewhere, await takesOf(bytes))).toEqual(bytes);
  });

  it('survives odd text, unknown kinds and damaged doubles, byte for byte', async () => {
    await fc.assert(
      fc.asyncProperty(anyRecords, async (records) => {
        const bytes = await backupBytes(records, []);
        const { value, problems } = await read(bytes);
        expect(problems).toEqual([]);
        expect(value!.records).toEqual(JSON.parse(JSON.stringify(mergeRecords(records, []))));
        expect(await backupBytes(value!.records, [])).toEqual(bytes);
      }),
    );
  });

  it('is read whole in pieces, as they come from a disk', async () => {
    const reads: number[] = [];
    const source = {
      byteCount: FIXTURE.length,
      read: async (from: number, to: number) => {
        reads.push(to - from);
        return FIXTURE.slice(from, to);
      },
    };
    expect((await readBackupAtOnce(source)).problems).toEqual([]);
    expect(Math.max(...reads)).toBeLessThan(FIXTURE.length);
  });
});

/** Some megabytes of records, one of them longer than what is read at a time. */
const many: readonly DiaryRecord[] = Array.from({ length: 900 }, (_, k) => ({
  ...pitRecords[5]!,
  id: idOf(0x1000 + ((k * 7919) % 900)),
  made: { wallMs: 1_770_000_000_000 + Math.floor(k / 3), counter: k % 3, deviceId: 'de'.repeat(16) },
  body: { text: 'é'.repeat(k === 450 ? 1_300_000 : 700), sessionId: null },
}));

describe('a long diary', () => {
  it('is written a part at a time, whatever the parts, and read back a part at a time, none of them long', async () => {
    const bytes = await backupBytes([...many].reverse(), []);
    const longest: number[] = [];
    const source = {
      byteCount: bytes.length,
      read: async (from: number, to: number) => {
        longest.push(to - from);
        return bytes.slice(from, to);
      },
    };
    const seen: DiaryRecord[] = [];
    const { value } = await readBackup(source, async (some) => void seen.push(...some));
    const again: (readonly DiaryRecord[])[] = [];
    for await (const some of value!.records()) again.push(some);
    expect(seen).toEqual(many);
    expect(again.flat()).toEqual(many);
    expect([value!.recordCount, again.length > 2, Math.max(...longest) < bytes.length / 2]).toEqual([900, true, true]);
    for (const size of [1, 333]) {
      const parts = Array.from({ length: Math.ceil(900 / size) }, (_, k) => many.slice(k * size, (k + 1) * size));
      const whole = new Uint8Array(bytes.length);
      for await (const piece of writeBackup(parts, [])) whole.set(piece.bytes, piece.at);
      expect(Buffer.compare(whole, bytes)).toBe(0);
    }
  });

  it('that changes between its check and its reading is told, at the latest at its end', async () => {
    const bytes = await backupBytes(many, []);
    const { value } = await readBackup(bytesSource(bytes));
    bytes[bytes.indexOf(0xa9)]! ^= 1;
    const reading = async () => {
      for await (const _ of value!.records());
    };
    await expect(reading()).rejects.toThrow(/was changed/);
  });

  it.each([
    { what: 'a line twice', turn: (lines: string[]) => [...lines, lines.at(-1)!] },
    { what: 'an id twice', turn: (lines: string[]) => [...lines, lines[0]!.replace('"wallMs":177', '"wallMs":188')] },
    { what: 'two lines in the other order, parts apart', turn: (lines: string[]) => [lines.at(-1)!, ...lines.slice(1, -1), lines[0]!] },
    { what: 'no end of the last line', turn: (lines: string[]) => [...lines.slice(0, -1), lines.at(-1)!.trimEnd()] },
  ])('with $what is refused', async ({ turn }) => {
    const text = turn(many.map((record) => writeLines([record]))).join('');
    const bytes = wrap([
      [RECORDS_ENTRY, text],
      [
        'manifest.json',
        manifestText([{ name: RECORDS_ENTRY, byteCount: utf8Of(text).length, sha256: createHash('sha256').update(text).digest('hex') }], 900),
      ],
    ]);
    expect((await read(bytes)).problems).toEqual([{ code: 'backup-changed', severity: 'refused', params: { part: 'records' } }]);
  });
});

describe('damage', () => {
  it('of any single bit of a small backup is noticed', async () => {
    const bytes = await tiny();
    expect(await codeOf(bytes)).toBe(undefined);
    const noticed: string[] = [];
    for (let bit = 0; bit < 8 * bytes.length; bit++) {
      const flipped = bytes.slice();
      flipped[bit >> 3]! ^= 1 << (bit & 7);
      const { value, problems } = await read(flipped);
      if (value === null) noticed.push(problems[0]!.code);
    }
    expect(noticed).toHaveLength(8 * bytes.length);
    expect(new Set(noticed)).toEqual(new Set(['backup-checksum', 'backup-changed']));
  });

  it('of 60 single bits of the kept backup is noticed, and no other part blamed than the one that was hit', async () => {
    const random = seededRandom(60);
    const { entries } = JSON.parse(Buffer.from(unzipSync(FIXTURE)['manifest.json']!).toString());
    const takeAt = 30 + RECORDS_ENTRY.length + entries[0].byteCount + 30 + entries[1].name.length;
    for (let i = 0; i < 60; i++) {
      const at = Math.floor(random() * FIXTURE.length);
      const flipped = FIXTURE.slice();
      flipped[at]! ^= 1 << Math.floor(random() * 8);
      const { value, problems } = await read(flipped);
      expect([at, value]).toEqual([at, null]);
      if (at >= takeAt && at < takeAt + entries[1].byteCount)
        expect(problems).toEqual([{ code: 'backup-checksum', severity: 'refused', params: { name: entries[1].name } }]);
    }
  });

  it('by cutting a small backup at any byte is refused as cut', async () => {
    const bytes = await tiny();
    for (let end = 0; end < bytes.length; end++) expect([end, await codeOf(bytes.slice(0, end))]).toEqual([end, 'backup-cut']);
  });

  it('by cutting the kept backup at any kilobyte is refused as cut, in words', async () => {
    for (let end = 0; end < FIXTURE.length; end += 1024) {
      const { problems } = await read(FIXTURE.slice(0, end));
      expect(problems).toEqual([{ code: 'backup-cut', severity: 'refused', params: { byteCount: end } }]);
      expect(say(problems[0]!)).toMatch(/^This backup ends early: .* (kB|bytes) .*not touched\.$/);
    }
  });

  it('by adding, doubling or dropping bytes is refused', async () => {
    const bytes = await tiny();
    for (const more of [[0], [80, 75, 5, 6], [...bytes]]) expect(await codeOf(Uint8Array.from([...bytes, ...more]))).toBe('backup-changed');
    for (const at of [50, bytes.length - 200])
      expect(await codeOf(Uint8Array.from([...bytes.slice(0, at), ...bytes.slice(at + 1)]))).toMatch(/^backup-(cut|ch)/);
  });
});

describe('what is no backup of this version', () => {
  const lines = '{"a":1}\n';
  const manifestOf = (...entries: readonly (readonly [string, string])[]) =>
    manifestText(
      entries.map(([name, text]) => ({ name, byteCount: utf8Of(text).length, sha256: createHash('sha256').update(text).digest('hex') })),
      0,
    );

  it.each([
    { what: 'a text', bytes: utf8Of('day,minutes\n2026-01-05,12\n'), code: 'backup-not-one' },
    { what: 'a sound file', bytes: utf8Of('RIFF\u0024\0\0\0WAVEfmt '), code: 'backup-not-one' },
    { what: 'another ZIP archive', bytes: zipSync({ 'photo.jpg': utf8Of('x') }), code: 'backup-not-one' },
    { what: 'an archive of ours without a manifest', bytes: wrap([['photo.jpg', 'x']]), code: 'backup-not-one' },
    { what: 'a backup of version 2', bytes: wrap([['manifest.json', '{"format":"evenhand-backup/2","later":true}']]), code: 'backup-newer' },
    {
      what: 'a backup of version 2 packed by another program',
      bytes: zipSync({ 'days/1.json': utf8Of('[]'), 'manifest.json': [utf8Of('{"format":"evenhand-backup/12"}'), { level: 0 }] }),
      code: 'backup-newer',
    },
    { what: 'a backup of version 0', bytes: wrap([['manifest.json', '{"format":"evenhand-backup/0"}']]), code: 'backup-not-one' },
    {
      what: 'a backup without a take it lists',
      bytes: wrap([
        [RECORDS_ENTRY, ''],
        ['manifest.json', manifestOf([RECORDS_ENTRY, ''], [takeEntry(TINY_TAKE), 'fLaC'])],
      ]),
      code: 'backup-take-missing',
    },
    {
      what: 'a backup whose take is another',
      bytes: wrap([
        [RECORDS_ENTRY, ''],
        [takeEntry(TINY_TAKE), 'FLAC'],
        ['manifest.json', manifestOf([RECORDS_ENTRY, ''], [takeEntry(TINY_TAKE), 'fLaC'])],
      ]),
      code: 'backup-checksum',
    },
    {
      what: 'a backup with a take that no record speaks of',
      bytes: wrap([
        [RECORDS_ENTRY, ''],
        [takeEntry(TINY_TAKE), 'fLaC'],
        ['manifest.json', manifestOf([RECORDS_ENTRY, ''], [takeEntry(TINY_TAKE), 'fLaC'])],
      ]),
      code: 'backup-changed',
    },
    {
      what: 'a backup that would write outside its folder',
      bytes: wrap([
        [RECORDS_ENTRY, ''],
        ['takes/../../evil.flac', 'x'],
        ['manifest.json', manifestOf([RECORDS_ENTRY, ''], ['takes/../../evil.flac', 'x'])],
      ]),
      code: 'backup-changed',
    },
    {
      what: 'a backup with lines that are no records',
      bytes: wrap([
        [RECORDS_ENTRY, lines],
        ['manifest.json', manifestOf([RECORDS_ENTRY, lines])],
      ]),
      code: 'backup-changed',
    },
    {
      what: 'a backup with lists too deep to read',
      bytes: wrap(deep()),
      code: 'backup-changed',
    },
  ])('$what is refused as $code', async ({ bytes, code }) => {
    const { value, problems } = await read(bytes);
    expect([value, problems.length, problems[0]!.code]).toEqual([null, 1, code]);
    expect(say(problems[0]!)).not.toBe(code);
  });

  function deep(): readonly (readonly [string, string])[] {
    const record = JSON.stringify({ ...pitRecords[0], body: 0 }).replace('"body":0', `"body":${'['.repeat(200_000)}${']'.repeat(200_000)}`);
    return [
      [RECORDS_ENTRY, `${record}\n`],
      ['manifest.json', manifestOf([RECORDS_ENTRY, `${record}\n`])],
    ];
  }

  it('says which newer version wrote it', async () => {
    const { problems } = await read(wrap([['manifest.json', '{"format":"evenhand-backup/3"}']]));
    expect(say(problems[0]!)).toContain('(evenhand-backup/3)');
  });
});

describe('a program that calls it wrongly', () => {
  it.each([
    ['another order', [idOf(2), idOf(1)]],
    ['one twice', [idOf(1), idOf(1)]],
    ['no id', ['../..']],
    ['no record', [idOf(0x999)]],
  ])('is told so: takes with %s', async (_, ids) => {
    const takes = ids.map((takeId) => ({ takeId, flac: new Uint8Array(1) }));
    await expect(backupBytes(pitRecords, takes)).rejects.toThrow(/32 hexadecimal/);
  });

  it('is told so: records in another order, or twice', async () => {
    const written = async (parts: readonly (readonly DiaryRecord[])[]) => {
      for await (const _ of writeBackup(parts, []));
    };
    const parts = [...partsOf(pitRecords)];
    await expect(written([...parts, ...parts])).rejects.toThrow(/order of making/);
    await expect(written([[...pitRecords].reverse()])).rejects.toThrow(/order of making/);
  });

  it('is told when the file changes after it was checked', async () => {
    const bytes = FIXTURE.slice();
    const { value } = await read(bytes);
    bytes[20_000]! ^= 1;
    await expect(value!.readTake(value!.takeIds[0]!)).rejects.toThrow(/was changed/);
    await expect(value!.readTake(TINY_TAKE)).rejects.toThrow(/does not hold/);
  });
});
