/** The machines of the room: click and microphone, the ear, and the packer of the diary, each started when first needed. */
import { openEngine } from '../audio/engine.ts';
import { type Packer, startPacker } from '../backup/client.ts';
import type { Progress } from '../backup/protocol.ts';
import { type EarClient, readSoundFile, startEar } from '../worker/client.ts';

export interface Machines {
  openEngine: typeof openEngine;
  /** The one ear of the app, started when first needed. */
  ear(): EarClient;
  readSoundFile: typeof readSoundFile;
  startPacker(tell: (progress: Progress) => void): Packer;
  /** Stops the ear, so that its database can be removed. */
  stopEar(): void;
}

/** @param storeName database of the takes and the diary. */
export function machinesOn(storeName: string): Machines {
  let ear: EarClient | null = null;
  return {
    openEngine,
    ear: () => {
      ear ??= startEar({ storeName });
      return ear;
    },
    readSoundFile,
    startPacker: (tell) => startPacker(storeName, tell),
    stopEar: () => ear?.close(),
  };
}
