/** The type that holds every language to the same codes: a sentence per code, given its parameters. */
import type { Statement } from '../problem.ts';

/** A sentence for each code of a union of statements. A code without a sentence does not compile. */
export type Sentences<S extends Statement> = {
  readonly [Code in S['code']]: (params: Extract<S, Statement<Code>>['params']) => string;
};
