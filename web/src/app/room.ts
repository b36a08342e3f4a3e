/** The machine room as the screens see it: diary, clock, sound, ear; the machines are brought in with the whole desk. */
import { CUT_OVER_HOUR } from '@evenhand/core/diary';
import type { Problem, Reading } from '@evenhand/core/problem';
import { newId, openStore, type Store, writtenNow } from '../store/store.ts';
import type { Machines } from './machines.ts';
import { createWhose, type Whose } from './whose.svelte.ts';

/** What the first screens need of it. */
export interface FirstRoom {
  readonly storeName: string;
  /** Whose diary it is; null for the demo's. */
  readonly whose: Whose | null;
  /** @param onReturning told how far it is, 0 to 1, while a diary that the browser lost is brought back. */
  store(onReturning?: (share: number) => void): Promise<Reading<Store>>;
  newId: typeof newId;
  /** The present moment, in the practice day that `dayBegins` makes of it. */
  writtenNow(): ReturnType<typeof writtenNow>;
  /** From now on practice days begin at this hour. */
  dayBegins(cutOverHour: number): void;
  /** Removes the whole diary of the demo; null for a drummer's own, which nothing here removes. */
  readonly forget: (() => Promise<readonly Problem[]>) | null;
}

export type Room = FirstRoom & Machines;

/** The room with the database of the player whose turn it is in this page; its name is known once it was opened. */
export function deviceRoom(): FirstRoom {
  const whose = createWhose();
  const room = roomOn('', {
    open: async (onReturning) => openStore((await whose.open()).storeName, { ...(onReturning && { onReturning }) }),
    forget: null,
  });
  return {
    ...room,
    get storeName() {
      return whose.player.storeName;
    },
    whose,
  };
}

/** The room on a database. */
export function roomOn(storeName: string, { open, forget }: { readonly open: FirstRoom['store']; readonly forget: FirstRoom['forget'] }): FirstRoom {
  let store: Promise<Reading<Store>> | null = null;
  let cutOverHour = CUT_OVER_HOUR;
  return {
    storeName,
    whose: null,
    store: (onReturning) => {
      store ??= open(onReturning);
      return store;
    },
    newId,
    writtenNow: () => writtenNow(cutOverHour),
    dayBegins(hour) {
      cutOverHour = hour;
    },
    forget:
      forget &&
      (async () => {
        (await store)?.value?.close();
        return forget();
      }),
  };
}
