/**
 * Which database holds a diary. A whole restore writes another database and then marks the one before as replaced, in one small transaction: nothing is
 * moved, and what was there stays aside until it is let go. Whoever opens a diary follows the marks from its name on.
 */

/** A database, as far as its mark goes. */
interface Marked {
  get(table: 'facts', name: 'replaced'): Promise<unknown>;
  close(): void;
}

/** That another database has taken the place of this one. */
export interface Replaced {
  /** Name of the other. */
  readonly by: string;
  /** Milliseconds since 1970. */
  readonly atMs: number;
  /** What is kept aside here. */
  readonly recordCount: number;
  readonly takeCount: number;
  /** Nothing is: only the mark is left. */
  readonly letGo: boolean;
}

/** The name of a database that may take the place of those of a diary. */
export const nextName = (storeName: string, id: string): string => `${storeName}${MARK}${id}`;

/** The name of the diary that a database belongs to. */
export const diaryOf = (databaseName: string): string => databaseName.split(MARK)[0]!;

/** Parts a diary's name from the id of one of its later databases; no name of a diary has it. */
const MARK = '~';

/** The later databases of a diary that are here, whether they hold it or were left by a restore that was cut off. */
export async function laterNames(storeName: string): Promise<readonly string[]> {
  const known = (await (indexedDB as Partial<IDBFactory>).databases?.call(indexedDB)) ?? [];
  return known.flatMap(({ name }) => (name && isLater(storeName, name) ? [name] : []));
}

/** Whether that may be one of the later databases of a diary. */
export const isLater = (storeName: string, name: string): boolean => name.startsWith(`${storeName}${MARK}`);

export const replacedIn = (db: Marked): Promise<Replaced | undefined> => db.get('facts', 'replaced') as Promise<Replaced | undefined>;

interface Facts {
  get(name: 'replaced'): Promise<unknown>;
}

/** Stops what would be written into a diary that is not the present one any more: whoever writes opens it again and follows the mark. */
export async function standsStill(facts: Facts): Promise<void> {
  if ((await facts.get('replaced')) !== undefined) throw new DOMException('another diary has taken the place of this one', 'InvalidStateError');
}

/** Does something with the present database of a diary: once more when another has taken its place meanwhile. */
export interface Following<Db> {
  readonly db: Db;
  /** @param work is done again, with the other database, when it could not be done and this one was replaced. */
  on<Result extends { readonly value: unknown }>(work: (db: Db) => Promise<Result>): Promise<Result>;
}

/** @param open opens the present database of the diary; null when it cannot be opened. */
export function following<Db extends Marked>(first: Db, open: () => Promise<Db | null>): Following<Db> {
  let db = first;
  return {
    get db() {
      return db;
    },
    async on(work) {
      const used = db;
      const result = await work(used);
      if (result.value !== null) return result;
      // Whoever else followed has closed the one that was used: then it is not asked any more.
      const mark = db === used ? await replacedIn(used).catch(() => undefined) : undefined;
      if (db === used) {
        const next = mark ? await open() : null;
        if (db === used && !next) return result;
        if (db === used) {
          used.close();
          db = next!;
        } else next?.close();
      }
      return work(db);
    },
  };
}
