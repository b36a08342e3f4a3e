import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { DiaryView } from '@evenhand/core/diary';
import { describe, expect, test } from 'vitest';
import { reportPage } from '../src/report-page.ts';
import { fixture, importFrom } from './diary-calls.ts';
import { evenhandJson, folder } from './evenhand.ts';

const place = (index: number, limb: string, biasMs: number) => ({
  ...{
    index,
    limb,
    count: 20,
    biasMs,
    biasLowMs: biasMs - 2,
    biasHighMs: biasMs + 2,
    spreadMs: 6,
    levelDb: -20,
    missed: 0,
    notAudible: 0,
    unsure: false,
  },
});

/** A block of RLRLKK in which the second kick was so many ms off. */
const block = (secondKickMs: number) => ({
  body: {
    position: 0,
    tempoBpm: 96,
    exercise: {
      id: 'x',
      sticking: 'RLRLKK',
      surfaces: ['snare', 'snare', 'snare', 'snare', 'kick', 'kick'],
      perBeat: 4,
      meter: { beats: 4, unit: 4 },
    },
    heard: {
      ...{ trackedBpm: 96, offsetMs: 0, pairs: [], cleanRunCount: 1, runCount: 2, problems: [] },
      places: ['R', 'L', 'R', 'L', 'K', 'K'].map((limb, index) => place(index, limb, index === 5 ? secondKickMs : 0)),
      findings: [
        {
          ...{ code: 'place-off', cause: 'place', indices: [5], weight: 1 },
          params: { index: 5, limb: 'K', only: false, time: 'early', volume: 'even', missed: 0 },
        },
      ],
    },
  },
});

const viewOf = (...days: readonly (readonly [string, number])[]): DiaryView =>
  ({ days: days.map(([day, ms]) => ({ day, sessions: [{ blocks: [block(ms)] }] })) }) as unknown as DiaryView;

describe('the page of what was heard', () => {
  const { html, exerciseCount } = reportPage(viewOf(['2026-07-08', -9], ['2026-07-01', -24]));

  test('one exercise stands once, with its sentence, its ring and a row per stroke (says: issue 5, the same as listen)', () => {
    expect(exerciseCount).toBe(1);
    expect(html).toContain('<p class="said">Stroke 6 (K) comes early.</p>');
    expect(html.match(/<svg/g)).toHaveLength(1);
    expect(html.match(/<tr>/g)).toHaveLength(7);
    // Letters of strokes that were heard are filled, not outlined.
    expect(html).not.toContain('stroke-width="0.9"');
    expect(html).toContain('20 cycles');
  });

  test('then is the first day at the same tempo, now the latest (arithmetic)', () => {
    expect(html).toContain('Then (2026-07-01)');
    expect(html).toContain('<td>early (−24, −26 to −22 ms)</td><td>a little early (−9, −11 to −7 ms)</td>');
  });

  test('an empty diary says so', () => {
    expect(reportPage(viewOf())).toMatchObject({ exerciseCount: 0, html: expect.stringContaining('Nothing has been heard yet.') });
  });
});

test.each([
  { end: '.pdf', begins: '%PDF-1.7' },
  { end: '.html', begins: '<!doctype html>' },
])('the end of the file name says which kind it is: $end (says: DESIGN.md, report FOLDER -o FILE.html|.pdf)', ({ end, begins }) => {
  const home = folder();
  importFrom(home, fixture);
  const file = join(folder(), `page${end}`);
  const { exit, json } = evenhandJson('report', home, '-o', file);
  expect([exit, json.format, json.file]).toEqual([0, 'report/1', file]);
  expect(readFileSync(file, 'latin1').slice(0, begins.length)).toBe(begins);
});

describe('the page of the weeks (says: issue 9, one sheet)', () => {
  test('is written as PDF; a diary without a plan says so on it', () => {
    const home = folder();
    importFrom(home, fixture);
    const file = join(folder(), 'weeks.pdf');
    const { exit, json } = evenhandJson('report', home, '--weeks', '--until', '2026-11-25', '-o', file);
    expect([exit, json.format, json.file]).toEqual([0, 'report/1', file]);
    expect(readFileSync(file, 'latin1').slice(0, 8)).toBe('%PDF-1.7');
  });

  test.each([
    { given: ['--until', '2026-02-30', '-o', 'weeks.pdf'], option: '--until' },
    { given: ['-o', 'weeks.html'], option: '-o' },
  ])('a day that is none, and a file that is no PDF, are refused: $option', ({ given, option }) => {
    const { exit, json } = evenhandJson('report', folder(), '--weeks', ...given);
    expect(exit).toBe(2);
    expect(json.problems).toMatchObject([{ code: 'call-option-not', params: { option } }]);
  });
});

describe('the whole diary in one picture (says: issue 9, read by somebody who did not live it)', () => {
  test.each([
    { end: '.svg', begins: '<svg ' },
    { end: '.png', begins: '\x89PNG' },
    { end: '.csv', begins: '\xef\xbb\xbffrom,to,what,phrase' },
  ])('as $end', ({ end, begins }) => {
    const home = folder();
    importFrom(home, fixture);
    const file = join(folder(), `whole${end}`);
    const { exit, json } = evenhandJson('report', home, '--whole', '--until', '2026-11-25', '-o', file);
    expect([exit, json.format, json.file]).toEqual([0, 'report/1', file]);
    expect(readFileSync(file, 'latin1').slice(0, begins.length)).toBe(begins);
  });

  test('a diary in which no phrase was played has none, and another kind of file is refused', () => {
    const home = folder();
    evenhandJson('diary', 'add', '--in', home, '--day', '2026-11-02', '--minutes', '5', '--note', 'Pad.');
    expect(evenhandJson('report', home, '--whole', '-o', join(folder(), 'whole.svg'))).toMatchObject({
      exit: 1,
      json: { problems: [{ code: 'whole-none' }] },
    });
    expect(evenhandJson('report', home, '--whole', '-o', 'whole.pdf')).toMatchObject({ exit: 2, json: { problems: [{ code: 'call-option-not' }] } });
  });
});
