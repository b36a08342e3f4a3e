/** `tempo`: the clean tempo of an exercise and the next tempo, from a table of results. */
import { tempoCurve } from '@evenhand/core/progress';
import { believe, believedOdds, type CleanTempoEstimate, cleanOdds, cleanTempo, fitCurve, forecast, shapeSaid, standsAt } from '@evenhand/core/tempo';
import { noteValue, type SaidProblem, say } from '@evenhand/core/words';
import { share } from '../figures.ts';
import { readText } from '../files.ts';
import type { Outcome } from '../outcome.ts';
import { type ReadResults, type ResultRow, readResults } from '../results-file.ts';
import { type FindNext, findNext, findOptions } from '../tempo-find.ts';
import type { Call, Verb } from '../verb.ts';

const format = 'tempo/1';
const empty = { results: [] };

export const tempo: Verb = {
  name: 'tempo',
  format,
  summary: 'Tells how fast an exercise is clean, and which tempo comes next.',
  about:
    'Tells for each table of results how fast the exercise is clean and which tempo comes next. A table has a heading and the columns day, tempoBpm, clean, runs: on that day, at that tempo, so many of so many runs were clean. The last line of the last day is where it stands now. With --find it tells the tempo to try next to find where it is clean in fewest runs. With --goal it tells how often a run would be clean there, and when it may be reached.',
  takesFile: 'several',
  options: [
    {
      name: 'per-beat',
      kind: 'whole',
      placeholder: 'N',
      example: '4',
      about: 'Slots per beat of the exercise, to name tempi with their note value.',
    },
    ...findOptions,
    { name: 'goal', kind: 'number', placeholder: 'BPM', example: '96', about: 'The tempo it is wanted at, to tell when it may be reached.' },
  ],
  example: 'evenhand tempo doubles.csv',
  empty,
  run: (call) => tell(call),
};

function tell({ files, number, flag }: Call): Outcome {
  const find = flag.find ? { perBeat: number['per-beat'], expectedBpm: number.expected } : null;
  const told = files.map((file) => tellFile(file, { goalBpm: number.goal, find }));
  const results = told.map(({ result }) => result);
  return {
    exit: told.some(({ result }) => result.nextTempoBpm === null && !result.find) ? 1 : 0,
    json: { format, results, problems: told.flatMap(({ problems }) => problems) },
    lines: results.flatMap((result) => linesOf(result, number['per-beat'])),
  };
}

interface Result {
  readonly file: string;
  readonly cleanTempoBpm: { readonly median: number; readonly low90: number; readonly high90: number } | null;
  /** Why no clean tempo can be told; null when one is. */
  readonly tooLittle: string | null;
  /** null when nothing could be read. */
  readonly nextTempoBpm: number | null;
  readonly reason: string;
  /** Only where runs do not simply fall off with tempo: clean ranges, the upper end of the last one null when it cannot be told. */
  readonly ranges?: readonly { readonly fromBpm: number | null; readonly toBpm: number | null }[];
  readonly rangesSaid?: string;
  /** Only when a tempo is wanted. */
  readonly atGoal?: AtGoal;
  /** Only with --find. */
  readonly find?: FindNext;
}

/** What is asked beside the table. */
interface Wanted {
  readonly goalBpm: number | undefined;
  readonly find: { readonly perBeat: number | undefined; readonly expectedBpm: number | undefined } | null;
}

/** What is expected at the tempo wanted. */
interface AtGoal {
  /** Share of runs that would be clean there on the last day of the table, by all that is believed. */
  readonly believedShare: number;
  /** The same by the curve that fits all runs best, whatever their day; null when none does. */
  readonly fittedShare: number | null;
  readonly forecast: string;
}

function tellFile(file: string, { goalBpm, find }: Wanted): { readonly result: Result; readonly problems: readonly SaidProblem[] } {
  const text = readText(file);
  const read: ReadResults = text.problem ? { results: null, problems: [text.problem] } : readResults(text.value, file);
  const next = (results: readonly ResultRow[]) => (find ? { find: findNext(results, find) } : {});
  if (read.results) return { result: { file, ...figuresOf(read.results, goalBpm), ...next(read.results) }, problems: read.problems };
  const last = read.problems.at(-1)!;
  const nothing = { file, cleanTempoBpm: null, tooLittle: last.text, nextTempoBpm: null, reason: last.text };
  // A search begins with an empty table.
  const begins = find?.expectedBpm !== undefined && read.problems.length === 1 && last.code === 'results-none';
  return begins ? { result: { ...nothing, ...next([]) }, problems: [] } : { result: nothing, problems: read.problems };
}

/** @param results by day, at least one. */
function figuresOf(results: readonly ResultRow[], goalBpm: number | undefined): Omit<Result, 'file'> {
  const now = results.at(-1)!;
  const { nextTempoBpm, reason } = standsAt(results);
  const atGoal = goalBpm === undefined ? {} : { atGoal: atGoalOf(results, goalBpm) };
  return { ...cleanOf(cleanTempo(results, now.day)), nextTempoBpm, reason: say(reason), ...atGoal };
}

function cleanOf(clean: CleanTempoEstimate): Pick<Result, 'cleanTempoBpm' | 'tooLittle' | 'ranges' | 'rangesSaid'> {
  if (!clean.known) return { cleanTempoBpm: null, tooLittle: say(clean.why) };
  const { median, low90, high90, shape, above } = clean;
  const told = { cleanTempoBpm: { median: share(median), low90: share(low90), high90: share(high90) }, tooLittle: null };
  if (!shape) return told;
  const first = { fromBpm: shape.kind === 'hole' ? null : share(shape.fromBpm), toBpm: share(median) };
  const second = shape.kind === 'hole' ? [{ fromBpm: share(shape.toBpm), toBpm: above ? share(above.median) : null }] : [];
  return { ...told, ranges: [first, ...second], rangesSaid: say(shapeSaid(shape)) };
}

function atGoalOf(results: readonly ResultRow[], goalBpm: number): AtGoal {
  const { day } = results.at(-1)!;
  const curve = tempoCurve(
    results.map((result) => ({ ...result, exerciseId: '' })),
    '',
  ).flatMap((point) => (point.estimate.known ? [{ day: point.day, ...point.estimate }] : []));
  const fitted = fitCurve(results.map(({ tempoBpm, clean, runs }) => ({ x: tempoBpm, clean, runs })));
  return {
    believedShare: share(believedOdds(believe(results, { today: day }), goalBpm)),
    fittedShare: fitted && share(cleanOdds(goalBpm, fitted)),
    forecast: say(forecast(curve, goalBpm, day)),
  };
}

function linesOf({ file, cleanTempoBpm, tooLittle, nextTempoBpm, reason, rangesSaid, atGoal, find }: Result, perBeat: number | undefined): string[] {
  const search = find ? [`  ${find.text}`] : [];
  if (nextTempoBpm === null) return find ? [file, ...search] : [];
  const notes = perBeat === undefined ? '' : `${noteValue(perBeat)} at `;
  const clean = cleanTempoBpm
    ? `Clean up to ${notes}${whole(cleanTempoBpm.median)} (${whole(cleanTempoBpm.low90)} to ${whole(cleanTempoBpm.high90)}).`
    : tooLittle;
  const goal = atGoal ? [`  ${atGoal.forecast} About ${Math.round(10 * atGoal.believedShare)} of 10 runs would be clean there now.`] : [];
  return [file, `  ${clean}`, ...(rangesSaid ? [`  ${rangesSaid}`] : []), `  Next: ${notes}${nextTempoBpm}. ${reason}`, ...goal, ...search];
}

const whole = (bpm: number): string => bpm.toFixed(0);
