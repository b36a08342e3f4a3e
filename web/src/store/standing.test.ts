/** Following a diary to the database that took its place. */
import { expect, test } from 'vitest';
import { following } from './standing.ts';

interface Db {
  readonly name: string;
  closed: boolean;
  get(table: 'facts', name: 'replaced'): Promise<unknown>;
  close(): void;
}

const database = (name: string, mark?: unknown): Db => ({
  name,
  closed: false,
  get() {
    return this.closed ? Promise.reject(new Error('closed')) : Promise.resolve(mark);
  },
  close() {
    this.closed = true;
  },
});

const nameOf = (db: Db) => Promise.resolve(db.closed || db.name === 'before' ? { value: null } : { value: db.name });

test('work that was done on the one before is done again on the one that stands, for all who asked at once (says: decision 0074)', async () => {
  const opened: Db[] = [];
  const open = async () => {
    const next = database('after');
    opened.push(next);
    return next;
  };
  const follow = following(database('before', { by: 'after' }), open);
  // The second waits before it looks, until the first has closed what it holds.
  const later = async (db: Db) => {
    await new Promise((resolve) => setTimeout(resolve, 5));
    return nameOf(db);
  };
  expect(await Promise.all([follow.on(nameOf), follow.on(later), follow.on(nameOf)])).toEqual([
    { value: 'after' },
    { value: 'after' },
    { value: 'after' },
  ]);
  expect(opened.filter(({ closed }) => !closed)).toHaveLength(1);
});

test('where nothing took its place, what could not be done stays so', async () => {
  const follow = following(database('before'), () => Promise.reject(new Error('nobody asked')));
  expect(await follow.on(nameOf)).toEqual({ value: null });
});
