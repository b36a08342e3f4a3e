/** The take of a block of the diary, heard anew: for laying it alongside another. */
import { type DiaryRecord, type KnownRecord, upgrade } from '@evenhand/core/diary';
import { expectedCycle } from '@evenhand/core/exercise';
import type { SoundingTake } from '@evenhand/core/progress';
import type { StoredTake } from '../store/store.ts';
import type { EarClient } from '../worker/client.ts';
import { exerciseOfSaved } from './savedplan.ts';

interface From {
  readonly ear: Pick<EarClient, 'hearFile' | 'measureTake'>;
  readonly soundOf: (takeId: string) => Promise<StoredTake | null>;
  /** The record of a take. */
  readonly takeOf: (takeId: string) => Promise<DiaryRecord | undefined>;
}

/** Null when no sound of it is on this device any more, or too little can be told of it. */
export async function soundingTake({ body }: KnownRecord<'block'>, { ear, soundOf, takeOf }: From): Promise<SoundingTake | null> {
  const takes = await Promise.all(body.takeIds.map(soundOf));
  const longest = takes.reduce((most, take) => ((take?.samples.length ?? 0) > (most?.samples.length ?? 0) ? take : most), null);
  if (!longest) return null;
  const { takeId, samples, sampleRateHz } = longest;
  // The ear takes away what it is given.
  const heard = await ear.hearFile({ takeId, samples: samples.slice(), sampleRateHz });
  if (!heard.value) return null;
  const clicksSec = clicksOf(await takeOf(takeId));
  const measured = await ear.measureTake({ takeId, cycle: expectedCycle(exerciseOfSaved(body.exercise)), tempoBpm: body.tempoBpm, clicksSec });
  return measured.value && { samples, sampleRateHz, measurement: measured.value.measurement };
}

function clicksOf(record: DiaryRecord | undefined): readonly number[] {
  const take = record && upgrade(record);
  return take?.kind === 'take' ? take.body.clicksSec : [];
}
