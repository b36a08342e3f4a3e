import { describe, expect, test } from 'vitest';
import { expectedCycle, readContent } from '../../../core/src/exercise/index.ts';
import { findingsOf } from '../../../core/src/finding/index.ts';
import { measure } from '../../../core/src/measurement/index.ts';
import { play } from '../../../core/src/measurement/play.case.ts';
import { normal, seededRandom } from '../../../core/src/random.ts';
import { readSticking } from '../../../core/src/sticking/index.ts';
import { type ReportedPhrase, reportPage, reportPdf } from './report.ts';

/** RLRLKK in which the second kick comes 25 ms early and 6 dB soft. */
function heardPhrase(): ReportedPhrase {
  const random = seededRandom(1);
  const content = readContent(readSticking('RLRLKK').value!, { perBeat: 4 }).value!;
  const cycle = expectedCycle(content);
  const second = { offMs: -25, db: -6 };
  const candidates = play(cycle, {
    cycles: 24,
    tempoBpm: 96,
    stroke: (n, index) => ({
      offMs: (index === 5 ? second.offMs : 0) + 3 * normal(random),
      db: (index === 5 ? second.db : 0) + 0.5 * normal(random),
      out: n === 7 && index === 2,
    }),
  });
  const { value, problems } = measure(candidates, cycle, { tempoBpm: 96, durationSec: candidates.at(-1)!.timeSec + 2 });
  return { content, tempoBpm: 96, day: '2026-11-25', measurement: value!, findings: findingsOf(value!, { cycle, problems }) };
}

describe('the page for a student (says: issue 5, the same as listen)', () => {
  const page = reportPage(heardPhrase());

  test('the sentence first, then the strokes: what was planted, in words with the figure after it', () => {
    expect(page.said[0]).toMatch(/^The second kick comes too close to the first, and clearly softer/);
    expect(page.strokes.rows).toHaveLength(6);
    expect(page.strokes.rows[5]![2]).toMatch(/^early \(−2[3-7], /);
    expect(page.strokes.rows[2]![4]).toContain('missed once');
    expect(page.strokes.rows[0]![2]).toMatch(/^in time/);
  });

  test('two or three exercises and not twelve, and every caution (says: JOB.md, a lesson; care)', () => {
    const exercises = page.tries.lines.filter((line) => /, from .+ at \d+\.$/.test(line));
    expect(exercises.length).toBeGreaterThanOrEqual(2);
    expect(exercises.length).toBeLessThanOrEqual(3);
    expect(page.care.lines.join(' ')).toMatch(/hearing.*Warm up.*Stop on pain.*licensed clinician/);
  });
});

test('as PDF: one page a phrase, tagged, the ring with its words, a table; the same bytes again (says: ISO 32000)', async () => {
  const phrase = heardPhrase();
  const options = { day: '2026-11-25', madeMs: Date.UTC(2026, 10, 25) };
  const bytes = await reportPdf([phrase, phrase], options);
  const text = Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
  expect(text).toMatch(/^%PDF-1\.7/);
  expect(text.match(/\/Type \/Page\b/g)).toHaveLength(2);
  expect(text.match(/\/S \/Figure/g)).toHaveLength(2);
  expect(text.match(/\/S \/Table/g)).toHaveLength(2);
  expect(text).toMatch(/\/Alt \(Stroke ring of RLRLKK, 16ths at 96\./);
  expect(await reportPdf([phrase, phrase], options)).toEqual(bytes);
});

test('a diary without anything heard gives one page that says so', async () => {
  const text = Array.from(await reportPdf([], { day: '', madeMs: 0 }), (byte) => String.fromCharCode(byte)).join('');
  expect(text.match(/\/Type \/Page\b/g)).toHaveLength(1);
});
