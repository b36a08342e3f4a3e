/** The list of players of this device, in a small database apart from every diary. */
import type { KeepingProblem } from '@evenhand/core/diary';
import type { Reading } from '@evenhand/core/problem';
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import { folderOf } from './journal/folder.ts';
import type { Player } from './player.ts';
import { attempt } from './problems.ts';

export type { Player } from './player.ts';

/** Nothing of the list stands anywhere else, but for its copy under this name among the journals. */
export const PLAYERS_NAME = 'evenhand-players';

interface Tables extends DBSchema {
  players: { key: string; value: Player };
}

/** Reads the list; empty while there is only the diary that every first visit begins. */
export const readPlayers = (): Promise<Reading<readonly Player[], KeepingProblem>> => changePlayers((players) => players);

/**
 * Changes the list in one transaction, so that two pages that change it at once take turns.
 * @param change gives the list as it is to be; the same list changes nothing.
 * @returns the list as it is now.
 */
export const changePlayers = (change: (players: readonly Player[]) => readonly Player[]): Promise<Reading<readonly Player[], KeepingProblem>> =>
  attempt(async () => {
    // Opened for this and closed again: a page holds nothing of the list.
    const db = await opened();
    try {
      const before = await db.getAll('players');
      if (change(before) === before) return before;
      const transaction = db.transaction('players', 'readwrite', { durability: 'strict' });
      const after = change(await transaction.store.getAll());
      await transaction.store.clear();
      for (const player of after) await transaction.store.put(player);
      await transaction.done;
      await (await import('./journal/playerscopy.ts')).copyPlayers(PLAYERS_NAME, after);
      return after;
    } finally {
      db.close();
    }
  });

/** Opens the list. One that was not there is filled from its copy, where there is one: then the browser has lost it. */
async function opened(): Promise<IDBPDatabase<Tables>> {
  let isNew = false;
  const db = await openDB<Tables>(PLAYERS_NAME, 1, {
    upgrade(made) {
      made.createObjectStore('players', { keyPath: 'id' });
      isNew = true;
    },
  });
  const folder = isNew ? await folderOf(PLAYERS_NAME) : null;
  if (folder) for (const player of await (await import('./journal/playerscopy.ts')).copiedPlayers(folder)) await db.put('players', player);
  return db;
}
