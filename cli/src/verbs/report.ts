/** `report`: what a diary holds, as one page. */
import { type ReportedPhrase, reportPdf } from '@evenhand/adapters/report';
import { type DiaryView, fold } from '@evenhand/core/diary';
import { measurementOfHeard } from '@evenhand/core/progress';
import { readDiary } from '../diary-folder/folder.ts';
import { writeWhole } from '../files.ts';
import type { Outcome } from '../outcome.ts';
import { type Reported, reportedIn, reportPage } from '../report-page.ts';
import type { Call, Verb } from '../verb.ts';

const format = 'report/1';
const empty = { file: null, exerciseCount: 0 };

export const report: Verb = {
  name: 'report',
  format,
  summary: 'Writes what was heard, then and now, as a page to read or print.',
  about:
    'Writes from the diary in a folder, of each exercise that was heard, the sentence, the stroke ring and the figures: as one page of HTML, then and now, or as PDF with a page for each, which says what to try too.',
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
  ],
  example: 'evenhand report ~/diary -o report.pdf',
  empty,
  run: (call) => write(call),
};

async function write(call: Call): Promise<Outcome> {
  const diary = readDiary(call.files[0]!);
  if (diary.problem) return { exit: 1, json: { format, ...empty, problems: [diary.problem] }, lines: [] };
  const file = call.text.output!;
  const { bytes, exerciseCount } = await bytesOf(file, fold(diary.value.records));
  const problem = writeWhole(file, bytes);
  const problems = [...diary.value.problems, ...(problem ? [problem] : [])];
  if (problem) return { exit: 1, json: { format, ...empty, problems }, lines: [] };
  return { exit: 0, json: { format, file, exerciseCount, problems }, lines: [`The page is in ${file}.`] };
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
