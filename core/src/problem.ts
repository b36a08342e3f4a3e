/** What the core says without words: a code with its parameters; and the problems a drummer can cause. */

/** Values a sentence may need: numbers stay numbers so that words can round them. */
export type Params = Readonly<Record<string, string | number | boolean | readonly number[] | readonly string[]>>;

/** Something to be said. `words` turns it into a sentence; nothing else in the core holds text for people. */
export interface Statement<Code extends string = string, P extends Params = Params> {
  readonly code: Code;
  readonly params: P;
}

/** refused: nothing can be given. doubtful: something is given, and the drummer should know this about it. */
export type Severity = 'refused' | 'doubtful';

/** A problem in what came in. `at` is the offset of the character (text) or the second (sound) it points to. */
export interface Problem<Code extends string = string, P extends Params = Params> extends Statement<Code, P> {
  readonly severity: Severity;
  readonly at?: number;
}

/** What reading gives: never throws for what a drummer can cause. `value` is null exactly when some problem is refused. */
export interface Reading<Value, P extends Problem = Problem> {
  readonly value: Value | null;
  readonly problems: readonly P[];
}
