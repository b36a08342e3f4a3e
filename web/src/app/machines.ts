/** The machines of the room: click and microphone, the ear, and the packer of the diary, each started when first needed. */
import type { ClickSound } from '@evenhand/core/sound';
import { msOfSec, secOfFrames } from '@evenhand/core/units';
import { type Engine, openEngine } from '../audio/engine.ts';
import { type Packer, startPacker } from '../backup/client.ts';
import type { Progress } from '../backup/protocol.ts';
import { type EarClient, readSoundFile, startEar } from '../worker/client.ts';
import { type Counting, createCounting } from './counting.ts';
import { browserSpeech } from './telling.ts';

export interface Machines {
  /** Clicks sound as the player has set it. */
  openEngine: typeof openEngine;
  /** Counts in over an engine as the player has set it. */
  counting(engine: Engine): Counting;
  /** The one ear of the app, started when first needed. */
  ear(): EarClient;
  readSoundFile: typeof readSoundFile;
  startPacker(tell: (progress: Progress) => void): Packer;
  /** Stops the ear, so that its database can be removed. */
  stopEar(): void;
}

/** How the player wants time to sound, asked whenever it is needed. */
export interface Sounding {
  clickSound(): ClickSound;
  /** The voice that counts in, in which language; null: nobody speaks. */
  countsIn(): { readonly lang: string } | null;
}

/** @param storeName database of the takes and the diary. */
export function machinesOn(storeName: string, { clickSound, countsIn }: Sounding): Machines {
  let ear: EarClient | null = null;
  return {
    openEngine: (options) => openEngine({ clickSound, ...options }),
    counting: (engine) => createCounting(countsIn(), { speech: browserSpeech(), now: () => performance.now(), msOf: (frame) => msOf(engine, frame) }),
    ear: () => {
      ear ??= startEar({ storeName });
      return ear;
    },
    readSoundFile,
    startPacker: (tell) => startPacker(storeName, tell),
    stopEar: () => ear?.close(),
  };
}

/** By the page's clock, when a frame leaves the loudspeaker. */
export const msOf = (engine: Engine, frame: number): number =>
  performance.now() + msOfSec(secOfFrames(frame - engine.audibleFrame(), engine.sampleRateHz));
