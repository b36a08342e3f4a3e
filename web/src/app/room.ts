/** The machine room as the screens see it: sound, ear, diary; a test may put its own in its place. */
import { CUT_OVER_HOUR } from '@evenhand/core/diary';
import type { Problem, Reading } from '@evenhand/core/problem';
import { type Engine, openEngine } from '../audio/engine.ts';
import { type Packer, startPacker } from '../backup/client.ts';
import type { Progress } from '../backup/protocol.ts';
import { DIARY_NAME, newId, openStore, type Store, writtenNow } from '../store/store.ts';
import { type EarClient, readSoundFile, startEar } from '../worker/client.ts';

export interface Room {
  openEngine: typeof openEngine;
  /** The one ear of the app, started when first needed. */
  ear(): EarClient;
  store(): Promise<Reading<Store>>;
  readSoundFile: typeof readSoundFile;
  newId: typeof newId;
  /** The present moment, in the practice day that `dayBegins` makes of it. */
  writtenNow(): ReturnType<typeof writtenNow>;
  /** From now on practice days begin at this hour. */
  dayBegins(cutOverHour: number): void;
  startPacker(tell: (progress: Progress) => void): Packer;
  /** Removes the whole diary of the demo; null for a drummer's own, which nothing here removes. */
  readonly forget: (() => Promise<readonly Problem[]>) | null;
}

/** The room with this device's own microphone and click, and the drummer's own database. */
export const deviceRoom = (): Room => roomOn(DIARY_NAME, { open: () => openStore(), forget: null });

/** The room on a database. */
export function roomOn(
  storeName: string,
  { open, forget }: { readonly open: () => ReturnType<Room['store']>; readonly forget: Room['forget'] },
): Room {
  let ear: EarClient | null = null;
  let store: Promise<Reading<Store>> | null = null;
  let cutOverHour = CUT_OVER_HOUR;
  return {
    openEngine,
    ear: () => {
      ear ??= startEar({ storeName });
      return ear;
    },
    store: () => {
      store ??= open();
      return store;
    },
    readSoundFile,
    newId,
    writtenNow: () => writtenNow(cutOverHour),
    dayBegins(hour) {
      cutOverHour = hour;
    },
    startPacker: (tell) => startPacker(storeName, tell),
    forget:
      forget &&
      (async () => {
        ear?.close();
        (await store)?.value?.close();
        return forget();
      }),
  };
}

/** What a room's sound is opened with; closes nothing by itself. */
export interface OpenedSound {
  readonly engine: Engine;
  readonly problems: readonly Problem[];
}
