/** Statements become sentences here and nowhere else. */
import type { Problem, Statement } from '../problem.ts';
import { english } from './en/english.ts';
import { type Language, sayFrom } from './sayfrom.ts';

/**
 * The sentence for a statement. A code that this version does not know (an old or newer diary) gives the code itself.
 * @param statement anything the core says.
 * @param language default English with American note values.
 */
export const say = (statement: Statement, language: Language = 'en'): string => sayFrom(english, statement, language);

/** A problem with its sentence: the shape that command-line JSON carries. */
export type SaidProblem = Problem & { readonly text: string };

/** A problem with its sentence beside it. */
export const sayProblem = (problem: Problem, language: Language = 'en'): SaidProblem => ({ ...problem, text: say(problem, language) });
