/** What pages and Workers that write records say to the Worker that keeps a journal of them. */
import type { DiaryRecord } from '@evenhand/core/diary';
import type { Identity } from '../tables.ts';

/** Records that were written together, by whom and where. */
export interface Written {
  /** Name of the database. */
  readonly database: string;
  readonly identity: Identity;
  readonly records: readonly DiaryRecord[];
}

/** A line of a journal: its file, and the byte it begins at. */
export interface Line {
  readonly database: string;
  readonly file: string;
  readonly at: number;
}

/** What was done for the journals of a diary. */
export interface Tended {
  /** Records that the database lacked and that a journal held. */
  readonly broughtBack: number;
}

export type JournalWork =
  /** The file that is written to is made ahead of the first entry. */
  | ({ readonly type: 'begin' } & Pick<Written, 'database' | 'identity'>)
  | { readonly type: 'keep'; readonly written: Written }
  /** A line is made one that does not count. */
  | { readonly type: 'takeBack'; readonly line: Line }
  | { readonly type: 'tend'; readonly storeName: string };

/** What each of them gives. */
export interface Done {
  readonly begin: true;
  readonly keep: Line;
  readonly takeBack: true;
  readonly tend: Tended;
}

export type ToJournalWorker = JournalWork & { readonly turn: number };

/** `done` is null when it could not be done. */
export interface FromJournalWorker {
  readonly turn: number;
  readonly done: Done[keyof Done] | null;
}
