/** Asking the browser to keep the diary when the device runs out of space, and remembering what it said. */
import type { Database } from './tables.ts';

/** Whether the browser promised to keep what is stored. `notAsked`: no session saved yet. `cannotTell`: the browser does not say. */
export type Persistence = 'kept' | 'mayBeCleared' | 'notAsked' | 'cannotTell';

const storage = (): StorageManager | undefined => globalThis.navigator?.storage as StorageManager | undefined;

/** How things stand; a browser that has changed its mind since is believed. */
export async function persistenceOf(db: Database): Promise<Persistence> {
  if (!storage()?.persisted) return 'cannotTell';
  if (await storage()!.persisted()) return 'kept';
  return (await db.get('facts', 'persistence')) === undefined ? 'notAsked' : 'mayBeCleared';
}

/** Asks, and remembers that it was asked. */
export async function askToPersist(db: Database): Promise<Persistence> {
  if (!storage()?.persist) return 'cannotTell';
  const answer = (await storage()!.persist()) ? 'kept' : 'mayBeCleared';
  await db.put('facts', answer, 'persistence');
  return answer;
}
