/** Statements become sentences here and nowhere else. */
import type { Problem, Statement } from '../problem.ts';
import { english } from './en/english.ts';
import type { NoteNames } from './sentences.ts';

/** Languages there are sentences for: `en-GB` is English with the British names of note values. */
export type Language = 'en' | 'en-GB';

const sentences: Readonly<Record<string, (params: never, noteNames: NoteNames) => string>> = english;

/** What a language calls note values. */
export const noteNamesOf = (language: Language): NoteNames => (language === 'en-GB' ? 'british' : 'american');

/**
 * The sentence for a statement. A code that this version does not know (an old or newer diary) gives the code itself.
 * @param statement anything the core says.
 * @param language default English with American note values.
 */
export function say(statement: Statement, language: Language = 'en'): string {
  const sentence = sentences[statement.code];
  return sentence ? sentence(statement.params as never, noteNamesOf(language)) : statement.code;
}

/** A problem with its sentence: the shape that command-line JSON carries. */
export type SaidProblem = Problem & { readonly text: string };

/** A problem with its sentence beside it. */
export const sayProblem = (problem: Problem, language: Language = 'en'): SaidProblem => ({ ...problem, text: say(problem, language) });
