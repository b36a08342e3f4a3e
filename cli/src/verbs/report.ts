/** `report`: what a diary holds, as one page. */
import { type ReportedPhrase, reportPdf, weeksPdf } from '@evenhand/adapters/report';
import { type DiaryView, fold, isDay } from '@evenhand/core/diary';
import { weeksPage } from '@evenhand/core/plan';
import { measurementOfHeard } from '@evenhand/core/progress';
import type { SaidProblem } from '@evenhand/core/words';
import { readDiary } from '../diary-folder/folder.ts';
import { dayHere } from '../diary-folder/ids.ts';
import { writeWhole } from '../files.ts';
import type { Outcome } from '../outcome.ts';
import { refuse } from '../problems.ts';
import { type Reported, reportedIn, reportPage } from '../report-page.ts';
import type { Call, Verb } from '../verb.ts';

const format = 'report/1';
const empty = { file: null, exerciseCount: 0 };

export const report: Verb = {
  name: 'report',
  format,
  summary: 'Writes what was heard, then and now, as a page to read or print.',
  about:
    'Writes from the diary in a folder, of each exercise that was heard, the sentence, the stroke ring and the figures: as one page of HTML, then and now, or as PDF with a page for each, which says what to try too. With --weeks: of the plan at hand what was aimed at, done and heard, the decision and why, and a line for a parent, as PDF on one sheet.',
  takesFile: true,
  options: [
    {
      name: 'output',
      short: 'o',
      kind: 'text',
      placeholder: 'FILE',
      example: 'report.pdf',
      required: true,
      about: 'The file to write; its end says of which kind: .html or .pdf.',
    },
    {
      name: 'weeks',
      kind: 'switch',
      example: '',
      about: 'The page of the weeks of the plan at hand, as PDF on one sheet, in place of what was heard.',
    },
    {
      name: 'until',
      kind: 'text',
      placeholder: 'DAY',
      example: '2026-11-25',
      about: 'With --weeks: the last day that is told of; today unless said.',
    },
  ],
  example: 'evenhand report ~/diary -o report.pdf',
  empty,
  run: (call) => write(call),
};

async function write(call: Call): Promise<Outcome> {
  const wrong = wrongCall(call);
  if (wrong.length > 0) return { exit: 2, json: { format, ...empty, problems: wrong }, lines: [] };
  const diary = readDiary(call.files[0]!);
  if (diary.problem) return { exit: 1, json: { format, ...empty, problems: [diary.problem] }, lines: [] };
  const file = call.text.output!;
  const view = fold(diary.value.records);
  const { bytes, exerciseCount } = await (call.flag.weeks ? weeksOf(view, call) : bytesOf(file, view));
  const problem = writeWhole(file, bytes);
  const problems = [...diary.value.problems, ...(problem ? [problem] : [])];
  if (problem) return { exit: 1, json: { format, ...empty, problems }, lines: [] };
  return { exit: 0, json: { format, file, exerciseCount, problems }, lines: [`The page is in ${file}.`] };
}

function wrongCall({ text, flag }: Call): readonly SaidProblem[] {
  const { output = '', until } = text;
  if (until !== undefined && !isDay(until)) {
    return [refuse('call-option-not', { option: '--until', given: until, wanted: 'a day there is, as YYYY-MM-DD', example: '--until 2026-11-25' })];
  }
  if (!flag.weeks || output.toLowerCase().endsWith('.pdf')) return [];
  return [refuse('call-option-not', { option: '-o', given: output, wanted: 'with --weeks a name that ends in .pdf', example: '-o weeks.pdf' })];
}

/** The page of the weeks; its exercises are not counted. */
async function weeksOf(view: DiaryView, { text }: Call): Promise<{ readonly bytes: Uint8Array; readonly exerciseCount: number }> {
  const page = weeksPage(view, { today: text.until ?? dayHere(Date.now()) });
  return { bytes: await weeksPdf(page, { madeMs: Date.now() }), exerciseCount: 0 };
}

/** The file by the end of its name: PDF, else HTML. */
async function bytesOf(file: string, view: DiaryView): Promise<{ readonly bytes: Uint8Array; readonly exerciseCount: number }> {
  if (!file.toLowerCase().endsWith('.pdf')) {
    const { html, exerciseCount } = reportPage(view);
    return { bytes: new TextEncoder().encode(html), exerciseCount };
  }
  const reported = reportedIn(view);
  const bytes = await reportPdf(reported.map(phraseOf), { day: reported[0]?.day ?? '', madeMs: Date.now() });
  return { bytes, exerciseCount: reported.length };
}

const phraseOf = ({ body, day, heard }: Reported): ReportedPhrase => ({
  content: body.exercise,
  tempoBpm: body.tempoBpm,
  day,
  measurement: measurementOfHeard(heard, body.tempoBpm),
  findings: heard.findings,
});
