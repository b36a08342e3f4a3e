/** A copy of the list of players beside the journals of their diaries: without the list nobody would find those. */
import type { Player } from '../player.ts';
import { madeFolderOf } from './folder.ts';
import { entriesIn, lineOf } from './lines.ts';

const NAME = 'players.lines';

/** Puts the list in the place of the one before; without a copy where the browser has no such files, or no room. */
export async function copyPlayers(database: string, players: readonly Player[]): Promise<void> {
  try {
    const file = await (await madeFolderOf(database)).getFileHandle(NAME, { create: true });
    const writing = await file.createWritable();
    await writing.write(lineOf({ players }));
    await writing.close();
  } catch {
    // The list itself is kept.
  }
}

/** The list as it was copied; empty where it cannot be read. */
export async function copiedPlayers(folder: FileSystemDirectoryHandle): Promise<readonly Player[]> {
  try {
    const file = await (await folder.getFileHandle(NAME)).getFile();
    return entriesIn(new Uint8Array(await file.arrayBuffer())).flatMap((entry) => ('players' in entry ? entry.players : []));
  } catch {
    return [];
  }
}
