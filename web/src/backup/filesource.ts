/**
 * A file read forwards through one piece of memory. Read slice by slice, each would lie about until the browser next looks for garbage, and a diary of
 * ten years is hundreds of MB (decision 0088).
 */
import type { ByteSource } from '@evenhand/adapters/backup';
import { bytesGoneBy } from '../store/goneby.ts';

/** So much of the file is in memory, and more only where more is asked for at once. Assumption: many ways to where it lies, and nothing to a phone. */
const WINDOW_BYTES = 1_000_000;

/** So many bytes before what is asked for are passed over; beyond them reading begins anew. Assumption: a beginning takes as long. */
const PASSED_BYTES = 2_000_000;

/** @param tell how far the file was read, 0 to 1, each time it is some way further. */
export function fileSource(file: Blob, tell: (share: number) => void): ByteSource {
  let furthest = 0;
  let memory = new Uint8Array(WINDOW_BYTES);
  /** What of the file `memory` holds, from its first byte on. */
  let held = { from: 0, to: 0 };
  let reader: Reader | null = null;

  async function begin(from: number): Promise<void> {
    await reader?.cancel();
    reader = forwards(file, from);
    held = { from, to: from };
  }

  /** Goes to a place after what is held. */
  async function pass(from: number): Promise<void> {
    for (let at = held.to; at < from; ) {
      memory = await reader!.read(memory, { at: 0, most: from - at });
      if (reader!.count === 0) break;
      at += reader!.count;
    }
    held = { from, to: from };
  }

  /** From now on what is held begins there, and there is room for so much. */
  function shift(from: number, byteCount: number): void {
    const kept = memory.subarray(from - held.from, held.to - held.from);
    const roomy = memory.length >= byteCount ? memory : new Uint8Array(Math.max(WINDOW_BYTES, byteCount));
    roomy.set(kept);
    held = { from, to: from + kept.length };
    memory = roomy;
  }

  async function fetch(from: number, to: number): Promise<void> {
    if (reader === null || from < held.from || from > held.to + PASSED_BYTES) await begin(from);
    else if (from > held.to) await pass(from);
    shift(from, to - from);
    while (held.to < to) {
      memory = await reader!.read(memory, { at: held.to - from, most: memory.length });
      if (reader!.count === 0) return;
      held = { from, to: held.to + reader!.count };
      bytesGoneBy(reader!.count);
    }
  }

  return {
    byteCount: file.size,
    async read(from, to) {
      if (to > furthest + file.size / 50) {
        furthest = to;
        tell(to / file.size);
      }
      if (from < held.from || to > held.to) await fetch(from, to);
      return memory.subarray(from - held.from, Math.min(to, held.to) - held.from);
    },
  };
}

/** Reads a file forwards. */
interface Reader {
  /** Reads at least a byte into memory, at most so many; the memory that it was given is not to be used any more, the one it gives is. */
  read(memory: Uint8Array<ArrayBuffer>, into: { readonly at: number; readonly most: number }): Promise<Uint8Array<ArrayBuffer>>;
  /** Bytes that came the last time; 0 at the end of the file. */
  readonly count: number;
  cancel(): Promise<void>;
}

/** Where a browser does not read a file into memory that it is given, slice by slice. */
function forwards(file: Blob, from: number): Reader {
  try {
    return stream(file.slice(from).stream().getReader({ mode: 'byob' }));
  } catch {
    return slices(file, from);
  }
}

function stream(reader: ReadableStreamBYOBReader): Reader {
  let count = 0;
  return {
    get count() {
      return count;
    },
    async read(memory, { at, most }) {
      const { value } = await reader.read(memory.subarray(at, Math.min(memory.length, at + most)));
      count = value?.length ?? 0;
      return value ? new Uint8Array(value.buffer) : new Uint8Array(0);
    },
    cancel: () => reader.cancel(),
  };
}

function slices(file: Blob, from: number): Reader {
  let [place, count] = [from, 0];
  return {
    get count() {
      return count;
    },
    async read(memory, { at, most }) {
      const some = new Uint8Array(await file.slice(place, place + Math.min(memory.length - at, most)).arrayBuffer());
      memory.set(some, at);
      count = some.length;
      place += count;
      return memory;
    },
    cancel: async () => {},
  };
}
