/** The diary on this device: records appended and read, takes read back; nothing is ever overwritten. */
import { CUT_OVER_HOUR, type DiaryRecord, type KeepingProblem, practiceDay, type RecordDraft } from '@evenhand/core/diary';
import type { Reading } from '@evenhand/core/problem';
import { type Added, type Writing, writeDrafts, writeForeign } from './append.ts';
import { asidesOf, letGo } from './asides.ts';
import { type DatabaseStep, type Followed, followed, openDatabase } from './database.ts';
import { beginJournal, inBoth } from './journal/both.ts';
import { type Journal, openJournal } from './journal/client.ts';
import { freeSound, type StoredSound, soundSizes } from './letgo.ts';
import { noticesOf } from './notice.ts';
import { type OutlineReader, outlineReader, type ReadDiary } from './outlines.ts';
import { recordsAt } from './parts.ts';
import { askToPersist, type Persistence, persistenceOf } from './persistence.ts';
import { attempt } from './problems.ts';
import type { BlockSoFar, Database, Facts, Identity } from './tables.ts';
import type { Aside, StoredTake } from './take-rows.ts';
import { takesOf } from './takes.ts';

export { newId } from './id.ts';
export type { StoredSound } from './letgo.ts';
export type { ReadDiary } from './outlines.ts';
export type { Persistence } from './persistence.ts';
export type { BlockSoFar } from './tables.ts';
export type { Aside, StoredTake } from './take-rows.ts';

/** An open diary. Every method answers with a Reading and never rejects for what a device can do (full, closed, gone). */
export interface Store {
  readonly name: string;
  /** This device's own id, 32 hexadecimal digits, made at first opening. */
  readonly deviceId: string;
  readonly ownerId: string;
  /**
   * Writes new records in one transaction, and beside it in the journal; they survive a power cut once this answers: all of them or none.
   * Gives each its id (unless the draft brings one), `v`, `ownerId` and `made`; ids of one draft may be named in another when brought along (`newId`).
   * After the first session record the browser is asked to keep the store (see `persistence`).
   */
  append(drafts: readonly RecordDraft[]): Promise<Reading<readonly DiaryRecord[], KeepingProblem>>;
  /** Adds records made elsewhere as they are; those already here stay. Gives how many were new. */
  merge(records: readonly DiaryRecord[]): Promise<Reading<number, KeepingProblem>>;
  /** All records, unknown kinds included, in no order that means anything. After years that takes seconds: `read` gives the view. */
  records(): Promise<Reading<readonly DiaryRecord[], KeepingProblem>>;
  /**
   * The view of the diary, from the outlines beside its records (outlines.ts), which are made anew first where they must be.
   * @param part latest: the last weeks, with all that stands (plans, points, settings); whole: everything.
   * @param tell how far the outlines are made, 0 to 1, where that takes longer.
   */
  read(part: 'latest' | 'whole', tell?: (share: number) => void): Promise<Reading<ReadDiary, KeepingProblem>>;
  /** Lets go of what was read; it is read again when it is asked for. */
  letGo(): void;
  /** Some records, whole and as they were written; those that are not here are left out. */
  recordsOf(ids: readonly string[]): Promise<Reading<readonly DiaryRecord[], KeepingProblem>>;
  /** A record and every edit of it, once the whole diary was read. */
  historyOf(id: string): Promise<Reading<readonly DiaryRecord[], KeepingProblem>>;
  /** The ids of all records. */
  ids(): Promise<Reading<readonly string[], KeepingProblem>>;
  /** The sound of a take; refused (`take-not-stored`) when it is not on this device any more. */
  take(takeId: string): Promise<Reading<StoredTake, KeepingProblem>>;
  /** Whether more was written than that the cautions were read; without a look at the records. */
  isBegun(): Promise<boolean>;
  /** Whether the sound of any take was ever stored here. */
  holdsTakes(): Promise<boolean>;
  /** Whether a take was begun that is not over, here or in a browser that was closed. */
  holdsOpenTake(): Promise<boolean>;
  /** Takes that are over and have sound here, with the bytes it takes. */
  soundSizes(): Promise<Reading<readonly StoredSound[], KeepingProblem>>;
  /** Removes the sound of takes for good, all or none; their records with the strokes stay. */
  freeSound(takeIds: readonly string[]): Promise<Reading<true, KeepingProblem>>;
  /** Holds the diary against its second copy, brings back what it lacks (told as a problem), and copies what that lacks. Ask while nothing is played. */
  tend(): Promise<void>;
  persistence(): Promise<Persistence>;
  /** Keeps the block that runs, as far as it was played, in the place of the one before. */
  keepSoFar(block: BlockSoFar): Promise<Reading<true, KeepingProblem>>;
  /** The block that was kept last; null for none. */
  soFar(): Promise<BlockSoFar | null>;
  /** When the diary was last saved to a file, milliseconds since 1970; null for never. */
  savedAtMs(): Promise<number | null>;
  /** Diaries that a whole restore took the place of, the latest first. */
  asides(): Promise<readonly Aside[]>;
  /** What was kept aside goes for good. */
  dropAside(aside: Aside): Promise<Reading<true, KeepingProblem>>;
  /** Asks the browser to keep the store, and remembers the answer. */
  askPersistence(): Promise<Persistence>;
  /** Told after records were added by this tab, by its worker or by another tab. Gives the way to stop being told. */
  onChange(listener: () => void): () => void;
  /** Told when the store stops working on its own: another tab needs a newer version, or the browser took it away. */
  onProblem(listener: (problem: KeepingProblem) => void): () => void;
  close(): void;
}

/** The drummer's own database; the demo has one of its own. */
export const DIARY_NAME = 'evenhand';

/**
 * Opens (and makes, and upgrades) the diary.
 * @param name of the database, default the drummer's.
 * @param options.steps of the database, for tests of upgrades; default what this version knows.
 * @param options.askToKeep whether the browser is asked to keep the store after the first session; default yes.
 * @param options.onReturning told how far it is, 0 to 1, while what the browser lost is brought back from the journal.
 * @returns refused when the browser keeps nothing (private window), the data come from a newer version, or another tab blocks the upgrade;
 * doubtful when the browser had lost it and it was brought back from its journal.
 */
export async function openStore(
  name: string = DIARY_NAME,
  options: { readonly steps?: readonly DatabaseStep[]; readonly askToKeep?: boolean; readonly onReturning?: (share: number) => void } = {},
): Promise<Reading<Store, KeepingProblem>> {
  const troubled = new Set<(problem: KeepingProblem) => void>();
  const onLost = (problem: KeepingProblem): void => {
    for (const listener of troubled) listener(problem);
  };
  const { askToKeep = true, ...database } = options;
  const { value: db, problems } = await openDatabase(name, { ...database, onLost });
  if (!db) return { value: null, problems };
  const identity = await attempt(() => db.get('facts', 'identity') as Promise<Identity>);
  if (!identity.value) return { value: null, problems: identity.problems };
  const following = followed(name, db, { ...database, onLost });
  return { value: storeOf(name, identity.value, { following, troubled, askToKeep, journal: openJournal(name) }), problems };
}

interface Surroundings {
  readonly following: Followed;
  readonly troubled: Set<(problem: KeepingProblem) => void>;
  readonly askToKeep: boolean;
  /** Null where none is kept. */
  readonly journal: Journal | null;
}

function storeOf(name: string, identity: Identity, { following, troubled, askToKeep, journal }: Surroundings): Store {
  const notices = noticesOf(name);
  const tell = (problem: KeepingProblem): void => {
    for (const listener of troubled) listener(problem);
  };
  const takes = takesOf(following, journal);
  const on = <Value>(work: (db: Database) => Promise<Value>): Promise<Reading<Value, KeepingProblem>> =>
    following.on((db) => attempt(() => work(db)));
  const fact = async <Name extends keyof Facts>(which: Name) =>
    (await on((db) => db.get('facts', which) as Promise<Facts[Name] | undefined>)).value ?? null;
  /** Once a page is enough. */
  let mayAsk = askToKeep;
  /** Of one database at a time: of a diary that was replaced nothing is held while the other is read. */
  let read: { readonly db: Database; readonly reader: OutlineReader } | null = null;
  function readerOf(db: Database): OutlineReader {
    if (read?.db !== db) read = { db, reader: outlineReader(db) };
    return read.reader;
  }
  async function add(work: (transaction: Writing) => Promise<Added>): Promise<Reading<Added['records'], KeepingProblem>> {
    const written = await on((db) => inBoth(db, { journal, waitsForDisk: false }, work));
    if (written.value !== null) notices.tell();
    return written;
  }
  return {
    name,
    ...identity,
    async append(drafts) {
      const written = await add((transaction) => writeDrafts(transaction, drafts));
      // Not awaited: a browser may ask its user, and what is written is written.
      if (mayAsk && written.value && drafts.some(({ kind }) => kind === 'session')) {
        mayAsk = false;
        void on(askOnce);
      }
      return written;
    },
    async merge(records) {
      const { value, problems } = await add((transaction) => writeForeign(transaction, records));
      return { value: value?.length ?? null, problems };
    },
    records: () => on((db) => db.getAll('records')),
    async read(part, tell) {
      const diary = await on((db) => readerOf(db).read(part, tell));
      // There is time for it now, and whoever has read everything may write.
      if (diary.value?.whole) void on((db) => beginJournal(db, journal));
      return diary;
    },
    letGo() {
      read = null;
    },
    recordsOf: (ids) => on((db) => recordsOf(db, ids)),
    historyOf: (id) => on(async (db) => [...(await recordsOf(db, [id])), ...readerOf(db).editsOf(id)]),
    ids: () => on((db) => db.getAllKeys('records')),
    take: takes.sound,
    isBegun: async () => ((await fact('outlined'))?.count ?? 2) > 1,
    holdsTakes: async () => ((await on((db) => db.count('takes'))).value ?? 0) > 0,
    holdsOpenTake: async () => ((await takes.open()).value ?? []).length > 0,
    soundSizes: () => on(soundSizes),
    freeSound: (takeIds) => on((db) => freeSound(db, takeIds)),
    async tend() {
      const done = await journal?.tend(name);
      if (!done || done.broughtBack === 0) return;
      notices.tell();
      tell({ code: 'store-brought-back', severity: 'doubtful', params: { recordCount: done.broughtBack, isAll: false } });
    },
    persistence: async () => (await on(persistenceOf)).value ?? 'cannotTell',
    askPersistence: async () => (await on(askToPersist)).value ?? 'cannotTell',
    savedAtMs: () => fact('savedAtMs'),
    keepSoFar: (block) => on((db) => db.put('facts', block, 'soFar').then(() => true as const)),
    soFar: () => fact('soFar'),
    asides: async () => (await attempt(() => asidesOf(name))).value ?? [],
    dropAside: (aside) => attempt(() => letGo(aside).then(() => true as const)),
    onChange: notices.onChange,
    onProblem: (listener) => {
      troubled.add(listener);
      return () => troubled.delete(listener);
    },
    close: () => {
      notices.close();
      following.db.close();
      journal?.close();
    },
  };
}

const recordsOf = async (db: Database, ids: readonly string[]): Promise<readonly DiaryRecord[]> =>
  (await recordsAt(db, ids)).filter((record) => record !== undefined);

async function askOnce(db: Database): Promise<void> {
  if ((await db.get('facts', 'persistence')) === undefined) await askToPersist(db);
}

/**
 * The moment a record is made in: time, zone of the device, and practice day.
 * @param cutOverHour hour at which a new practice day begins, default core/diary's `CUT_OVER_HOUR`.
 */
export function writtenNow(cutOverHour: number = CUT_OVER_HOUR): { readonly atMs: number; readonly zone: string; readonly day: string } {
  const atMs = Date.now();
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  return { atMs, zone, day: practiceDay(atMs, zone, cutOverHour) };
}
