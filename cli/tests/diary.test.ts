/** A diary in a folder, as a drummer keeps it: written by one or by many at once, listed, backed up, restored, and not lost when a program is killed. */
import { type ChildProcess, spawn } from 'node:child_process';
import { appendFileSync, copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { seededRandom } from '@evenhand/core/random';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { add, contents, exportTo, fixture, importFrom, list } from './diary-calls.ts';
import { evenhand, evenhandJson, fileOf, folder, launcher } from './evenhand.ts';
import { shapeOf } from './shape.ts';

/** Starts a call and gives its exit code. */
const ended = (child: ChildProcess) => new Promise<number | null>((resolve) => child.on('close', resolve));
const start = (...given: string[]) => spawn(process.execPath, [launcher, ...given], { stdio: 'ignore' });

describe('the JSON of the diary: docs/formats/command-line.md', () => {
  test('holds the promised keys', () => {
    const home = folder();
    expect(shapeOf(importFrom(home, fixture).json)).toEqual({
      ...{ format: 'string', mode: 'string', addedCount: 'number', knownCount: 'number', differingCount: 'number', removedCount: 'number' },
      ...{ takeCount: 'number', replacedIn: 'null', problems: [] },
    });
    expect(shapeOf(add(home, '2026-02-06', '--minutes', '5', '--note', 'x').json)).toEqual({
      ...{ format: 'string', day: 'string', recordIds: ['string'], problems: [] },
    });
    const listed = shapeOf(list(home).json) as Record<string, unknown>;
    expect(Object.keys(listed)).toEqual(['format', 'phrases', 'days', 'recordCount', 'takeCount', 'notShownCount', 'problems']);
    expect(shapeOf(list(home).json.days.at(-1))).toEqual({
      day: 'string',
      minutes: 'number',
      sessions: [
        {
          ...{ id: 'string', minutes: 'number', plannedMinutes: 'number', ended: 'string', byHand: 'boolean', takeCount: 'number' },
          blocks: [
            {
              ...{ exerciseId: 'string', title: 'string', sticking: 'string', tempoBpm: 'number', minutes: 'number' },
              ...{ cleanRunCount: 'null', runCount: 'null', playerSays: 'string' },
            },
          ],
        },
      ],
      notes: [{ id: 'string', text: 'string', sessionId: 'string' }],
    });
    const file = join(folder(), 'backup.zip');
    const counts = { recordCount: 'number', takeCount: 'number', byteCount: 'number' };
    expect(shapeOf(exportTo(home, file).json)).toEqual({ format: 'string', file: 'string', ...counts, problems: [] });
    expect(shapeOf(evenhandJson('diary', 'check', file).json)).toEqual({
      ...{ format: 'string', whole: 'boolean', ...counts, firstDay: 'string', lastDay: 'string', problems: [] },
    });
  });
});

describe('writing down', () => {
  test('gives back any text, in any script, as it was given', () => {
    const home = folder();
    const texts = [
      '=1+1',
      'été 🥁👩🏽‍🎤',
      'מחר הצגה',
      '"quoted", \\n',
      ' blanks ',
      'two\nlines\t',
      ...fc.sample(fc.string({ unit: 'grapheme', minLength: 1 }), { numRuns: 4, seed: 3 }),
    ]
      // What a process cannot be given: NUL, half a surrogate pair.
      .map((text) => text.replace(/\p{Cs}|\0/gu, ''))
      .filter((text) => text !== '' && !text.startsWith('-'));
    for (const text of texts) expect(add(home, '2026-02-04', '--note', text).exit).toBe(0);
    expect(
      list(home)
        .json.days[0].notes.map(({ text }: { text: string }) => text)
        .sort(),
    ).toEqual(texts.sort());
  });

  test('counts the minutes of a day', () => {
    const home = folder();
    add(home, '2026-02-04', '--minutes', '20');
    add(home, '2026-02-04', '--minutes', '7.5', '--note', 'on the bus');
    const [day] = list(home).json.days;
    expect({ day: day.day, minutes: day.minutes, byHand: day.sessions.map((session: { byHand: boolean }) => session.byHand) }).toEqual({
      day: '2026-02-04',
      minutes: 27.5,
      byHand: [true, true],
    });
  });

  test.each([
    { given: ['--day', '2026-02-30', '--minutes', '5'], code: 'call-option-not' },
    { given: ['--day', '2026-02-03', '--minutes', '0'], code: 'call-option-not' },
    { given: ['--day', '2026-02-03', '--minutes', '1441'], code: 'call-option-not' },
    { given: ['--day', '2026-02-03'], code: 'diary-nothing-to-add' },
    { given: ['--minutes', '5'], code: 'call-option-missing' },
  ])('$given is a wrong call, told as $code, and makes no diary', ({ given, code }) => {
    const home = join(folder(), 'none');
    const { exit, json } = evenhandJson('diary', 'add', '--in', home, ...given);
    expect([exit, json.problems[0].code, json.recordIds, existsSync(home)]).toEqual([2, code, [], false]);
  });

  test('by twelve programs at once loses nothing, and every entry has a stamp of its own', async () => {
    const home = folder();
    const codes = await Promise.all(
      Array.from({ length: 12 }, (_, i) => ended(start('diary', 'add', '--in', home, '--day', '2026-02-03', '--note', `note ${i}`))),
    );
    expect(codes).toEqual(Array(12).fill(0));
    const { json } = list(home);
    expect(json.days[0].notes.map(({ text }: { text: string }) => text).sort()).toEqual(Array.from({ length: 12 }, (_, i) => `note ${i}`).sort());
    const stamps = readFileSync(join(home, 'records.jsonl'), 'utf8')
      .trim()
      .split('\n')
      .map((line) => JSON.stringify(JSON.parse(line).made));
    expect(new Set(stamps).size).toBe(12);
    expect(readdirSync(home).sort()).toEqual(['device.json', 'records.jsonl', 'takes']);
  });

  test('killed at any moment leaves whole entries only, and every acknowledged one', async () => {
    const home = folder();
    const began = Date.now();
    add(home, '2026-02-03', '--note', 'before');
    const runMs = Date.now() - began;
    const random = seededRandom(9);
    const acknowledged: string[] = [];
    for (let i = 0; i < 12; i++) {
      const child = start('diary', 'add', '--in', home, '--day', '2026-02-03', '--note', `note ${i}`);
      const timer = setTimeout(() => child.kill('SIGKILL'), runMs * (0.6 + 0.6 * random()));
      if ((await ended(child)) === 0) acknowledged.push(`note ${i}`);
      clearTimeout(timer);
    }
    expect(add(home, '2026-02-03', '--note', 'after').exit).toBe(0);
    const { json } = list(home);
    expect(json.problems).toEqual([]);
    expect(json.days[0].notes.map(({ text }: { text: string }) => text)).toEqual(expect.arrayContaining(['before', ...acknowledged, 'after']));
  });

  test('goes on after a half-written line, which was never acknowledged, and keeps a whole one that lacks its end', () => {
    const home = folder();
    add(home, '2026-02-03', '--note', 'first');
    const file = join(home, 'records.jsonl');
    writeFileSync(file, readFileSync(file, 'utf8').trimEnd());
    expect(list(home).json.recordCount).toBe(1);
    add(home, '2026-02-03', '--note', 'second');
    appendFileSync(file, '{"v":1,"id":"ab');
    expect(list(home).json).toMatchObject({ recordCount: 2, problems: [] });
    add(home, '2026-02-03', '--note', 'third');
    expect(list(home).json).toMatchObject({ recordCount: 3, problems: [] });
  });

  test('waits for no program that has died', async () => {
    const home = folder();
    add(home, '2026-02-03', '--note', 'first');
    const gone = start('--help');
    await ended(gone);
    writeFileSync(join(home, 'lock'), JSON.stringify({ pid: gone.pid, host: hostname(), token: 'x' }));
    expect(add(home, '2026-02-03', '--note', 'second').exit).toBe(0);
    expect(existsSync(join(home, 'lock'))).toBe(false);
  });
});

describe('a backup', () => {
  test('lists the same elsewhere, and goes out with the same bytes', () => {
    const [here, there, files] = [folder(), folder(), folder()];
    importFrom(here, fixture);
    add(here, '2026-02-09', '--minutes', '15', '--note', 'שלום 🥁');
    const [first, second] = [join(files, 'first.zip'), join(files, 'second.zip')];
    exportTo(here, first);
    expect(importFrom(there, first).json).toMatchObject({ mode: 'whole', addedCount: 15, takeCount: 1 });
    expect(list(there).json).toEqual(list(here).json);
    exportTo(there, second);
    expect(readFileSync(second).equals(readFileSync(first))).toBe(true);
    expect(evenhandJson('diary', 'check', second).json).toMatchObject({ whole: true, recordCount: 15, takeCount: 1, lastDay: '2026-02-09' });
  });

  test('restored whole writes on in its owner’s name, with this device’s own', () => {
    const home = folder();
    importFrom(home, fixture);
    add(home, '2026-02-09', '--note', 'x');
    const last = JSON.parse(readFileSync(join(home, 'records.jsonl'), 'utf8').trim().split('\n').at(-1)!);
    expect(last.ownerId).toBe('d0'.repeat(16));
    expect(last.made.deviceId).not.toBe('de'.repeat(16));
  });

  test('merged keeps both, twice as once', () => {
    const [home, file] = [folder(), join(folder(), 'both.zip')];
    add(home, '2026-02-09', '--note', 'mine');
    expect(importFrom(home, fixture).json).toMatchObject({ mode: 'merge', addedCount: 13, knownCount: 0, removedCount: 0 });
    exportTo(home, file);
    const once = contents(home);
    expect(importFrom(home, fixture, '--merge').json).toMatchObject({ mode: 'merge', addedCount: 0, knownCount: 13 });
    expect(contents(home)).toEqual(once);
    expect(list(home).json).toMatchObject({ recordCount: 14, takeCount: 1 });
  });

  test('restored whole over a diary keeps that one aside, sound included', () => {
    const [home, other, file] = [folder(), folder(), join(folder(), 'other.zip')];
    importFrom(home, fixture);
    const before = list(home).json;
    add(other, '2026-02-09', '--note', 'other');
    exportTo(other, file);
    const { json } = importFrom(home, file, '--whole');
    expect(json).toMatchObject({ mode: 'whole', addedCount: 1, removedCount: 13, replacedIn: join(home, 'replaced-1') });
    expect(list(home).json).toMatchObject({ recordCount: 1, takeCount: 0 });
    expect(list(join(home, 'replaced-1')).json).toEqual(before);
    expect(importFrom(home, fixture, '--whole').json.replacedIn).toBe(join(home, 'replaced-2'));
    expect(list(home).json).toEqual(before);
  });

  test('restored whole by a program that is killed is there or not, never half, and writing goes on', async () => {
    const random = seededRandom(6);
    const began = Date.now();
    importFrom(folder(), fixture);
    const runMs = Date.now() - began;
    for (let i = 0; i < 6; i++) {
      const home = folder();
      add(home, '2026-02-09', '--note', 'mine');
      const child = start('diary', 'import', '--in', home, fixture, '--whole');
      const timer = setTimeout(() => child.kill('SIGKILL'), runMs * (0.6 + 0.5 * random()));
      await ended(child);
      clearTimeout(timer);
      const { recordCount, takeCount } = list(home).json;
      expect([`${recordCount} ${takeCount}`, add(home, '2026-02-10', '--note', 'on').exit]).toEqual([expect.stringMatching(/^(1 0|13 1)$/), 0]);
    }
  });

  test('of a folder with lines that are no entries says so and keeps the rest', () => {
    const [home, file] = [folder(), join(folder(), 'rest.zip')];
    importFrom(home, fixture);
    const lines = readFileSync(join(home, 'records.jsonl'), 'utf8');
    writeFileSync(join(home, 'records.jsonl'), `${lines}not an entry\n`);
    const { exit, json } = exportTo(home, file);
    expect([exit, json.recordCount, json.problems[0].code, json.problems[0].params.firstLine]).toEqual([0, 13, 'diary-lines-left-out', 14]);
    expect(readFileSync(file).equals(readFileSync(fixture))).toBe(true);
    expect(readFileSync(join(home, 'records.jsonl'), 'utf8')).toContain('not an entry');
  });
});

test('orders for a terminal in a note are not obeyed when it is listed', () => {
  const home = folder();
  add(home, '2026-02-03', '--note', '\u001b[2Jgone');
  expect(evenhand('diary', 'list', '--in', home).stdout).not.toContain('\u001b');
  expect(list(home).json.days[0].notes[0].text).toBe('\u001b[2Jgone');
});

describe('a table', () => {
  test('is looked at, comes in line by line, goes out, and comes into another diary the same', () => {
    const home = folder();
    const table = fileOf('old.csv', 'day,minutes,text\n2026-02-03,20,"=SUM(A1) on the pad, שלום 🥁"\n2026-02-31,5,\n');
    const seen = importFrom(home, table, '--preview');
    expect([seen.json.addedCount, seen.json.problems[0].code, seen.json.problems[0].params.line]).toEqual([2, 'table-day', 3]);
    expect(contents(home)).toEqual({});
    expect(importFrom(home, table).json).toMatchObject({ mode: 'merge', sessionCount: 1, noteCount: 1 });
    const out = join(folder(), 'out.csv');
    exportTo(home, out);
    expect(readFileSync(out, 'utf8')).toContain(`"'=SUM(A1) on the pad, שלום 🥁"`);
    const [elsewhere, again] = [folder(), join(folder(), 'again.csv')];
    importFrom(elsewhere, out);
    expect(importFrom(elsewhere, out).json).toMatchObject({ addedCount: 0, knownCount: 2 });
    exportTo(elsewhere, again);
    expect(readFileSync(again).equals(readFileSync(out))).toBe(true);
    expect(list(elsewhere).json.days[0].notes[0].text).toBe('=SUM(A1) on the pad, שלום 🥁');
  });
});

test('help knows the diary as a whole and verb by verb', () => {
  const { stdout } = evenhand('diary', '--help');
  for (const verb of ['add', 'list', 'export', 'import', 'check']) expect(stdout).toContain(`evenhand diary ${verb}`);
  expect(evenhand('help', 'diary', 'import').stdout).toMatch(/^evenhand diary import FILE --in FOLDER \[--merge\] \[--preview\] \[--whole\]\n/);
});

test('a copied folder is a diary like any other', () => {
  const [home, copy] = [folder(), folder()];
  importFrom(home, fixture);
  mkdirSync(join(copy, 'takes'));
  for (const [name] of Object.entries(contents(home))) copyFileSync(join(home, name), join(copy, name));
  expect(list(copy).json).toEqual(list(home).json);
});
