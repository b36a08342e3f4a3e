/** The list of players is changed: somebody comes, is called otherwise, goes for a while, comes back, goes for good. Fetched when it is used. */
import { removeDiary } from '../store/asides.ts';
import { newId } from '../store/id.ts';
import { noticesOf } from '../store/notice.ts';
import { changePlayers, PLAYERS_NAME, readPlayers } from '../store/players.ts';
import { type Player, playersDue, playersOff, withChange, withoutPlayer, withPlayer } from './players.ts';
import { keepOwn, lockOf } from './whose.svelte.ts';

type Change = (players: readonly Player[]) => readonly Player[];

/** Changes the list and tells every page. @returns whether it was kept. */
async function changed(change: Change): Promise<boolean> {
  const { value } = await changePlayers(change);
  const notices = noticesOf(PLAYERS_NAME);
  notices.tell();
  notices.close();
  return value !== null;
}

/** @param firstName what the diary that is here is called by from now on, where it had no name. */
export const addPlayer = (name: string, firstName: string): Promise<boolean> =>
  changed((players) => withPlayer(players, { id: newId(), name, firstName, atMs: Date.now() }));

export const renamePlayer = (id: string, name: string): Promise<boolean> => changed((players) => withChange(players, id, { name }));

/** Off the device for everybody to see; the diary itself stays until it is due. */
export const takeOff = (id: string): Promise<boolean> => changed((players) => withoutPlayer(players, id, Date.now()));

export const bringBack = (id: string): Promise<boolean> => changed((players) => withChange(players, id, { offAtMs: null }));

/** Opens the diary of a player in this page; the page is loaded anew, so that nothing of one is left in the other. */
export async function openPlayer(id: string, address = './'): Promise<void> {
  await changed((players) => withChange(players, id, { openedAtMs: Date.now() }));
  keepOwn(id);
  location.assign(address);
}

/** Removes the diaries of players who were taken off long enough ago. One that some page still has open waits. */
export async function dropDue(): Promise<void> {
  const { value: players } = await readPlayers();
  for (const player of playersDue(players ?? [], Date.now())) await dropPlayer(player);
}

/** Removes the diary of a player who was taken off, for good. @returns false while some page has it open, or when the player is back. */
export const dropPlayer = (player: Player): Promise<boolean> =>
  navigator.locks.request(lockOf(player), { ifAvailable: true }, async (lock) => {
    const { value: players } = await readPlayers();
    if (!lock || !players || !playersOff(players).some(({ id }) => id === player.id)) return false;
    // The diary first: cut off here, the list still names what is to go.
    await removeDiary(player.storeName);
    return changed((now) => now.filter(({ id }) => id !== player.id));
  });
