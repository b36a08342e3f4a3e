/** WebM and Matroska files: the first track of sound in them, packet by packet. @source [RFC8794] [RFC9559] */
import type { Packets } from './packets.ts';

export interface WebmTrack {
  /** As the file names it, such as `A_OPUS`. */
  readonly codec: string;
  /** What the codec's decoder must know beforehand. */
  readonly setup: Uint8Array;
  /** From the start, each time. */
  packets(): Packets;
}

/** Ids of elements, with their marker bits. */
const ID = {
  header: 0x1a45dfa3,
  segment: 0x18538067,
  tracks: 0x1654ae6b,
  trackEntry: 0xae,
  trackNumber: 0xd7,
  trackType: 0x83,
  codecId: 0x86,
  codecPrivate: 0x63a2,
  cluster: 0x1f43b675,
  simpleBlock: 0xa3,
  blockGroup: 0xa0,
  block: 0xa1,
} as const;

const SOUND = 2;

/** What holds the elements that are looked for; all else is passed over. */
const ENTERED: ReadonlySet<number> = new Set([ID.segment, ID.tracks, ID.cluster, ID.blockGroup]);

interface Element {
  readonly id: number;
  readonly from: number;
  readonly to: number;
  /** The file ends before the element does. */
  readonly cut: boolean;
}

/** Whether bytes begin as a WebM or Matroska file does. */
export const isWebm = (head: Uint8Array): boolean => head[0] === 0x1a && head[1] === 0x45 && head[2] === 0xdf && head[3] === 0xa3;

/** The first track of sound, null when there is none. */
export function webmTrack(bytes: Uint8Array): WebmTrack | null {
  for (const element of elements(bytes)) {
    const track = element.id === ID.trackEntry ? trackOf(bytes, element) : null;
    if (track) return { codec: track.codec, setup: track.setup, packets: () => packetsOf(bytes, track.number) };
    if (element.id === ID.cluster) return null;
  }
  return null;
}

/** All elements in order, those that hold others before what they hold. A length that is not known, as recorders leave it, lasts to the end. */
function* elements(bytes: Uint8Array, from = 0, to = bytes.length): Generator<Element> {
  for (let at = from; at < to; ) {
    const id = variable(bytes, at, 'id');
    const size = id && variable(bytes, at + id.length, 'size');
    if (!id || !size) return;
    const body = at + id.length + size.length;
    const end = size.value === null ? to : body + size.value;
    yield { id: id.value!, from: body, to: Math.min(end, to), cut: end > to };
    at = ENTERED.has(id.value!) ? body : end;
  }
}

interface Variable {
  /** Null when all bits are set: not known. */
  readonly value: number | null;
  readonly length: number;
}

/** A number of 1 to 8 bytes; the leading zeros of the first say how many. An id keeps its marker bit and has 4 at most. */
function variable(bytes: Uint8Array, at: number, kind: 'id' | 'size'): Variable | null {
  const first = bytes[at];
  if (first === undefined || first === 0) return null;
  const length = Math.clz32(first) - 23;
  if (at + length > bytes.length || (kind === 'id' && length > 4)) return null;
  const marker = 1 << (8 - length);
  let value = kind === 'id' ? first : first & (marker - 1);
  let unknown = (first & (marker - 1)) === marker - 1;
  for (let i = 1; i < length; i++) {
    value = value * 256 + bytes[at + i]!;
    unknown &&= bytes[at + i] === 255;
  }
  if (value > Number.MAX_SAFE_INTEGER) return null;
  return { value: unknown && kind === 'size' ? null : value, length };
}

function trackOf(bytes: Uint8Array, entry: Element): { number: number; codec: string; setup: Uint8Array } | null {
  const found = new Map<number, Uint8Array>();
  for (const { id, from, to } of elements(bytes, entry.from, entry.to)) found.set(id, bytes.subarray(from, to));
  const wholeOf = (id: number): number => (found.get(id) ?? new Uint8Array(0)).reduce((sum, byte) => sum * 256 + byte, 0);
  if (wholeOf(ID.trackType) !== SOUND) return null;
  const codec = String.fromCharCode(...(found.get(ID.codecId) ?? []).slice(0, 40)).replace(/\0+$/, '');
  return { number: wholeOf(ID.trackNumber), codec, setup: found.get(ID.codecPrivate) ?? new Uint8Array(0) };
}

function* packetsOf(bytes: Uint8Array, track: number): Packets {
  let end = 0;
  for (const { id, from, to, cut } of elements(bytes)) {
    if (!ENTERED.has(id)) end = to;
    if (id !== ID.simpleBlock && id !== ID.block) continue;
    const number = variable(bytes, from, 'size');
    const flagsAt = from + (number?.length ?? 0) + 2;
    if (!number || flagsAt >= to || cut) return false;
    if (number.value !== track) continue;
    // Several packets in one block ("lacing") do not occur in WebM from browsers or ffmpeg.
    if ((bytes[flagsAt]! & 0x06) !== 0) return false;
    yield { bytes: bytes.subarray(flagsAt + 1, to), granule: null };
  }
  return end === bytes.length;
}

/** Headers packed together, their lengths before them. @source [RFC9559] as Matroska packs Vorbis headers. Empty when they are damaged. */
export function laced(setup: Uint8Array): readonly Uint8Array[] {
  const count = (setup[0] ?? 0) + 1;
  const lengths: number[] = [];
  let at = 1;
  while (lengths.length < count - 1) {
    let length = 0;
    for (;;) {
      const byte = setup[at++];
      if (byte === undefined) return [];
      length += byte;
      if (byte < 255) break;
    }
    lengths.push(length);
  }
  const rest = setup.length - at - lengths.reduce((sum, length) => sum + length, 0);
  if (rest < 0) return [];
  return [...lengths, rest].map((length) => {
    at += length;
    return setup.subarray(at - length, at);
  });
}
