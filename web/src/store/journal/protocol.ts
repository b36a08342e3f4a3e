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

/** What was done for the journals of a diary. */
export interface Tended {
  /** Records that the database lacked and that a journal held. */
  readonly broughtBack: number;
}

export type ToJournalWorker =
  | { readonly type: 'keep'; readonly turn: number; readonly written: Written }
  | { readonly type: 'tend'; readonly turn: number; readonly storeName: string };

/** `done` is null when it could not be done. */
export interface FromJournalWorker {
  readonly turn: number;
  readonly done: Tended | null;
}
