/** What can be wrong with a call, a file or a disk, and the English for it. */
import type { Problem } from '@evenhand/core/problem';
import type { SaidProblem, Sentences } from '@evenhand/core/words';
import { type DiaryFolderProblem, diaryFolderSentences } from './diary-folder/problems.ts';

/** The call itself: exit code 2. */
export type CallProblem =
  | Problem<'call-unknown-verb', { readonly given: string; readonly nearest: string }>
  | Problem<'call-verb-unfinished', { readonly verbs: readonly string[] }>
  | Problem<'call-unknown-option', { readonly given: string; readonly nearest: string; readonly verb: string }>
  | Problem<'call-option-without-value', { readonly option: string; readonly example: string }>
  | Problem<'call-switch-with-value', { readonly option: string; readonly given: string }>
  | Problem<'call-option-missing', { readonly option: string; readonly example: string }>
  | Problem<'call-option-not', { readonly option: string; readonly given: string; readonly wanted: string; readonly example: string }>
  | Problem<'call-file-missing', { readonly verb: string }>
  | Problem<'call-too-much', { readonly given: string; readonly verb: string }>
  | Problem<'call-sheet-format', { readonly given: string }>
  | Problem<'call-missed-without-plan', Record<string, never>>;

/** The files and the disk: exit code 1. */
export type FileProblem =
  | Problem<'file-not-found', { readonly file: string }>
  | Problem<'file-is-folder', { readonly file: string }>
  | Problem<'file-not-folder', { readonly file: string }>
  | Problem<'file-no-permission', { readonly file: string }>
  | Problem<'file-unreadable', { readonly file: string; readonly reason: string }>
  | Problem<'file-not-written', { readonly file: string; readonly reason: string }>
  | Problem<'file-folder-missing', { readonly file: string }>
  | Problem<'disk-full', { readonly file: string }>
  | Problem<'print-not-written', { readonly reason: string }>
  | Problem<'sound-needs-ffmpeg', { readonly file: string; readonly looksLike: string }>
  | Problem<'midi-without-notes', { readonly file: string }>
  | Problem<'midi-unreadable', { readonly file: string }>
  | Problem<'midi-damaged', { readonly file: string }>
  | Problem<'clicks-not-a-time', { readonly given: string; readonly line: number }>
  | Problem<'clicks-none', Record<string, never>>
  | Problem<'exercise-not-read', { readonly file: string }>
  | Problem<'played-not-read', { readonly file: string }>
  | Problem<'results-heading', { readonly file: string; readonly line: number; readonly missing: readonly string[] }>
  | Problem<'results-quote-open', { readonly file: string; readonly line: number }>
  | Problem<'results-none', { readonly file: string }>
  | Problem<'results-fields', { readonly file: string; readonly line: number; readonly fieldCount: number; readonly columnCount: number }>
  | Problem<
      'results-value',
      { readonly file: string; readonly line: number; readonly column: string; readonly given: string; readonly wanted: string }
    >
  | Problem<'results-more-clean', { readonly file: string; readonly line: number; readonly clean: number; readonly runs: number }>
  | Problem<'plan-not-json', { readonly file: string }>
  | Problem<'plan-other-phrase', { readonly given: string; readonly planned: string }>
  | Problem<'plan-missed-not-planned', { readonly day: string }>
  | Problem<'plan-day-without-session', { readonly day: string }>
  | Problem<'plan-feet-unsaid', Record<string, never>>
  | Problem<'plan-without-phrase', Record<string, never>>
  | Problem<'then-now-none', { readonly of: 'days' | 'week' | 'drums' }>
  | Problem<'whole-none', Record<string, never>>
  | Problem<'then-now-no-sound', Record<string, never>>
  | Problem<'then-now-without-sound', Record<string, never>>
  | Problem<'serve-not-built', Record<string, never>>
  | Problem<'serve-port-taken', { readonly port: number; readonly next: number }>
  | Problem<'serve-no-port', { readonly port: number; readonly reason: string }>
  | Problem<'unforeseen', { readonly message: string }>;

export type CliProblem = CallProblem | FileProblem | DiaryFolderProblem;

const meant = (name: string, before = ' ') => (name ? `${before}Did you mean ${name}?` : '');

const listed = (names: readonly string[]) => `${names.join(', ')} ${names.length === 1 ? 'is' : 'are'}`;

const sentences: Sentences<CliProblem> = {
  ...diaryFolderSentences,
  'call-unknown-verb': ({ given, nearest }) => `Evenhand has no "${given}".${meant(nearest)} \`evenhand --help\` shows what it can do.`,
  'call-verb-unfinished': ({ verbs }) => `Say what to do: ${verbs.map((verb) => `\`evenhand ${verb}\``).join(', ')}.`,
  'call-unknown-option': ({ given, nearest, verb }) =>
    `\`evenhand ${verb}\` does not know ${given}.${meant(nearest)} \`evenhand ${verb} --help\` lists what it takes.`,
  'call-option-without-value': ({ option, example }) => `${option} needs something after it, for example ${example}.`,
  'call-switch-with-value': ({ option, given }) => `${option} takes nothing after it. Leave "=${given}" out.`,
  'call-option-missing': ({ option, example }) => `${option} is missing. Add it, for example ${example}.`,
  'call-option-not': ({ option, given, wanted, example }) => `${option} is "${given}", but it takes ${wanted}, for example ${example}.`,
  'call-file-missing': ({ verb }) => `Say which file: \`evenhand ${verb} FILE\`.`,
  'call-too-much': ({ given, verb }) =>
    `\`evenhand ${verb}\` does not know what to do with "${given}". If it belongs to an option, put it in quotes.`,
  'call-sheet-format': ({ given }) => `A sheet cannot be written as "${given}". Use --format svg, pdf, musicxml, midi or wav.`,
  'call-missed-without-plan': () => 'Say which plan the missed days belong to: --from and the file that the plan was written to.',
  'file-not-found': ({ file }) => `There is no file "${file}". Check its name and folder.`,
  'file-is-folder': ({ file }) => `"${file}" is a folder. Name the file in it.`,
  'file-not-folder': ({ file }) => `"${file}" is a file, not a folder. Name a folder; it is made where there is none.`,
  'file-no-permission': ({ file }) => `You are not allowed to read or write "${file}". Change its permissions, or choose a place where you may.`,
  'file-unreadable': ({ file, reason }) => `"${file}" could not be read (${reason}). Copy it to this machine, or try again.`,
  'file-not-written': ({ file, reason }) => `"${file}" could not be written (${reason}). Choose another place for it.`,
  'file-folder-missing': ({ file }) => `The folder for "${file}" is not there. Make it first, or choose another place.`,
  'disk-full': ({ file }) => `The disk is full, so "${file}" could not be written. Make room and try again; nothing else was changed.`,
  'print-not-written': ({ reason }) => `Not all of it could be printed (${reason}). Print it to another place, or make room there, and try again.`,
  'sound-needs-ffmpeg': ({ file, looksLike }) =>
    `"${file}" is ${looksLike}, which Evenhand reads through the program ffmpeg, and that is not installed. Install ffmpeg, or save the recording as WAV, and try again.`,
  'midi-without-notes': ({ file }) => `"${file}" is a MIDI file without a note in it. Record or export it again.`,
  'midi-unreadable': ({ file }) => `"${file}" is a damaged MIDI file: no note of it can be read. Copy it again from where it came from.`,
  'midi-damaged': ({ file }) => `"${file}" is damaged or ends early; the notes before that were read. Copy it again from where it came from.`,
  'clicks-not-a-time': ({ given, line }) =>
    `Line ${line} of the click file is "${given}", which is not a time in seconds. Write one number per line, such as 1.25.`,
  'clicks-none': () => 'The click file holds no times. Write one number per line, in seconds from the start of the recording.',
  'played-not-read': ({ file }) => `"${file}" is no take that was heard. Give what \`evenhand listen --json\` printed, in a file.`,
  'exercise-not-read': ({ file }) => `"${file}" does not hold an exercise. Give one exercise as \`evenhand exercises --json\` prints it.`,
  'results-heading': ({ file, line, missing }) =>
    `Line ${line} of "${file}" must name the columns day, tempoBpm, clean and runs, parted by commas; ${listed(missing)} missing.`,
  'results-quote-open': ({ file, line }) => `A quotation mark on line ${line} of "${file}" never ends. Close it, or take it out.`,
  'results-none': ({ file }) => `"${file}" holds no result that can be read. Write one line for each: 2026-02-04,84,12,14.`,
  'results-fields': ({ file, line, fieldCount, columnCount }) =>
    `Line ${line} of "${file}" has ${fieldCount} ${fieldCount === 1 ? 'value' : 'values'} for ${columnCount} columns; it was left out.`,
  'results-value': ({ file, line, column, given, wanted }) =>
    `Line ${line} of "${file}" has "${given}" for ${column}, which takes ${wanted}; it was left out.`,
  'results-more-clean': ({ file, line, clean, runs }) => `Line ${line} of "${file}" has ${clean} clean runs out of ${runs}; it was left out.`,
  'plan-not-json': ({ file }) => `"${file}" cannot be read as JSON. Choose the file that \`evenhand plan --json\` was written to.`,
  'plan-other-phrase': ({ given, planned }) =>
    `This plan was made for ${planned}, not for ${given}, and stays so. For another phrase leave --from out.`,
  'plan-missed-not-planned': ({ day }) => `No session was planned for ${day}, so nothing had to move for it.`,
  'plan-day-without-session': ({ day }) => `No session is planned for ${day}. Choose a day that the plan has.`,
  'plan-feet-unsaid': () => 'There are feet in this session. Say what they play on: --feet pedal, floor, hands or none.',
  'plan-without-phrase': () => 'This file does not say which phrase the plan is for. Use one that `evenhand plan --json` was written to.',
  'then-now-none': ({ of }) =>
    of === 'week'
      ? 'There is no reference take of a week before the latest that is another than the first. Leave --against out to compare the first and the last.'
      : of === 'drums'
        ? 'No sticking was heard at one tempo both on a pad and without one. Play the phrase on both, at the same tempo.'
        : 'The phrase was not yet heard at one tempo on two days, so there is no then and now. The plan has a reference take each week.',
  'whole-none': () => 'No phrase was played in this diary yet, so there is nothing to draw.',
  'then-now-no-sound': () =>
    'The sound of one of the two takes is not in this diary any more, or too little of it can be told. The figures are kept: write a page (.html, .pdf) or a picture (.png, .svg).',
  'then-now-without-sound': () =>
    'The sound of one of the two takes is not in this diary any more, or too little of it can be told, so the page has none. Its figures are kept.',
  'serve-not-built': () => 'The app is not built yet. Run `npm run build` in the folder of Evenhand, or just `npm start`.',
  'serve-port-taken': ({ port, next }) => `Port ${port} is already used by another program, so the app is at port ${next}.`,
  'serve-no-port': ({ port, reason }) => `The app could not be served at port ${port} (${reason}). Choose another with --port.`,
  unforeseen: ({ message }) => `Something went wrong that Evenhand did not expect (${message}). Please tell its makers what you did.`,
};

/** A problem of the command line with its sentence. */
function sayCliProblem(problem: CliProblem): SaidProblem {
  const sentence = sentences[problem.code] as (params: never, noteNames: 'american') => string;
  return { ...problem, text: sentence(problem.params as never, 'american') };
}

/** A refused problem of the command line, with its sentence. */
export function refuse<Code extends CliProblem['code']>(code: Code, params: Extract<CliProblem, { code: Code }>['params']): SaidProblem {
  return sayCliProblem({ code, severity: 'refused', params } as unknown as CliProblem);
}

/** What is said of a value that an option does not take. @param option as it is typed, `--day`. @param wanted in words; `example` is a value. */
export const refuseOption = (
  option: string,
  given: string,
  { wanted, example }: { readonly wanted: string; readonly example: string },
): SaidProblem => refuse('call-option-not', { option, given, wanted, example: `${option} ${example}` });

/** A doubtful problem of the command line, with its sentence. */
export function doubt<Code extends CliProblem['code']>(code: Code, params: Extract<CliProblem, { code: Code }>['params']): SaidProblem {
  return sayCliProblem({ code, severity: 'doubtful', params } as unknown as CliProblem);
}
