/** `tempo`: the clean tempo of an exercise and the next tempo, from a table of results. */
import { type CleanTempoEstimate, cleanTempo, nextTempo } from '@evenhand/core/tempo';
import { type SaidProblem, say } from '@evenhand/core/words';
import { share } from '../figures.ts';
import { readText } from '../files.ts';
import type { Outcome } from '../outcome.ts';
import { type ReadResults, type ResultRow, readResults } from '../results-file.ts';
import type { Call, Verb } from '../verb.ts';

const format = 'tempo/1';
const empty = { results: [] };

export const tempo: Verb = {
  name: 'tempo',
  format,
  summary: 'Tells how fast an exercise is clean, and which tempo comes next.',
  about:
    'Tells for each table of results how fast the exercise is clean and which tempo comes next. A table has a heading and the columns day, tempoBpm, clean, runs: on that day, at that tempo, so many of so many runs were clean. The last line of the last day is where it stands now.',
  takesFile: 'several',
  options: [],
  example: 'evenhand tempo doubles.csv',
  empty,
  run: (call) => tell(call),
};

function tell({ files }: Call): Outcome {
  const told = files.map(tellFile);
  const results = told.map(({ result }) => result);
  return {
    exit: told.some(({ result }) => result.nextTempoBpm === null) ? 1 : 0,
    json: { format, results, problems: told.flatMap(({ problems }) => problems) },
    lines: results.flatMap(linesOf),
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
}

function tellFile(file: string): { readonly result: Result; readonly problems: readonly SaidProblem[] } {
  const text = readText(file);
  const read: ReadResults = text.problem ? { results: null, problems: [text.problem] } : readResults(text.value, file);
  if (read.results) return { result: { file, ...figuresOf(read.results) }, problems: read.problems };
  const reason = read.problems.at(-1)!.text;
  return { result: { file, cleanTempoBpm: null, tooLittle: reason, nextTempoBpm: null, reason }, problems: read.problems };
}

/** @param results by day, at least one. */
function figuresOf(results: readonly ResultRow[]): Omit<Result, 'file'> {
  const now = results.at(-1)!;
  const { nextTempoBpm, reason } = nextTempo(sinceLastChange(results), now.tempoBpm);
  return { ...cleanOf(cleanTempo(results, now.day)), nextTempoBpm, reason: say(reason) };
}

const cleanOf = (clean: CleanTempoEstimate): Pick<Result, 'cleanTempoBpm' | 'tooLittle'> =>
  clean.known
    ? { cleanTempoBpm: { median: share(clean.median), low90: share(clean.low90), high90: share(clean.high90) }, tooLittle: null }
    : { cleanTempoBpm: null, tooLittle: say(clean.why) };

/** The results since the tempo was last changed: what went well or badly at this tempo weeks ago says nothing about today. */
function sinceLastChange(results: readonly ResultRow[]): readonly ResultRow[] {
  const backwards = [...results].reverse();
  const changed = backwards.findIndex(({ tempoBpm }) => tempoBpm !== backwards[0]!.tempoBpm);
  return changed < 0 ? results : backwards.slice(0, changed);
}

function linesOf({ file, cleanTempoBpm, tooLittle, nextTempoBpm, reason }: Result): string[] {
  if (nextTempoBpm === null) return [];
  const clean = cleanTempoBpm
    ? `Clean up to ${whole(cleanTempoBpm.median)} (${whole(cleanTempoBpm.low90)} to ${whole(cleanTempoBpm.high90)}).`
    : tooLittle;
  return [file, `  ${clean}`, `  Next: ${nextTempoBpm}. ${reason}`];
}

const whole = (bpm: number): string => bpm.toFixed(0);
