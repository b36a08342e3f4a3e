/** What lies in the IndexedDB of one diary. */
import type { DiaryRecord, Made, OutlineSegment, RecordDraft } from '@evenhand/core/diary';
import type { DBSchema, IDBPDatabase } from 'idb';
import type { Outlined, SegmentKey } from './outlined.ts';
import type { Replaced } from './standing.ts';
import type { AsideRow, TakeChunk, TakeFlac, TakeRow } from './take-rows.ts';

/** Who writes here; made when the database is made. */
export interface Identity {
  readonly deviceId: string;
  readonly ownerId: string;
}

/** Small facts about the database itself, by name. */
export interface Facts {
  readonly identity: Identity;
  readonly stamp: Made;
  readonly persistence: 'kept' | 'mayBeCleared';
  /** When the diary was last saved to a file, milliseconds since 1970. */
  readonly savedAtMs: number;
  /** The block that runs, or ran last, as far as it was played: what becomes of it when the page is killed. Not part of the diary. */
  readonly soFar: BlockSoFar;
  /** Missing in the database that holds the diary now. */
  readonly replaced: Replaced;
  /** What the outlines are of; missing where they are not those of the records. */
  readonly outlined: Outlined;
  /** When the journal was last held against the records; missing until then. */
  readonly journalled: Journalled;
}

/** The records of the database and those in its journal, counted when each held what the other does; in the journal one may stand twice. */
export interface Journalled {
  readonly recordCount: number;
  readonly inJournal: number;
}

/** The draft of a block's record, with its id. */
export type BlockSoFar = Extract<RecordDraft, { readonly kind: 'block' }> & { readonly id: string };

/** What is stored where. Sound lies apart from everything that is read often. */
export interface Tables extends DBSchema {
  records: { key: string; value: DiaryRecord };
  facts: { key: keyof Facts; value: Facts[keyof Facts] };
  takes: { key: string; value: TakeRow };
  chunks: { key: [takeId: string, index: number]; value: TakeChunk };
  flacs: { key: string; value: TakeFlac };
  asides: { key: number; value: AsideRow };
  outlines: { key: SegmentKey; value: OutlineSegment };
}

export type Database = IDBPDatabase<Tables>;
