/** Progress as tables for a spreadsheet (CSV): the clean tempo of each exercise day by day, and what rose with what. */
import { defused, writeCsv } from '@evenhand/core/csv';
import type { Exercise } from '@evenhand/core/exercise';
import { type BlockResult, phrasesIn, type RisenOf, risenRows, tempoCurve } from '@evenhand/core/progress';
import { type Language, say } from '@evenhand/core/words';

/** A spreadsheet takes text without it for another encoding. */
const BYTE_ORDER_MARK = '\uFEFF';

const TEMPO_COLUMNS = ['day', 'exercise', 'sticking', 'perBeat', 'family', 'cleanTempoBpm', 'low90', 'high90', 'clean', 'runs', 'by', 'exerciseId'];

/** The clean tempo of every exercise on each day with results of it, exercise by exercise, the one played last first. */
export function tempoCsv(results: readonly BlockResult[], language: Language = 'en'): string {
  const exercises = [...new Map([...results].reverse().map(({ exercise }) => [exercise.id, exercise])).values()];
  return tableOf(
    TEMPO_COLUMNS,
    exercises.flatMap((exercise) => daysOf(results, exercise, language)),
  );
}

function daysOf(results: readonly BlockResult[], { id, family, title, sticking, perBeat }: Exercise, language: Language): readonly string[][] {
  const of = [say(title, language), sticking, String(perBeat), family];
  return tempoCurve(results, id).map(({ day, estimate, clean, runs, heard }) => {
    const tempi = estimate.known ? [estimate.median, estimate.low90, estimate.high90].map((bpm) => bpm.toFixed(1)) : ['', '', ''];
    return [day, ...of, ...tempi, String(clean), String(runs), heard ? 'ear' : 'word', id];
  });
}

const RISEN_COLUMNS = ['against', 'exercise', 'sticking', 'perBeat', 'family', 'weeks', 'roseWeeks', 'bothRoseWeeks'];
const RISEN_CHANGES = ['whileRisingPercent', 'otherwisePercent', 'word'];

/** What rose with each phrase that was played as a reference, the latest first. */
export const allRisenCsv = (results: readonly BlockResult[], today: string, language: Language = 'en'): string =>
  tableOf(
    [...RISEN_COLUMNS, ...RISEN_CHANGES],
    phrasesIn(results).flatMap((phrase) => linesOf(risenRows(results, phrase, today), phrase, language)),
  );

/** What rose with one phrase, in the order of `rows`. */
export const risenCsv = (rows: readonly RisenOf[], phrase: Exercise, language: Language = 'en'): string =>
  tableOf([...RISEN_COLUMNS, ...RISEN_CHANGES], linesOf(rows, phrase, language));

const linesOf = (rows: readonly RisenOf[], phrase: Exercise, language: Language): readonly string[][] =>
  rows.map(({ exercise, family, steps, roseSteps, togetherSteps, whileRising, otherwise, word }) => {
    const of = exercise ? [say(exercise.title, language), exercise.sticking, String(exercise.perBeat)] : ['', '', ''];
    const changes = [whileRising, otherwise].map((share) => (share === null ? '' : (100 * share).toFixed(2)));
    return [phrase.sticking, ...of, family, ...[steps, roseSteps, togetherSteps].map(String), ...changes, word];
  });

/** Texts that a player wrote may look like formulas; a figure below zero is none. */
const tableOf = (columns: readonly string[], lines: readonly (readonly string[])[]): string =>
  BYTE_ORDER_MARK + writeCsv([columns, ...lines.map((line) => line.map((cell) => (/^-?[\d.]+$/.test(cell) ? cell : defused(cell))))]);
