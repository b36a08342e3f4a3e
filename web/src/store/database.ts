/** The IndexedDB of one diary: its stores, how it is opened, upgraded, and lost. */
import type { KeepingProblem } from '@evenhand/core/diary';
import type { Reading } from '@evenhand/core/problem';
import { type IDBPTransaction, openDB, type StoreNames } from 'idb';
import { newId } from './id.ts';
import { folderOf } from './journal/folder.ts';
import { noOutline, type Outlined } from './outlined.ts';
import { failed } from './problems.ts';
import { type Following, following, replacedIn } from './standing.ts';
import type { Database, Tables } from './tables.ts';

export type { BlockSoFar, Database, Facts, Identity } from './tables.ts';

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
  /** Told how far it is, 0 to 1, while what the browser lost is brought back from the journal. */
  readonly onReturning?: (share: number) => void;
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
export function openOne(name: string, { onLost, onReturning = () => {}, steps = STEPS }: OpenOptions): Promise<Reading<Database, KeepingProblem>> {
  return new Promise((resolve) => {
    let gaveUp = false;
    const blocked = (): void => {
      gaveUp = true;
      resolve({ value: null, problems: [{ code: 'store-blocked', severity: 'refused', params: {} }] });
    };
    open(name, steps, { blocked, onLost }).then(
      async (db) => {
        if (gaveUp) db.close();
        else resolve({ value: db, problems: await fromJournal(db, onReturning) });
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
async function fromJournal(db: Database, tell: (share: number) => void): Promise<readonly KeepingProblem[]> {
  const outlined = (await db.get('facts', 'outlined').catch(() => undefined)) as Outlined | undefined;
  const folder = outlined?.count === 0 ? await folderOf(db.name) : null;
  return folder ? (await import('./journal/bringback.ts')).bringBackAll(db, folder, tell) : [];
}

function notOpened(error: unknown): KeepingProblem {
  const problem = failed(error);
  if (problem.code !== 'store-failed') return problem;
  const nothingKept = !(globalThis.indexedDB as IDBFactory | undefined) || ['InvalidStateError', 'SecurityError'].includes((error as Error).name);
  return nothingKept ? { code: 'store-unavailable', severity: 'refused', params: {} } : problem;
}
