/** Takes that are over become FLAC, one at a time: half the room, and not a sample lost but what 24 bits round (decision 0041). */
import type { DecodedFlac, WholeSamples } from '@evenhand/adapters/flac';
import type { Reading } from '@evenhand/core/problem';
import { joinChunks } from '../../store/take-rows.ts';
import type { TakeStore } from '../../store/takes.ts';
import type { Packed } from '../protocol.ts';

export interface Packing {
  /** Packs one take. Whatever fails leaves its samples as they are. */
  packOne(): Promise<Reading<Packed>>;
}

/** @param opened the store, or null when this browser keeps nothing. */
export function createPacking(opened: Promise<Reading<TakeStore>>): Packing {
  // A take that could not be packed is not tried again by this Worker.
  const refused = new Set<string>();
  return {
    async packOne() {
      const { value: store, problems } = await opened;
      const unpacked = await store?.unpacked();
      if (!store || !unpacked?.value) return { value: null, problems: unpacked?.problems ?? problems };
      const takeId = unpacked.value.find((id) => !refused.has(id));
      if (takeId === undefined) return { value: { takeId: null, more: false }, problems: [] };
      const isPacked = await pack(store, takeId).catch(() => false);
      if (!isPacked) refused.add(takeId);
      return { value: { takeId: isPacked ? takeId : null, more: unpacked.value.some((id) => id !== takeId && !refused.has(id)) }, problems: [] };
    },
  };
}

/** Encodes, reads back what was encoded, and only then lets the samples go. */
async function pack(store: TakeStore, takeId: string): Promise<boolean> {
  const [{ value: row }, { value: chunks }] = [await store.row(takeId), await store.chunks(takeId)];
  if (!row || !chunks || chunks.length === 0) return false;
  const { encodeFlac, decodeFlac, wholeSamples } = await import('@evenhand/adapters/flac');
  const samples = joinChunks(chunks);
  const flac = await encodeFlac(samples, row.sampleRateHz);
  const decoded = await decodeFlac(flac);
  if (decoded.sampleRateHz !== row.sampleRateHz || !isSame(decoded, wholeSamples(samples))) return false;
  return (await store.pack(takeId, { flac, chunkCount: chunks.length })).value === true;
}

const isSame = (decoded: DecodedFlac, { bits, values }: WholeSamples): boolean =>
  !decoded.damaged &&
  decoded.bits === bits &&
  decoded.samples.length === values.length &&
  values.every((value, i) => value === decoded.samples[i]! * 2 ** (bits - 1));
