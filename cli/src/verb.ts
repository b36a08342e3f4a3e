/** What a verb of the command line is: its options as data, so that parsing, checking and help share one table. */
import type { Outcome } from './outcome.ts';

/** How the text after an option is read; `texts` takes one or more, and may be given again. */
export type OptionKind = 'text' | 'texts' | 'whole' | 'number' | 'span' | 'switch';

export interface OptionSpec {
  /** Long name without the dashes. */
  readonly name: string;
  readonly short?: string;
  readonly kind: OptionKind;
  /** What stands after the option in the help, such as BPM. */
  readonly placeholder?: string;
  /** A value that works, shown when it is missing or wrong. */
  readonly example: string;
  readonly required?: boolean;
  readonly about: string;
}

/** An option as it is typed: `--tempo`, or `-o` where the short form is the usual one. */
export const typed = ({ name, short, kind }: OptionSpec): string => (short && kind !== 'switch' ? `-${short}` : `--${name}`);

/** First and last main stroke, from 0, as `--cell 5-6` says them from 1. */
export interface Span {
  readonly first: number;
  readonly last: number;
}

/** A call whose options were checked: numbers are positive numbers, spans are spans. */
export interface Call {
  readonly files: readonly string[];
  readonly text: Readonly<Record<string, string | undefined>>;
  readonly texts: Readonly<Record<string, readonly string[] | undefined>>;
  readonly number: Readonly<Record<string, number | undefined>>;
  readonly span: Readonly<Record<string, Span | undefined>>;
  /** true for every switch that was given. */
  readonly flag: Readonly<Record<string, boolean | undefined>>;
}

export interface Verb {
  /** One word, or two parted by a blank. */
  readonly name: string;
  /** Value of `format` in its JSON. */
  readonly format: string;
  /** One line for the list of verbs. */
  readonly summary: string;
  /** One or two sentences for a drummer. */
  readonly about: string;
  /** Files it takes: none, exactly one, or one and more. */
  readonly takesFile: boolean | 'several';
  readonly options: readonly OptionSpec[];
  readonly example: string;
  /** The fields of its JSON when nothing could be given, so that a program finds every key. */
  readonly empty: Readonly<Record<string, unknown>>;
  run(call: Call): Outcome | Promise<Outcome>;
}
