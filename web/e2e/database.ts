/** The drummer's own diary as it lies in the browser. */

/** A page, whoever holds it. */
export interface Evaluating {
  evaluate<Result, Given>(work: (given: Given) => Result | Promise<Result>, given: Given): Promise<Result>;
}

/** What the database that holds the diary now holds (a restored one lies in another, to which the first one's mark leads): its version, the names of its stores, and what each of them holds; of some stores only when they are named. */
export const databaseOf = (
  page: Evaluating,
  only: readonly string[] | null = null,
): Promise<{ version: number; names: string[]; all: unknown[][] }> =>
  page.evaluate(async (wanted) => {
    const done = <Value>(request: IDBRequest<Value>) =>
      new Promise<Value>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    const nextOf = async (opened: IDBDatabase): Promise<string | null> => {
      if (!opened.objectStoreNames.contains('facts')) return null;
      const mark = (await done(opened.transaction('facts').objectStore('facts').get('replaced'))) as { readonly by: string } | undefined;
      return mark?.by ?? null;
    };
    let db = await done(indexedDB.open('evenhand'));
    for (let next = await nextOf(db); next; next = await nextOf(db)) {
      db.close();
      db = await done(indexedDB.open(next));
    }
    const { version } = db;
    const names = [...db.objectStoreNames].filter((name) => wanted?.includes(name) ?? true);
    const transaction = db.transaction(names);
    const all = await Promise.all(names.map((name) => done(transaction.objectStore(name).getAll())));
    db.close();
    return { version, names, all };
  }, only);
