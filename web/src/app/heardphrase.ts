/** What was heard of a phrase, and of the short takes beside it. */
import type { CauseStatement, Finding, Probe } from '@evenhand/core/finding';
import type { Measurement } from '@evenhand/core/measurement';
import type { Problem } from '@evenhand/core/problem';
import type { DrumHint } from './drumhint.ts';
import type { Phrase } from './phrase.ts';

/** A probe that was played, and the causes it ruled out. */
export interface HeardProbe {
  readonly probe: Probe;
  readonly measurement: Measurement;
  readonly ruledOut: readonly CauseStatement[];
}

/** A take held against the phrase it was played from. */
export interface HeardPhrase {
  readonly takeId: string;
  readonly phrase: Phrase;
  readonly measurement: Measurement;
  readonly findings: readonly Finding[];
  /** The strokes to work on, as the findings propose them. */
  readonly cell: { readonly first: number; readonly last: number };
  /** What the ear says of the drum of each place, by index. */
  readonly hints?: ReadonlyMap<number, DrumHint>;
  /** Doubtful ones: worth knowing, nothing that hinders. */
  readonly problems: readonly Problem[];
  /** Short takes beside it that changed one thing. */
  readonly probes?: readonly HeardProbe[];
  /** Earlier takes of the same phrase, to hold its tempi against each other. */
  readonly earlier?: readonly Measurement[];
}
