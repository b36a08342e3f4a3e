/** The IndexedDB of one diary: its stores, how it is opened, upgraded, and lost. */
import type { DiaryRecord, KeepingProblem, Made, OutlineSegment, RecordDraft } from '@evenhand/core/diary';
import type { Reading } from '@evenhand/core/problem';
import { type DBSchema, type IDBPDatabase, type IDBPTransaction, openDB, type StoreNames } from 'idb';
import { newId } from './id.ts';
import { folderOf } from './journal/folder.ts';
import { noOutline, type Outlined, type SegmentKey } from './outlined.ts';
import { failed } from './problems.ts';
import { type Following, following, type Replaced, replacedIn } from './standing.ts';
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
export type UpgradeTransaction = IDBPTransaction<Tables, StoreNames<Tables>[], 'versionchange'>;

/** What leads from one version of the database to the next. `STEPS[0]` makes version 1. Never change one that was released. */
export type DatabaseStep = (db: Database, transaction: UpgradeTransaction) => void | Promise<void>;

const makeTables: DatabaseStep = (db, transaction) => {
  db.createObjectStore('records', { keyPath: 'id' });
  db.createObjectStore('takes', { keyPath: 'takeId' });
  db.createObjectStore('chunks', { keyPath: ['takeId', 'index'] });
  db.createObjectStore('facts');
  void transaction.objectStore('facts').put({ deviceId: newId(), ownerId: newId() }, 'identity');
};

/** Sound that came out of a backup, as it came, and diaries that a whole restore took the place of. */
const addBackups: DatabaseStep = (db) => {
  db.createObjectStore('flacs', { keyPath: 'takeId' });
  db.createObjectStore('asides', { keyPath: 'id', autoIncrement: true });
};

/** The outline beside the records; a diary that has records already gets its own when it is read (outlines.ts). */
const addOutlines: DatabaseStep = async (db, transaction) => {
  db.createObjectStore('outlines');
  if ((await transaction.objectStore('records').count()) === 0) await transaction.objectStore('facts').put(noOutline(), 'outlined');
};

export const STEPS: readonly DatabaseStep[] = [makeTables, addBackups, addOutlines];

export interface OpenOptions {
  /** Told when the opened database stops: another tab wants a newer version, or the browser took it away. */
  readonly onLost: (problem: KeepingProblem) => void;
  /** Default STEPS; tests give more. */
  readonly steps?: readonly DatabaseStep[];
}

/** Opens the database that holds a diary now, from the one with its name on; refused, and doubtful, as `openOne`. */
export async function openDatabase(name: string, options: OpenOptions): Promise<Reading<Database, KeepingProblem>> {
  for (let at = name; ; ) {
    const opened = await openOne(at, options);
    if (!opened.value) return opened;
    const replaced = await replacedIn(opened.value);
    if (!replaced) return opened;
    opened.value.close();
    at = replaced.by;
  }
}

export type Followed = Following<Database>;

/** The diary of that name, wherever it comes to stand. @param db as it was opened. */
export const followed = (name: string, db: Database, options: OpenOptions): Followed =>
  following(db, async () => (await openDatabase(name, options)).value);

/**
 * Opens a database at the newest version, upgrading what is there in one transaction: all of it or nothing. An empty one that has a journal is
 * filled from it: the browser has lost what was there.
 * @returns refused when the browser keeps nothing, the data are newer than this program, or another tab does not let go of an older version; doubtful
 * when it was filled from its journal.
 */
export function openOne(name: string, { onLost, steps = STEPS }: OpenOptions): Promise<Reading<Database, KeepingProblem>> {
  return new Promise((resolve) => {
    let gaveUp = false;
    const blocked = (): void => {
      gaveUp = true;
      resolve({ value: null, problems: [{ code: 'store-blocked', severity: 'refused', params: {} }] });
    };
    open(name, steps, { blocked, onLost }).then(
      async (db) => {
        if (gaveUp) db.close();
        else resolve({ value: db, problems: await fromJournal(db) });
      },
      (error: unknown) => resolve({ value: null, problems: [notOpened(error)] }),
    );
  });
}

async function open(
  name: string,
  steps: readonly DatabaseStep[],
  events: { readonly blocked: () => void; readonly onLost: (problem: KeepingProblem) => void },
): Promise<Database> {
  let reason: unknown = null;
  const db: Database = await openDB<Tables>(name, steps.length, {
    async upgrade(database, from, _to, transaction) {
      try {
        for (const step of steps.slice(from)) await step(database, transaction);
      } catch (error) {
        // Without this the half-made upgrade would be kept: idb does not roll back when `upgrade` throws.
        reason = error;
        transaction.done.catch(() => {});
        transaction.abort();
      }
    },
    blocked: events.blocked,
    blocking() {
      db.close();
      events.onLost({ code: 'store-closed', severity: 'refused', params: {} });
    },
    terminated: () => events.onLost({ code: 'store-failed', severity: 'refused', params: { reason: 'the browser closed the diary' } }),
  }).catch((error: unknown) => {
    throw reason ?? error;
  });
  return db;
}

/** Of an empty database that has a journal the browser lost what was in it. What brings it back is fetched only then. */
async function fromJournal(db: Database): Promise<readonly KeepingProblem[]> {
  const outlined = (await db.get('facts', 'outlined').catch(() => undefined)) as Outlined | undefined;
  const folder = outlined?.count === 0 ? await folderOf(db.name) : null;
  return folder ? (await import('./journal/bringback.ts')).bringBackAll(db, folder) : [];
}

function notOpened(error: unknown): KeepingProblem {
  const problem = failed(error);
  if (problem.code !== 'store-failed') return problem;
  const nothingKept = !(globalThis.indexedDB as IDBFactory | undefined) || ['InvalidStateError', 'SecurityError'].includes((error as Error).name);
  return nothingKept ? { code: 'store-unavailable', severity: 'refused', params: {} } : problem;
}
