/** What a verb gives back: one object for programs, lines for people, and what was wrong. */
import type { SaidProblem } from '@evenhand/core/words';

/** 0 done, 1 nothing could be given, 2 the call was wrong. */
export type ExitCode = 0 | 1 | 2;

export interface Outcome {
  readonly exit: ExitCode;
  /** Printed with `--json`; `format` comes first and `problems` last. */
  readonly json: { readonly format: string; readonly problems: readonly SaidProblem[] } & Readonly<Record<string, unknown>>;
  /** Printed without `--json`; empty when nothing could be given. */
  readonly lines: readonly string[];
  /** Text that the `at` of some of the problems points into: a caret is drawn under the character. */
  readonly pointed?: { readonly text: string; readonly problems: readonly SaidProblem[] };
}
