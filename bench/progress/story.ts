/** What happens in an invented year: the truth that a reader of its diary is held against. Days count from the first, 0 to `days` - 1. */
import type { Felt, SetupBody } from '../../core/src/diary/index.ts';
import type { faultsOf } from '../../web/src/demo/drummer.ts';

export interface Story {
  readonly seed: number;
  readonly days: number;
  readonly zone: string;
  readonly sessionMinutes: number;
  /** Days of the week without practice, 1 Monday to 7 Sunday. */
  readonly freeWeekdays: readonly number[];
  readonly phrases: readonly YearPhrase[];
  /** From and to, both included. */
  readonly away: readonly { readonly from: number; readonly to: number; readonly why: string }[];
  /** Practised without the tool, and written down by hand. */
  readonly byHand: readonly { readonly day: number; readonly minutes: number; readonly note: string }[];
  /** The first said on day 0. */
  readonly setups: readonly { readonly day: number; readonly body: SetupBody }[];
  /** On days with a session. */
  readonly notes: Readonly<Record<number, string>>;
  readonly felt?: Readonly<Record<number, Felt>>;
  /** Days on which the session was ended because something hurt. */
  readonly hurt?: readonly number[];
  /** A new plan when one is over; unless said, only the first is made. */
  readonly plansAgain?: boolean;
  /** Each day has what its plan has, what is too hard rests, and after something hurt it is slower for some days; unless said, the first six exercises of the first plan come in turn. */
  readonly followsPlan?: boolean;
}

/** A phrase of the year, in sixteenths: from which day to which, and how many sessions' worth of learning lie behind on a day, counted from its first. */
export interface YearPhrase {
  readonly name: string;
  readonly sticking: string;
  readonly cell: { readonly first: number; readonly last: number };
  readonly goalBpm: number;
  readonly firstBpm: number;
  readonly referenceBpm: number;
  readonly from: number;
  readonly to: number;
  /** What was said of it on its last day; open unless said. */
  readonly ends?: 'closed' | 'paused';
  readonly learnt: (day: number) => number;
  /** What goes wrong; the second of two kicks unless said. */
  readonly faults?: typeof faultsOf;
}
