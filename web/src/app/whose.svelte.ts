/** Whose diary this page has open: found once when it opens, and kept for as long as the page lives, whatever other pages open. */
import { noticesOf } from '../store/notice.ts';
import { PLAYERS_NAME, readPlayers } from '../store/players.ts';
import { nameFilesFor } from './ownfiles.ts';
import { FIRST_PLAYER, type Player, playersHere, whoOpens } from './players.ts';

export interface Whose {
  /** Everybody on the list, those taken off too; empty while there is only the first diary. */
  readonly players: readonly Player[];
  /** Whose diary this page has open. */
  readonly player: Player;
  /** The name to be seen where it matters: null while there is only one player. */
  readonly name: string | null;
  /** Finds whose diary this page opens; once. */
  open(): Promise<Player>;
  /** Reads the list anew. */
  look(): Promise<void>;
}

/** The page's own player, which a reload keeps and another page does not see. */
const KEY = 'evenhand-player';

/** From now on this page belongs to a player, from its next loading on. */
export function keepOwn(id: string): void {
  try {
    sessionStorage.setItem(KEY, id);
  } catch {
    // A browser that keeps nothing opens the diary that was last changed over to.
  }
}

function own(): string | null {
  try {
    return sessionStorage.getItem(KEY);
  } catch {
    return null;
  }
}

/** Pages that have a diary open hold this lock together; whoever removes the diary must have it alone. */
export const lockOf = (player: Pick<Player, 'storeName'>): string => `evenhand:player:${player.storeName}`;

export function createWhose(): Whose {
  let players = $state.raw<readonly Player[]>([]);
  let player = $state.raw<Player>(FIRST_PLAYER);

  const nameHere = (): string | null => (playersHere(players).length > 1 ? player.name : null);

  async function look(): Promise<void> {
    players = (await readPlayers()).value ?? players;
    player = players.find(({ id }) => id === player.id) ?? player;
    nameFilesFor(nameHere());
  }

  return {
    get players() {
      return players;
    },
    get player() {
      return player;
    },
    get name() {
      return nameHere();
    },
    look,
    async open() {
      players = (await readPlayers()).value ?? [];
      player = whoOpens(players, own());
      keepOwn(player.id);
      nameFilesFor(nameHere());
      navigator.locks?.request(lockOf(player), { mode: 'shared' }, () => new Promise(() => {})).catch(() => {});
      noticesOf(PLAYERS_NAME).onChange(() => void look());
      return player;
    },
  };
}
