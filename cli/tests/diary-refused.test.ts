/** What cannot be read, written or understood is told in words, and leaves the diary as it was. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { add, contents, exportTo, fixture, importFrom } from './diary-calls.ts';
import { evenhandJson, fileOf, folder } from './evenhand.ts';

describe('what is refused leaves the diary as it was', () => {
  const bytes = readFileSync(fixture);
  const flipped = Buffer.from(bytes);
  flipped[9000]! ^= 4;
  const pretend = Buffer.from('PK\u0003\u0004 no backup at all, whatever its name says. '.repeat(4));

  test.each([
    { what: 'a flipped bit', content: flipped, code: 'backup-checksum' },
    { what: 'a cut file', content: bytes.subarray(0, 20_000), code: 'backup-cut' },
    { what: 'another file', content: pretend, code: 'backup-not-one' },
  ])('$what: $code', ({ content, code }) => {
    const home = folder();
    add(home, '2026-02-03', '--note', 'mine');
    const before = contents(home);
    const file = fileOf('backup.zip', content);
    for (const more of [[], ['--whole']]) {
      const { exit, json, stderr } = importFrom(home, file, ...more);
      expect([exit, json.problems[0].code, json.mode]).toEqual([1, code, null]);
      expect(stderr.trim()).toBe(json.problems[0].text);
      expect(contents(home)).toEqual(before);
    }
    expect(evenhandJson('diary', 'check', file)).toMatchObject({ exit: 1, json: { whole: false, problems: [{ code }] } });
    const empty = join(folder(), 'none');
    expect([importFrom(empty, file).exit, existsSync(empty)]).toEqual([1, false]);
  });

  test.each([
    { given: ['import', '--in', 'X', 'no-such-file.zip'], exit: 1, code: 'file-not-found' },
    { given: ['import', '--in', 'X', '--merge', '--whole', fixture], exit: 2, code: 'diary-merge-or-whole' },
    { given: ['import', '--in', 'X', 'no-such-file.csv'], exit: 1, code: 'file-not-found' },
    { given: ['import', '--in', 'X', '--whole', 'diary.csv'], exit: 2, code: 'diary-table-merges' },
    { given: ['import', '--in', 'X', '--preview', fixture], exit: 2, code: 'diary-preview-table' },
    { given: ['check', 'diary.csv'], exit: 1, code: 'diary-table-no-check' },
    { given: ['export', '--in', 'X', 'diary.csv'], exit: 1, code: 'diary-not-there' },
    { given: ['export', '--in', 'X', 'diary.doc'], exit: 2, code: 'diary-file-ending' },
    { given: ['export', '--in', 'X', 'diary.zip'], exit: 1, code: 'diary-not-there' },
    { given: ['list', '--in', 'X'], exit: 1, code: 'diary-not-there' },
    { given: ['check', import.meta.dirname], exit: 1, code: 'file-is-folder' },
    { given: ['check'], exit: 2, code: 'call-file-missing' },
    { given: ['lst', '--in', 'X'], exit: 2, code: 'call-unknown-verb' },
    { given: [], exit: 2, code: 'call-verb-unfinished' },
  ])('diary $given: $code', ({ given, exit, code }) => {
    const home = join(folder(), 'none');
    const ran = evenhandJson('diary', ...given.map((word) => (word === 'X' ? home : word)));
    expect([ran.exit, ran.json.problems[0].code, existsSync(home)]).toEqual([exit, code, false]);
  });

  test.skipIf(!existsSync('/proc/self'))('a place that makes no folders says so, and does not try for ever (skipped where there is no /proc)', () => {
    expect(add('/proc/evenhand/diary', '2026-02-03', '--minutes', '5').json.problems[0].code).toBe('file-folder-missing');
  });

  test('a folder where nothing may be written says so', () => {
    const file = fileOf('plain.txt', 'not a folder');
    expect(add(join(file, 'diary'), '2026-02-03', '--minutes', '5').json.problems[0].code).toBe('file-not-folder');
    expect(evenhandJson('diary', 'list', '--in', file).json.problems[0]).toMatchObject({ code: 'file-not-folder', params: { file } });
    const home = folder();
    importFrom(home, fixture);
    expect(exportTo(home, join(home, 'no', 'such', 'folder.zip')).json.problems[0].code).toBe('file-folder-missing');
  });
});
