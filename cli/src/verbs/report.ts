/** `report`: what a diary holds, as one page. */
import { fold } from '@evenhand/core/diary';
import { readDiary } from '../diary-folder/folder.ts';
import { writeWhole } from '../files.ts';
import type { Outcome } from '../outcome.ts';
import { reportPage } from '../report-page.ts';
import type { Call, Verb } from '../verb.ts';

const format = 'report/1';
const empty = { file: null, exerciseCount: 0 };

export const report: Verb = {
  name: 'report',
  format,
  summary: 'Writes what was heard, then and now, as one page.',
  about:
    'Writes one page (HTML, to read or print) from the diary in a folder: of each exercise that was heard, the sentence, the stroke ring and the figures, then and now.',
  takesFile: true,
  options: [{ name: 'output', short: 'o', kind: 'text', placeholder: 'FILE', example: 'report.html', required: true, about: 'The file to write.' }],
  example: 'evenhand report ~/diary -o report.html',
  empty,
  run: (call) => write(call),
};

function write(call: Call): Outcome {
  const diary = readDiary(call.files[0]!);
  if (diary.problem) return { exit: 1, json: { format, ...empty, problems: [diary.problem] }, lines: [] };
  const file = call.text.output!;
  const { html, exerciseCount } = reportPage(fold(diary.value.records));
  const problem = writeWhole(file, new TextEncoder().encode(html));
  const problems = [...diary.value.problems, ...(problem ? [problem] : [])];
  if (problem) return { exit: 1, json: { format, ...empty, problems }, lines: [] };
  return { exit: 0, json: { format, file, exerciseCount, problems }, lines: [`The page is in ${file}.`] };
}
