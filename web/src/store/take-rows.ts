/** A recording as it lies in the store: a row that says what it is, and its sound in chunks. */
import type { TakeBody } from '@evenhand/core/diary';

/** What a take is, said before its first frame. */
export interface TakeMeta {
  /** The id its record will have (`newId`). */
  readonly takeId: string;
  readonly sessionId: string | null;
  readonly sampleRateHz: number;
  /** First frame of the audio context that belongs to it; may lie ahead. */
  readonly fromFrame: number;
  /** Milliseconds since 1970 at that frame (`Engine.wallMsOf`). */
  readonly wallMs0: number;
  readonly latencySec: number;
  readonly latencyFrom: TakeBody['clock']['latencyFrom'];
  /** Moment, zone and practice day for its record (`writtenNow`). */
  readonly atMs: number;
  readonly zone: string;
  readonly day: string;
}

/** A take in the store. `open` until it was heard to its end: one that is open with nobody recording it was cut off. */
export interface TakeRow extends TakeMeta {
  readonly state: 'open' | 'closed';
}

/** Up to a second of sound. Chunks follow each other by `index`; a stretch between two that never arrived is read as zeros. */
export interface TakeChunk {
  readonly takeId: string;
  readonly index: number;
  /** Frames from the start of the take. */
  readonly offsetFrames: number;
  readonly samples: Float32Array<ArrayBuffer>;
}

/** The sound of a take in FLAC: as it came out of a backup, or packed here once the take was over. It counts before chunks. */
export interface TakeFlac {
  readonly takeId: string;
  readonly flac: Uint8Array<ArrayBuffer>;
}

/** A diary that was replaced as a whole by an earlier version of this program, packed. */
export interface AsideRow {
  readonly id: number;
  /** When it was replaced, milliseconds since 1970. */
  readonly atMs: number;
  readonly recordCount: number;
  readonly takeCount: number;
  readonly file: Blob;
}

/** A diary that was replaced as a whole. */
export interface Aside extends Pick<AsideRow, 'atMs' | 'recordCount' | 'takeCount'> {
  /** Where it lies: in that database, or as a row of it. */
  readonly database: string;
  readonly row: Pick<AsideRow, 'id' | 'file'> | null;
}

/** Where the chunks of a take lie. */
export const chunksOf = (takeId: string): IDBKeyRange => IDBKeyRange.bound([takeId, 0], [takeId, Number.MAX_SAFE_INTEGER]);

/** A recording read back from the take store. */
export interface StoredTake {
  readonly takeId: string;
  readonly sampleRateHz: number;
  readonly contextFrame0: number;
  /** Mono samples from the take's first frame, full scale at ±1; stretches that never arrived are zeros. */
  readonly samples: Float32Array<ArrayBuffer>;
}

/** The chunks of one take as one stretch of sound; none give none. */
export function joinChunks(chunks: readonly TakeChunk[]): Float32Array<ArrayBuffer> {
  const length = Math.max(0, ...chunks.map(({ offsetFrames, samples }) => offsetFrames + samples.length));
  const joined = new Float32Array(length);
  for (const { offsetFrames, samples } of chunks) joined.set(samples, offsetFrames);
  return joined;
}
