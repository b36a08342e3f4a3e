/** What a drummer can get wrong in a call is told in a sentence, with exit code 2, and never ends in a stack trace. */

import { spawnSync } from 'node:child_process';
import { existsSync, lstatSync, readdirSync, readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { evenhand, evenhandJson, fileOf, folder, launcher } from './evenhand.ts';

const phrase = ['--sticking', 'RLRLKK', '--per-beat', '4'];

test.each([
  { says: 'no verb', given: [], exit: 2, words: /evenhand listen/ },
  { says: '--help', given: ['--help'], exit: 0, words: /evenhand listen/ },
  { says: 'help for a verb', given: ['listen', '--help'], exit: 0, words: /--tempo BPM/ },
  { says: 'help for a verb, said the other way', given: ['help', 'sheet'], exit: 0, words: /-o FILE/ },
  { says: 'help for help', given: ['help', 'help'], exit: 0, words: /evenhand listen/ },
])('$says shows help', ({ given, exit, words }) => {
  const ran = evenhand(...given);
  expect(ran).toMatchObject({ exit, stderr: '' });
  expect(ran.stdout).toMatch(words);
});

test.each(['--version', '-v'])('%s tells the version that the package says, for a person and for a program', (given) => {
  const { version } = JSON.parse(readFileSync(join(import.meta.dirname, '../package.json'), 'utf8'));
  expect(evenhand(given)).toEqual({ exit: 0, stdout: `evenhand ${version}\n`, stderr: '' });
  expect(evenhandJson(given).json).toEqual({ format: 'evenhand/1', version, problems: [] });
});

test.each([
  { given: ['lisen', 'take.wav'], format: 'evenhand/1', code: 'call-unknown-verb', words: /Did you mean listen\?/ },
  { given: [], format: 'evenhand/1', code: 'call-verb-unfinished', words: /`evenhand listen`/ },
  { given: ['strokes', 'a.wav', '--json=1'], format: 'strokes/1', code: 'call-switch-with-value', words: /--json takes nothing after it/ },
  { given: ['zzzzzz'], format: 'evenhand/1', code: 'call-unknown-verb', words: /has no "zzzzzz"/ },
  { given: ['strokes'], format: 'strokes/1', code: 'call-file-missing', words: /evenhand strokes FILE/ },
  { given: ['strokes', 'a.wav', 'b.wav'], format: 'strokes/1', code: 'call-too-much', words: /b\.wav/ },
  { given: ['strokes', 'a.wav', '--click', 'c.txt'], format: 'strokes/1', code: 'call-unknown-option', words: /Did you mean --clicks\?/ },
  { given: ['listen', 'a.wav', ...phrase], format: 'listen/1', code: 'call-option-missing', words: /--tempo is missing.*--tempo 92/ },
  {
    given: ['listen', 'a.wav', '--json', ...phrase, '--tempo', ''],
    format: 'listen/1',
    code: 'call-option-without-value',
    words: /--tempo needs something/,
  },
  { given: ['listen', 'a.wav', ...phrase, '--tempo', 'fast'], format: 'listen/1', code: 'call-option-not', words: /--tempo is "fast"/ },
  { given: ['listen', 'a.wav', ...phrase, '--tempo', '0'], format: 'listen/1', code: 'call-option-not', words: /above zero/ },
  { given: ['listen', 'a.wav', ...phrase, '--tempo', '-90'], format: 'listen/1', code: 'call-option-not', words: /above zero/ },
  {
    given: ['listen', 'a.wav', ...phrase, '--tempo', '90', '--shape', 'swings'],
    format: 'listen/1',
    code: 'call-option-not',
    words: /leaning.*swing/,
  },
  {
    given: ['listen', 'a.wav', ...phrase, '--tempo', '90', '--fill', '5-9'],
    format: 'listen/1',
    code: 'call-option-not',
    words: /strokes from 1 to 6.*--fill 5-6/,
  },
  { given: ['exercises', '--sticking', 'RL', '--per-beat', '2.5'], format: 'exercises/1', code: 'call-option-not', words: /whole number/ },
  { given: ['exercises', ...phrase, '--cell', '0-2'], format: 'exercises/1', code: 'call-option-not', words: /counted from 1/ },
  { given: ['exercises', ...phrase, '--cell', '6-7'], format: 'exercises/1', code: 'cell-outside', words: /./ },
  { given: ['exercises', ...phrase, '--family', 'padd'], format: 'exercises/1', code: 'call-option-not', words: /--family pad/ },
  { given: ['exercises', ...phrase, '--surfaces', 'snare kick'], format: 'exercises/1', code: 'surfaces-count', words: /./ },
  { given: ['exercises', '--sticking', 'RL', '--per-beat', '65'], format: 'exercises/1', code: 'per-beat-range', words: /./ },
  { given: ['sheet', '-o', 'x.svg'], format: 'sheet/1', code: 'call-option-missing', words: /--sticking is missing/ },
  { given: ['sheet', ...phrase], format: 'sheet/1', code: 'call-option-missing', words: /-o is missing/ },
  { given: ['sheet', ...phrase, '--format', 'png', '-o', 'x.png'], format: 'sheet/1', code: 'call-sheet-format', words: /svg/ },
  { given: ['serve', '--port', 'http'], format: 'serve/1', code: 'call-option-not', words: /--port is "http"/ },
])('evenhand $given: $code, exit 2', ({ given, format, code, words }) => {
  const { exit, json, stderr } = evenhandJson(...given);
  expect(exit).toBe(2);
  expect(json.format).toBe(format);
  expect(json.problems[0]).toMatchObject({ code, severity: 'refused' });
  expect(stderr).toMatch(words);
  expect(stderr).not.toMatch(/\n\s+at |undefined|NaN|\[object/);
});

describe('what is printed', () => {
  const through = (command: string) => spawnSync('bash', ['-c', command], { encoding: 'utf8' });
  const exercises = `"${process.execPath}" "${launcher}" exercises ${phrase.join(' ')}`;

  test('is no failure when its reader stops early', () => {
    expect(through(`set -o pipefail; ${exercises} --json | head -c 5`)).toMatchObject({ status: 0, stdout: '{"for', stderr: '' });
  });

  test('and what is wrong keeps its exit code when nobody reads it', () => {
    expect(through(`{ "${process.execPath}" "${launcher}" listen 2> >(true); echo $?; }`).stdout).toBe('2\n');
  });

  test.skipIf(!existsSync('/dev/full'))('onto a full disk is told in a sentence (skipped where there is no /dev/full)', () => {
    const { status, stderr } = through(`${exercises} > /dev/full`);
    expect([status, stderr]).toEqual([1, expect.stringMatching(/^Not all of it could be printed \(ENOSPC\)\. .*\.\n$/)]);
  });
});

test('everything wrong is told at once', () => {
  const { json } = evenhandJson('listen', '--tempo', 'x', '--per-beat', 'y');
  expect(json.problems.map(({ code }: { code: string }) => code)).toEqual(['call-option-not', 'call-option-not', 'call-option-missing']);
});

describe('a typo in a sticking', () => {
  test('has a caret under its character', () => {
    const { exit, stderr, json } = evenhandJson('exercises', '--sticking', 'RLX LKK', '--per-beat', '4');
    expect(exit).toBe(2);
    expect(json.problems[0]).toMatchObject({ code: 'sticking-unknown-character', at: 2 });
    const [, typed, mark] = stderr.split('\n');
    expect(typed!.indexOf('X')).toBe(mark!.indexOf('^'));
  });

  test('is found before the recording is looked for', () => {
    const { exit, json } = evenhandJson('listen', 'nowhere.wav', '--sticking', 'RLQ', '--per-beat', '4', '--tempo', '90');
    expect(exit).toBe(2);
    expect(json.problems[0].code).toBe('sticking-unknown-character');
  });

  test('that reads as a grace is doubtful, and the exercises are still given', () => {
    const { exit, json } = evenhandJson('exercises', '--sticking', 'RllR', '--per-beat', '4');
    expect(exit).toBe(0);
    expect(json.problems[0]).toMatchObject({ code: 'sticking-reads-as-grace', severity: 'doubtful' });
  });
});

test('a sticking that begins with a rest is not an option', () => {
  expect(evenhand('exercises', '--sticking', '-RLR', '--per-beat', '4').exit).toBe(0);
});

describe('writing a sheet', () => {
  test.each([
    { says: 'into a folder that is not there', at: 'nowhere/x.svg', code: 'file-folder-missing' },
    { says: 'onto a folder', at: '.', code: 'file-is-folder' },
  ])('$says: $code, exit 1', ({ at, code }) => {
    const { exit, json } = evenhandJson('sheet', ...phrase, '-o', join(folder(), at));
    expect(exit).toBe(1);
    expect(json.problems.map((problem: { code: string }) => problem.code)).toEqual([code]);
  });

  test.skipIf(!existsSync('/dev/full'))('onto a full disk (skipped where there is no /dev/full): disk-full, exit 1', () => {
    const full = join(folder(), 'x.svg');
    symlinkSync('/dev/full', full);
    expect(evenhandJson('sheet', ...phrase, '-o', full)).toMatchObject({ exit: 1, json: { problems: [{ code: 'disk-full' }] } });
    expect(lstatSync(full).isSymbolicLink()).toBe(true);
  });

  test('again, over what is there: whole, and nothing left beside it', () => {
    const home = folder();
    for (const sticking of ['RLRL', 'RRLL'])
      expect(evenhand('sheet', '--sticking', sticking, '--per-beat', '4', '-o', join(home, 'x.svg')).exit).toBe(0);
    expect(readdirSync(home)).toEqual(['x.svg']);
  });

  test('from a file that holds no exercise: exit 1', () => {
    const file = fileOf('exercise.json', '{"exercises": []}');
    expect(evenhandJson('sheet', '--exercise', file, '-o', 'x.svg')).toMatchObject({ exit: 1, json: { problems: [{ code: 'exercise-not-read' }] } });
  });
});
