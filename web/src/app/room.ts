/** The machine room as the screens see it: sound, ear, diary; a test may put its own in its place. */
import type { Problem, Reading } from '@evenhand/core/problem';
import { type Engine, openEngine } from '../audio/engine.ts';
import { newId, openStore, type Store, writtenNow } from '../store/store.ts';
import { type EarClient, readSoundFile, startEar } from '../worker/client.ts';

export interface Room {
  openEngine: typeof openEngine;
  /** The one ear of the app, started when first needed. */
  ear(): EarClient;
  store(): Promise<Reading<Store>>;
  readSoundFile: typeof readSoundFile;
  newId: typeof newId;
  writtenNow: typeof writtenNow;
}

/** The room with this device's own microphone, click and database. */
export function deviceRoom(): Room {
  let ear: EarClient | null = null;
  let store: Promise<Reading<Store>> | null = null;
  return {
    openEngine,
    ear: () => {
      ear ??= startEar();
      return ear;
    },
    store: () => {
      store ??= openStore();
      return store;
    },
    readSoundFile,
    newId,
    writtenNow,
  };
}

/** What a room's sound is opened with; closes nothing by itself. */
export interface OpenedSound {
  readonly engine: Engine;
  readonly problems: readonly Problem[];
}
