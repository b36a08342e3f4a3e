/** The list of players of this device, in a small database apart from every diary. */
import type { KeepingProblem } from '@evenhand/core/diary';
import type { Reading } from '@evenhand/core/problem';
import { type DBSchema, openDB } from 'idb';
import { attempt } from './problems.ts';

/** One who has a diary on this device: a name, or a pseudonym, and nothing else of them. */
export interface Player {
  readonly id: string;
  /** As typed; '' for the first player until there is a second. */
  readonly name: string;
  /** The database of the diary, by the name that `openStore` takes. */
  readonly storeName: string;
  readonly addedAtMs: number;
  /** When somebody last changed over to this diary; the next page without a player of its own opens the latest. */
  readonly openedAtMs: number;
  /** When the player was taken off the device; null for one who is here. */
  readonly offAtMs: number | null;
}

/** Nothing of the list stands anywhere else. */
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
    const db = await openDB<Tables>(PLAYERS_NAME, 1, { upgrade: (made) => void made.createObjectStore('players', { keyPath: 'id' }) });
    try {
      const before = await db.getAll('players');
      if (change(before) === before) return before;
      const transaction = db.transaction('players', 'readwrite', { durability: 'strict' });
      const after = change(await transaction.store.getAll());
      await transaction.store.clear();
      for (const player of after) await transaction.store.put(player);
      await transaction.done;
      return after;
    } finally {
      db.close();
    }
  });
