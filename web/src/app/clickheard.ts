/** Lets a click be heard at once when its sound or its volume is chosen: one of each of its voices. */

import { msOfSec } from '@evenhand/core/units';
import type { ClickVoice, Engine } from '../audio/engine.ts';
import type { Machines } from './machines.ts';

/** When each voice comes, in seconds. Unevenly: four even knocks could be taken for stick clicks by an open microphone. */
const TRIAL: readonly { readonly voice: ClickVoice; readonly sec: number }[] = [
  { voice: 'bar', sec: 0.1 },
  { voice: 'beat', sec: 0.6 },
  { voice: 'subdivision', sec: 0.85 },
];
const TRIAL_SEC = 1.2;

let sounding: Engine | null = null;

/** @param sound `null`: as it is set. A trial that still sounds is cut off by the next. */
export async function hearClick(
  { openEngine }: Pick<Machines, 'openEngine'>,
  { sound, gainDb }: { readonly sound: Engine['clickSound'] | null; readonly gainDb: number },
): Promise<void> {
  await sounding?.close();
  const { value: engine } = await openEngine({ microphone: 'none' });
  sounding = engine;
  if (!engine) return;
  const from = engine.nextFrame();
  engine.schedule(
    TRIAL.map(({ voice, sec }) => ({ frame: from + Math.round(sec * engine.sampleRateHz), voice, gainDb, ...(sound ? { sound } : {}) })),
  );
  setTimeout(() => void engine.close(), msOfSec(TRIAL_SEC));
}
