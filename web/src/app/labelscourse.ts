/** Labels of the course of a tempo and of what stands beside it; fetched with their screen. */
import type { KnownTempo, LaneMove, PhraseLane, SetupChange, WeekTempo } from '@evenhand/core/progress';
import { labels, tempoName } from './labels.ts';
import { gearLabels } from './labelsheard.ts';

export const courseLabels = {
  setup: 'Set-up',
  /** What a set-up became from a day on. */
  became: ({ names, values }: SetupChange) =>
    `New: ${names.map((name, k) => `${values[k]} (${((gearLabels.parts as Readonly<Record<string, string>>)[name] ?? name).toLowerCase()})`).join(', ')}`,
  marks: (unknown: boolean) =>
    `Each mark is what was known at the end of that day, from all results so far, so it follows a jump by some days.${unknown ? ' A short line at the foot is a day on which it could not be told.' : ''}`,
  weeks:
    'What is said of weeks goes by all their results together, each day by itself; a mark below, and its line in the table, leans on the days before as well. So a single day may lie some beats beside what is said of its weeks.',
  shown: (days: number, all: number) => `The latest ${days} of ${all} days with results.`,
  before: (days: number) => `Show the ${days} days before`,
  rows: (days: number) => `Show all ${days} lines`,
} as const;

export const risenLabels = {
  title: 'What rose with what',
  table: 'Exercise by exercise',
  hint: 'Each week is compared with the week before by its own results, where both had runs that failed and runs that did not. That two rose together does not say that one lifted the other.',
  left: (names: string) => `Not in the table, for no two weeks can be compared: ${names}.`,
  against: 'Compared with',
  working: 'Looking through the weeks …',
  none: 'There are no weeks yet in which both are known. It takes some weeks with runs that are not all clean.',
  family: (name: string) => `all of ${name.toLowerCase()}`,
  columns: {
    name: 'Exercise',
    steps: 'Weeks compared',
    togetherSteps: 'Both rose',
    whileRising: 'Change a week, while the phrase rose',
    otherwise: 'Change a week, otherwise',
    word: 'In a word',
  },
  of: (both: number, rose: number) => `in ${both} of ${rose}`,
  words: { together: 'rose together more often than by chance', notSure: 'no more than chance would give', few: 'too few weeks to say' },
  save: 'Save the table (CSV)',
  sortBy: 'Sort by',
  sort: (column: string) => `Sort by: ${column}`,
} as const;

export const workedLabels = {
  title: 'What was worked on',
  table: 'Phrase by phrase',
  phrase: 'Phrase',
  span: 'First and last day',
  days: 'Days',
  minutes: 'Minutes',
  first: 'Clean tempo at first',
  last: 'And at last',
  wanted: 'Wanted',
  state: 'How it stands',
  states: { open: 'worked on', paused: 'put aside', closed: 'closed' },
  all: (phrases: number) => `Show all ${phrases} phrases`,
  span2: (from: string, to: string) => (from === to ? from : `${from} to ${to}`),
  hint: 'Each clean tempo is the first and the last that could be told, as in the picture of the clean tempo (“just before” a jump is another day); the range holds it 9 times in 10. Days and minutes are those of the phrase with its exercises and of what you wrote down by hand.',
} as const;

export const wholeLabels = {
  title: 'The whole diary at one look',
  hint: 'Each phrase from the day it was begun to the day it was closed or put aside: the line is its clean tempo, the dashed one the tempo wanted, all on one scale; across days away it is only hinted at. Beside days away stands what you wrote around them.',
  which: 'Which days',
  all: 'all of them',
  unmarked: 'Standstills and jumps are marked where one year is chosen.',
  tables: 'The same as tables',
  betweenTable: 'Days away, set-ups, lessons, standstills and jumps',
  tempoTable: 'Clean tempi in the picture',
  from: 'From',
  to: 'To',
  what: 'What',
  said: 'In your own words',
  away: (days: number) => `${days} days away`,
  lesson: 'A lesson',
  moves: { stood: 'Standstill', jump: 'Jump' },
  moved: ({ name, sticking, perBeat }: PhraseLane, move: LaneMove) =>
    `${name || sticking}: ${tempoName(Math.round(move.is === 'stood' ? move.bpm : move.beforeBpm), perBeat)}${move.is === 'stood' ? '' : ` just before, ${Math.round(move.afterBpm)} at last`}`,
  nothing: 'Nothing was written.',
  phrase: 'Phrase',
  day: 'Day',
  tempo: 'Clean tempo',
  range: '9 times in 10',
  png: 'Save the picture (PNG)',
  svg: 'Save the picture (SVG)',
  csv: 'Save the table (CSV)',
  saved: 'Saved among your downloads.',
  failed: 'It could not be written. Try again.',
} as const;

export const weekLabels = {
  title: 'Week against week',
  table: 'Figure by figure',
  hint: (partly: boolean) =>
    `By the results of each week alone${partly ? '; this week is not over' : ''}. The clean tempo lies in its range 9 times in 10, every other figure 95 times in 100. The double is told at the tempi of the week: where those rose and it stayed alike, it got better; “Then and now” has it at one tempo.`,
  last: (from: string) => `Week from ${from}`,
  now: (from: string) => `This week, from ${from}`,
  rows: {
    days: 'Days',
    minutes: 'Minutes',
    runs: 'Clean runs, all exercises',
    tempo: (phrase: string | null) => `Clean tempo of ${phrase ?? 'the phrase'}`,
    space: 'Second of the double: space, % of what is written',
    stepDb: 'Second stroke against the first, dB',
  },
  fewer: (named: string) => `Clearly fewer runs were clean than the week before, most of all in: ${named}.`,
  failed: (title: string, clean: number, runs: number) => `${title} (${clean} of ${runs} clean)`,
  cell: 'The strokes that fail, over the weeks',
  cellHint:
    'From the blocks of the phrase, each at its own tempo. At a higher tempo the same double is harder: where the tempo rose and the figure stayed alike, it got better. The bar holds the mean of the week 95 times in 100; a short line at the foot is a week with too few blocks.',
  cellTable: 'Week by week',
  week: 'Week from',
  blocks: 'Blocks',
  space: 'Space, %',
  volume: 'Volume, dB',
  of: 'Which figure',
  figures: { space: 'how evenly', volume: 'how loud' },
} as const;

/** What words of the trade and of this tool mean, told where they are read. */
export const meaningLabels = {
  title: 'What these words mean',
  words: {
    rudiment: ['A rudiment', 'One of the standard stickings that holds the strokes that fail.'],
    pad: ['Pad work', 'The strokes that fail on one drum: with space, one at a time, with a run-up, against a model such as singles before doubles.'],
    groove: ['A groove', 'Those strokes inside a groove.'],
    fill: ['A fill', 'The phrase at the end of bars of time, and back into time on 1.'],
    kit: ['Around the kit', 'The same strokes on other drums.'],
    dynamics: ['Volume work', 'The same strokes with accents and soft strokes put elsewhere.'],
    inversion: ['Begun on another stroke', 'The same strokes in the same order, begun in another place: RLRLKK begun on stroke 3 is RLKKRL.'],
    use: ['In music', 'The phrase in a piece, beside plain time or over a recording.'],
    block: ['A block', 'One exercise for some minutes of a session, at one tempo or one that follows you.'],
    run: ['A run', 'Eight main strokes in a row. It is clean when all are there, each in time within what is set, and about as loud as is wanted.'],
  },
} as const;

export const awayLabels = {
  title: 'Days away, more than three on end',
  none: 'Never more than three days on end.',
  days: (n: number) => `${n} days`,
  earlier: (n: number) => `Show the ${n} weeks before`,
} as const;

/** Minutes of practice as a figure of a table. */
export const minutesFigure = (sum: number): string => (sum > 0 && sum < 1 ? labels.progress.underOne : String(Math.round(sum)));

/** A clean tempo with its range as a day told it; a missing one is a dash. */
export const knownTempo = (told: KnownTempo | null, perBeat: number): string =>
  told ? `${tempoName(Math.round(told.median), perBeat)} (${tempoRange(told.low90, told.high90)})` : '–';

/** The clean tempo of a week with its range; a missing one is a dash. */
export const weekTempo = (told: WeekTempo | null, perBeat: number): string =>
  told ? `${tempoName(Math.round(told.bpm), perBeat)} (${tempoRange(told.lowBpm, told.highBpm)})` : '–';

/** A range of tempi; one that is narrower than a beat a minute says so. */
const tempoRange = (low: number, high: number): string =>
  Math.round(low) === Math.round(high) ? 'to less than 1' : `${Math.round(low)}\u00a0…\u00a0${Math.round(high)}`;

/** A day as short as it can be read: with its year where that is another than beside it. */
export const dated = (day: string, beside: string | undefined, short: (day: string) => string): string =>
  beside !== undefined && beside.slice(0, 4) === day.slice(0, 4) ? short(day) : `${short(day)} ${day.slice(0, 4)}`;
