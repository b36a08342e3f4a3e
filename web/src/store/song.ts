/** The recording that is played over, in a database of its own: it stays on this device, in no backup, and goes nowhere. */
import type { SongBeats } from '@evenhand/core/song';
import { type DBSchema, openDB } from 'idb';

/** The recording as it is kept. */
export interface KeptSong {
  readonly name: string;
  /** The file as it came. */
  readonly file: Blob;
  /** As found or told; null until there are any. */
  readonly beats: SongBeats | null;
  /** Bars from 1, both held. */
  readonly firstBar: number;
  readonly lastBar: number;
}

interface Tables extends DBSchema {
  songs: { key: 'song'; value: KeptSong };
}

/** What can be done with it. Each settles false, or null, where the browser keeps nothing. */
export interface SongStore {
  kept(): Promise<KeptSong | null>;
  keep(song: KeptSong): Promise<boolean>;
  forget(): Promise<boolean>;
}

/** @param storeName of the diary's database: a demo has a recording of its own. */
export function songStore(storeName: string): SongStore {
  const open = () => openDB<Tables>(`${storeName}-song`, 1, { upgrade: (db) => void db.createObjectStore('songs') });
  async function on<Value>(work: (db: Awaited<ReturnType<typeof open>>) => Promise<Value>, otherwise: Value): Promise<Value> {
    try {
      const db = await open();
      try {
        return await work(db);
      } finally {
        db.close();
      }
    } catch {
      return otherwise;
    }
  }
  return {
    kept: () => on<KeptSong | null>(async (db) => (await db.get('songs', 'song')) ?? null, null),
    keep: (song) => on(async (db) => Boolean(await db.put('songs', song, 'song')), false),
    forget: () => on(async (db) => db.delete('songs', 'song').then(() => true), false),
  };
}
