/** Who plays on this device: whose diary a page opens, and what becomes of the list when somebody comes, is called otherwise, or goes. */
import { msOfDays } from '@evenhand/core/units';
import type { Player } from '../store/players.ts';
import { DIARY_NAME } from '../store/store.ts';

export type { Player } from '../store/players.ts';

/** Days for which the diary of a player who was taken off the device can still be brought back. Assumption: two weekly lessons. */
export const DAYS_OFF = 14;

/** So many letters of a name are kept. Assumption: it still fits a line of a phone. */
export const LONGEST_NAME = 32;

/** The player of the diary that was here before there was a list: nothing is moved, the list only names its database. */
export const FIRST_PLAYER: Player = { id: 'first', name: '', storeName: DIARY_NAME, addedAtMs: 0, openedAtMs: 0, offAtMs: null };

/** Players who are here, in the order in which they came; the first alone while there is no list. */
export function playersHere(players: readonly Player[]): readonly Player[] {
  const here = players.filter(({ offAtMs }) => offAtMs === null).sort((a, b) => a.addedAtMs - b.addedAtMs);
  return here.length > 0 ? here : [FIRST_PLAYER];
}

/** Players who were taken off and can be brought back, the latest first. */
export const playersOff = (players: readonly Player[]): readonly Player[] =>
  players.filter(({ offAtMs }) => offAtMs !== null).sort((a, b) => b.offAtMs! - a.offAtMs!);

/** Whose diary a page opens: that of its own player, else the one that was last changed over to on the device. */
export function whoOpens(players: readonly Player[], ownId: string | null): Player {
  const here = playersHere(players);
  return here.find(({ id }) => id === ownId) ?? here.reduce((latest, one) => (one.openedAtMs > latest.openedAtMs ? one : latest));
}

/** A name as it is kept: no blanks around it, single ones inside, not longer than a line. */
export const tidyName = (typed: string): string => [...typed.trim().replaceAll(/\s+/g, ' ')].slice(0, LONGEST_NAME).join('').trim();

/**
 * What is wrong with a name: none was typed, or another player here has it.
 * @param ownId the player who is to have it, null for a new one.
 */
export function nameTrouble(typed: string, players: readonly Player[], ownId: string | null): 'missing' | 'taken' | null {
  const name = tidyName(typed);
  if (name === '') return 'missing';
  return players.some((one) => one.id !== ownId && sameName(one.name, name)) ? 'taken' : null;
}

const sameName = (a: string, b: string): boolean => a.normalize('NFKC').toLocaleLowerCase() === b.normalize('NFKC').toLocaleLowerCase();

/** A name as part of the name of a file that any system takes: letters and digits of any script, hyphens between. */
export const nameInFiles = (name: string): string =>
  name
    .normalize('NFC')
    .replaceAll(/[^\p{L}\p{M}\p{N}]+/gu, '-')
    .replaceAll(/^-|-$/g, '') || 'player';

/** Somebody new; the first player, who had no name while alone, is named with them. */
export function withPlayer(
  players: readonly Player[],
  { id, name, firstName, atMs }: { readonly id: string; readonly name: string; readonly firstName: string; readonly atMs: number },
): readonly Player[] {
  const before = players.length > 0 ? players : [{ ...FIRST_PLAYER, name: tidyName(firstName), openedAtMs: atMs }];
  return [...before, { id, name: tidyName(name), storeName: `${DIARY_NAME}-player-${id}`, addedAtMs: atMs, openedAtMs: 0, offAtMs: null }];
}

/** The list with one player changed. */
export const withChange = (
  players: readonly Player[],
  id: string,
  change: Partial<Pick<Player, 'name' | 'openedAtMs' | 'offAtMs'>>,
): readonly Player[] => players.map((one) => (one.id === id ? { ...one, ...change } : one));

/** The list with a player taken off; as it was when nobody else would be left here. */
export const withoutPlayer = (players: readonly Player[], id: string, atMs: number): readonly Player[] =>
  playersHere(players).some((one) => one.id !== id) ? withChange(players, id, { offAtMs: atMs }) : players;

/** Players who were taken off so long ago that their diaries go now. */
export const playersDue = (players: readonly Player[], nowMs: number): readonly Player[] =>
  players.filter(({ offAtMs }) => offAtMs !== null && nowMs - offAtMs >= msOfDays(DAYS_OFF));

/** The last moment at which a player who was taken off can be brought back, milliseconds since 1970. */
export const offUntilMs = ({ offAtMs }: Player): number => offAtMs! + msOfDays(DAYS_OFF);
