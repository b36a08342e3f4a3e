/** The type that holds every language to the same codes: a sentence per code, given its parameters. */
import type { Statement } from '../problem.ts';

/** What note values are called: 16ths or semiquavers. */
export type NoteNames = 'american' | 'british';

/** A sentence for each code of a union of statements. A code without a sentence does not compile. Those that name note values are told by which names. */
export type Sentences<S extends Statement> = {
  readonly [Code in S['code']]: (params: Extract<S, Statement<Code>>['params'], noteNames: NoteNames) => string;
};
