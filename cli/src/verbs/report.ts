/** `report`: what a diary holds, as one page. */
import type { PaperSize } from '@evenhand/adapters/paper-size';
import {
  allRisenCsv,
  lifePdf,
  movesOfLanes,
  type ReportedPhrase,
  reportPdf,
  tempiOfLanes,
  tempoCsv,
  weeksPdf,
  wholeCsv,
  wholeSvg,
} from '@evenhand/adapters/report';
import { type DiaryView, fold, isDay } from '@evenhand/core/diary';
import { lifePageBy, weeksPage } from '@evenhand/core/plan';
import { measurementOfHeard, resultsOf, wholeDiary } from '@evenhand/core/progress';
import type { SaidProblem } from '@evenhand/core/words';
import { type ReadableDiary, withDiaryAt } from '../diary-folder/diary-at.ts';
import { dayHere } from '../diary-folder/ids.ts';
import { type Tried, writeWhole } from '../files.ts';
import type { Outcome } from '../outcome.ts';
import { paperOf, paperOption, refusePaper } from '../paper-option.ts';
import { refuse, refuseOption } from '../problems.ts';
import { type Reported, reportedIn, reportPage } from '../report-page.ts';
import { AGAINST, makeThenNow, THEN_NOW_ENDINGS, type ThenNowMade } from '../then-now.ts';
import type { Call, Verb } from '../verb.ts';

const format = 'report/1';
const empty = { file: null, exerciseCount: 0, thenNow: null };

export const report: Verb = {
  name: 'report',
  format,
  summary: 'Writes what was heard and what came of it, then and now, as a page to read or print.',
  about:
    'Writes a page from a diary (its folder, or a backup): of each exercise that was heard, the sentence, the stroke ring and the figures. HTML is one page, with then and now; PDF has a page for each exercise, with what to try; CSV has the clean tempo of each exercise on each of its days, and with --rose-with what rose with what. With --then-now: the first reference take of the phrase against the last, as one page (.html with the sound in it, .pdf), as a picture (.png, .svg) or as sound (.wav: then, now, then, now, laid alongside and equally loud). With --weeks: of the plan at hand what was aimed at, done and heard, the decision and why, and a line for a parent, as PDF on one sheet. With --whole: the whole diary in one picture (.svg, .png), a lane for each phrase, days away with what was written around them, other set-ups and lessons; .csv has the same as a table.',
  takesFile: true,
  options: [
    {
      name: 'output',
      short: 'o',
      kind: 'text',
      placeholder: 'FILE',
      example: 'report.pdf',
      required: true,
      about:
        'The file to write; its end says of which kind: .html, .pdf or .csv, with --then-now .html, .pdf, .png, .svg or .wav, with --whole .svg, .png or .csv.',
    },
    { name: 'then-now', kind: 'switch', example: '', about: 'The phrase then and now, in place of what was heard.' },
    {
      name: 'against',
      kind: 'text',
      placeholder: 'WHICH',
      example: 'week',
      about:
        'With --then-now: the latest take against the first, against that of a week before (week), or that on the kit against that on the pad (pad); first unless said.',
    },
    { name: 'square', kind: 'switch', example: '', about: 'With --then-now, as a picture: 1080 by 1080 in place of 1920 by 1080.' },
    { name: 'one-ear-each', kind: 'switch', example: '', about: 'With --then-now, in sound: then on the left and now on the right, at once.' },
    {
      name: 'speed',
      kind: 'number',
      placeholder: 'SHARE',
      example: '0.75',
      about: 'With --then-now, in sound: slowed to this share of its speed at its own pitch, from 0.5; 1 unless said.',
    },
    {
      name: 'rose-with',
      kind: 'switch',
      example: '',
      about: 'What rose with each phrase, week against week, as CSV, in place of what was heard.',
    },
    {
      name: 'weeks',
      kind: 'switch',
      example: '',
      about: 'The page of the weeks of the plan at hand, as PDF on one sheet, in place of what was heard.',
    },
    {
      name: 'all-plans',
      kind: 'switch',
      example: '',
      about: 'With --weeks: the whole way of the phrase over all its plans, a row for each, in place of the weeks of the last.',
    },
    { name: 'whole', kind: 'switch', example: '', about: 'The whole diary in one picture, in place of what was heard.' },
    {
      name: 'until',
      kind: 'text',
      placeholder: 'DAY',
      example: '2026-11-25',
      about: 'With --weeks and --whole: the last day that is told of; today unless said.',
    },
    paperOption,
  ],
  example: 'evenhand report ~/diary --then-now -o then-and-now.pdf',
  empty,
  run: (call) => write(call),
};

async function write(call: Call): Promise<Outcome> {
  const wrong = wrongCall(call);
  if (wrong.length > 0) return { exit: 2, json: { format, ...empty, problems: wrong }, lines: [] };
  const file = call.text.output!;
  const made = await withDiaryAt(call.files[0]!, (diary) => make(diary, call));
  if (made.problem) return { exit: 1, json: { format, ...empty, problems: [made.problem] }, lines: [] };
  const { bytes, exerciseCount, thenNow } = made.value;
  const problem = writeWhole(file, bytes);
  const problems = [...made.value.problems, ...(problem ? [problem] : [])];
  if (problem) return { exit: 1, json: { format, ...empty, problems }, lines: [] };
  return { exit: 0, json: { format, file, exerciseCount, thenNow, problems }, lines: [`The ${kindOf(file)} is in ${file}.`, ...caveatsOf(thenNow)] };
}

const KINDS: Readonly<Record<string, string>> = { '.wav': 'sound', '.svg': 'picture', '.png': 'picture', '.csv': 'table' };
const kindOf = (file: string): string => KINDS[file.slice(-4).toLowerCase()] ?? 'page';

/** That the set-up differs is told beside every file: a sound cannot say it. */
const caveatsOf = (told: ThenNowMade['told'] | null): readonly string[] =>
  (told?.changes ?? []).filter(({ code }) => code === 'progress-setup-differs').map(({ text }) => text);

interface Made {
  readonly bytes: Uint8Array;
  readonly exerciseCount: number;
  readonly thenNow: ThenNowMade['told'] | null;
  readonly problems: readonly SaidProblem[];
}

/** The file that was asked for. */
async function make(diary: ReadableDiary, call: Call): Promise<Tried<Made>> {
  const { problems } = diary;
  if (call.flag['then-now']) {
    const made = await makeThenNow(diary, thenNowAsked(call));
    if (made.problem) return made;
    return { value: { bytes: made.value.bytes, exerciseCount: 1, thenNow: made.value.told, problems: [...problems, ...made.value.problems] } };
  }
  const view = fold(diary.records);
  if (call.flag.whole) return wholeOf(view, call, problems);
  const page = call.flag.weeks ? weeksOf(diary, view, call) : isTable(call) ? tableOf(view, call) : bytesOf(view, call);
  return { value: { ...(await page), thenNow: null, problems } };
}

/** The whole diary as a picture or a table; refused where no phrase was played. */
async function wholeOf(view: DiaryView, call: Call, problems: readonly SaidProblem[]): Promise<Tried<Made>> {
  const results = resultsOf(view);
  const whole = wholeDiary(view, results, call.text.until ?? dayHere(Date.now()));
  if (!whole) return { problem: refuse('whole-none', {}) };
  const tempi = tempiOfLanes(whole, results);
  const moves = movesOfLanes(whole, results);
  const text = isTable(call) ? wholeCsv(whole, tempi, moves) : wholeSvg(whole, tempi, { moves });
  const isPng = call.text.output!.toLowerCase().endsWith('.png');
  const bytes = isPng ? await (await import('../picture-png.ts')).pngOf(text) : new TextEncoder().encode(text);
  return { value: { bytes, exerciseCount: whole.lanes.length, thenNow: null, problems } };
}

const WHOLE_ENDINGS = ['.svg', '.png', '.csv'] as const;

/** Slower than half, and what is drawn out is no stroke any more. Assumption. */
const SLOWEST = 0.5;

const comparedOf = (against: string | undefined) => (Object.keys(AGAINST) as (keyof typeof AGAINST)[]).find((of) => AGAINST[of] === against);

const endingOf = ({ text }: Call) => THEN_NOW_ENDINGS.find((ending) => text.output!.toLowerCase().endsWith(ending));
const sizeOf = (call: Call): PaperSize => paperOf(call) ?? 'a4';

const thenNowAsked = (call: Call) =>
  ({
    ending: endingOf(call)!,
    of: comparedOf(call.text.against) ?? 'days',
    shape: call.flag.square ? 'square' : 'wide',
    as: call.flag['one-ear-each'] ? 'oneEarEach' : 'inTurn',
    speed: call.number.speed ?? 1,
    size: sizeOf(call),
    madeMs: Date.now(),
  }) as const;

function wrongCall(call: Call): readonly SaidProblem[] {
  const { output = '', until, against = 'first', paper } = call.text;
  const { speed = 1 } = call.number;
  if (paper !== undefined && !paperOf(call)) return [refusePaper(paper)];
  if (until !== undefined && !isDay(until))
    return [refuseOption('--until', until, { wanted: 'a day there is, as YYYY-MM-DD', example: '2026-11-25' })];
  if (!comparedOf(against)) return [refuseOption('--against', against, { wanted: 'first, week or pad', example: 'week' })];
  if (speed < SLOWEST || speed > 1) return [refuseOption('--speed', String(speed), { wanted: 'a share from 0.5 to 1', example: '0.75' })];
  if (call.flag['then-now'] && !endingOf(call)) {
    return [
      refuseOption('-o', output, { wanted: `with --then-now a name that ends in ${THEN_NOW_ENDINGS.join(', ')}`, example: 'then-and-now.pdf' }),
    ];
  }
  if (call.flag.whole && !WHOLE_ENDINGS.some((ending) => output.toLowerCase().endsWith(ending)))
    return [refuseOption('-o', output, { wanted: `with --whole a name that ends in ${WHOLE_ENDINGS.join(', ')}`, example: 'whole.svg' })];
  if (call.flag['rose-with'] && !isTable(call))
    return [refuseOption('-o', output, { wanted: 'with --rose-with a name that ends in .csv', example: 'rose-with.csv' })];
  if (!call.flag.weeks || output.toLowerCase().endsWith('.pdf')) return [];
  return [refuseOption('-o', output, { wanted: 'with --weeks a name that ends in .pdf', example: 'weeks.pdf' })];
}

type Page = Pick<Made, 'bytes' | 'exerciseCount'>;

/** The page of the weeks, or of the whole way of a phrase; its exercises are not counted. */
async function weeksOf({ records }: ReadableDiary, view: DiaryView, call: Call): Promise<Page> {
  const asked = { today: call.text.until ?? dayHere(Date.now()) };
  const printed = { madeMs: Date.now(), size: sizeOf(call) };
  const byId = new Map(records.map((record) => [record.id, record]));
  const bytes = call.flag['all-plans']
    ? await lifePdf(await lifePageBy(view, asked, async (id) => byId.get(id) ?? null), printed)
    : await weeksPdf(weeksPage(view, asked), printed);
  return { bytes, exerciseCount: 0 };
}

const isTable = ({ text }: Call): boolean => text.output!.toLowerCase().endsWith('.csv');

/** The clean tempo day by day, or what rose with what. */
function tableOf(view: DiaryView, call: Call): Page {
  const results = resultsOf(view);
  const text = call.flag['rose-with'] ? allRisenCsv(results, dayHere(Date.now())) : tempoCsv(results);
  return { bytes: new TextEncoder().encode(text), exerciseCount: new Set(results.map(({ exerciseId }) => exerciseId)).size };
}

/** The file by the end of its name: PDF, else HTML. */
async function bytesOf(view: DiaryView, call: Call): Promise<Page> {
  if (!call.text.output!.toLowerCase().endsWith('.pdf')) {
    const { html, exerciseCount } = reportPage(view);
    return { bytes: new TextEncoder().encode(html), exerciseCount };
  }
  const reported = reportedIn(view);
  const bytes = await reportPdf(reported.map(phraseOf), { day: reported[0]?.day ?? '', madeMs: Date.now(), size: sizeOf(call) });
  return { bytes, exerciseCount: reported.length };
}

const phraseOf = ({ body, day, heard }: Reported): ReportedPhrase => ({
  content: body.exercise,
  tempoBpm: body.tempoBpm,
  day,
  measurement: measurementOfHeard(heard, body.tempoBpm),
  findings: heard.findings,
});
