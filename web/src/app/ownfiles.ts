/** Files that hold something of a diary say whose it is, once there is more than one player. It is set when the list of players is read. */
import { nameInFiles } from './players.ts';

let part = '';

/** From now on files of the diary bear this name; null: none. */
export function nameFilesFor(name: string | null): void {
  part = name === null ? '' : `-${nameInFiles(name)}`;
}

/** What the name of a file has after its first word: the player with a hyphen before, or nothing. */
export const playerPart = (): string => part;
