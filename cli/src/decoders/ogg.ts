/** Ogg files: pages with a checksum each, and the packets of one stream in them. @source [RFC3533] */
import type { SeekableBytes } from '@evenhand/core/take';

/** One packet of a stream. */
export interface OggPacket {
  readonly bytes: Uint8Array;
  /** Position, in samples, at the end of the page whose last whole packet this is; null for the packets before it. */
  readonly granule: number | null;
}

interface Page {
  readonly serial: number;
  readonly sequence: number;
  readonly granule: number;
  readonly continued: boolean;
  readonly last: boolean;
  /** Lengths of the pieces of packets: 255 means that the packet goes on. */
  readonly lacing: Uint8Array;
  readonly body: Uint8Array;
  readonly end: number;
}

const CONTINUED = 1;
const LAST = 4;
const HEADER_BYTES = 27;

/** Most pieces of packets that a page holds. */
export const PIECES_PER_PAGE = 255;

/** Whether bytes begin as an Ogg file does. */
export const isOgg = (head: Uint8Array): boolean => String.fromCharCode(...head.subarray(0, 4)) === 'OggS';

/** First packets of the streams that begin in this file, by the serial number of their stream: they say what is in it. */
export function oggStreams(bytes: SeekableBytes): ReadonlyMap<number, Uint8Array> {
  const found = new Map<number, Uint8Array>();
  for (let page = pageAt(bytes, 0); page && page.granule === 0 && page.lacing.length > 0; page = pageAt(bytes, page.end)) {
    if (found.has(page.serial)) break;
    found.set(page.serial, page.body);
  }
  return found;
}

/** The packets of one stream in order, up to its end or the first damage. @returns whether it came to its proper end. */
export function* oggPackets(bytes: SeekableBytes, serial: number): Generator<OggPacket, boolean> {
  let begun: Uint8Array[] = [];
  let sequence: number | null = null;
  for (let at = 0; at < bytes.byteCount; ) {
    const page = pageAt(bytes, at);
    if (!page) return false;
    at = page.end;
    if (page.serial !== serial) continue;
    if ((sequence !== null && page.sequence !== sequence + 1) || page.continued !== begun.length > 0) return false;
    sequence = page.sequence;
    begun = yield* packetsOf(page, begun);
    if (page.last) return begun.length === 0;
  }
  // Many writers leave the mark of the last page out; a page cut in two is told above.
  return begun.length === 0;
}

/** The packets that end in a page. @returns the pieces of one that goes on in the next. */
function* packetsOf({ lacing, body, granule }: Page, begun: Uint8Array[]): Generator<OggPacket, Uint8Array[]> {
  const lastWhole = lacing.reduce((last, length, i) => (length < 255 ? i : last), -1);
  let pieces = begun;
  let from = 0;
  for (const [i, length] of lacing.entries()) {
    pieces.push(body.subarray(from, from + length));
    from += length;
    if (length === 255) continue;
    yield { bytes: joined(pieces), granule: i === lastWhole ? granule : null };
    pieces = [];
  }
  return pieces;
}

export function joined(pieces: readonly Uint8Array[]): Uint8Array {
  if (pieces.length === 1) return pieces[0]!;
  const all = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0));
  pieces.reduce((at, piece) => {
    all.set(piece, at);
    return at + piece.length;
  }, 0);
  return all;
}

/** The page at a byte; null when there is none, it is cut, or its checksum is wrong. */
function pageAt(bytes: SeekableBytes, at: number): Page | null {
  const head = bytes.read(at, at + HEADER_BYTES + PIECES_PER_PAGE);
  if (head.length < HEADER_BYTES || !isOgg(head) || head[4] !== 0) return null;
  const bodyAt = HEADER_BYTES + head[26]!;
  const length = bodyAt + head.subarray(HEADER_BYTES, bodyAt).reduce((sum, piece) => sum + piece, 0);
  // A copy, for packets are handed on while the next page is read.
  const page = bytes.read(at, at + length).slice();
  const lacing = page.subarray(HEADER_BYTES, bodyAt);
  if (page.length < length || lacing.length < bodyAt - HEADER_BYTES) return null;
  const view = new DataView(page.buffer);
  if (oggChecksum(page) !== view.getUint32(22, true)) return null;
  const flags = page[5]!;
  return {
    serial: view.getUint32(14, true),
    sequence: view.getUint32(18, true),
    granule: Number(view.getBigInt64(6, true)),
    continued: (flags & CONTINUED) !== 0,
    last: (flags & LAST) !== 0,
    lacing,
    body: page.subarray(bodyAt),
    end: at + length,
  };
}

/** The remainders of the polynomial 0x04c11db7 for each byte. */
const REMAINDERS = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte << 24;
  for (let bit = 0; bit < 8; bit++) value = (value << 1) ^ (value < 0 ? 0x04c11db7 : 0);
  return value >>> 0;
});

const CHECKSUM_AT = 22;

/** The checksum of a whole page; the four bytes it stands in count as zeros. */
export function oggChecksum(page: Uint8Array): number {
  let sum = 0;
  for (let i = 0; i < page.length; i++) {
    const byte = i >= CHECKSUM_AT && i < CHECKSUM_AT + 4 ? 0 : page[i]!;
    sum = (sum << 8) ^ REMAINDERS[((sum >>> 24) ^ byte) & 0xff]!;
  }
  return sum >>> 0;
}

/** A page that holds whole packets of up to 255 pieces together; for a decoder that wants an Ogg file. `granule` −1 says nothing of its position. */
export function oggPage(
  packets: readonly Uint8Array[],
  { sequence, granule, first }: { sequence: number; granule: number; first: boolean },
): Uint8Array {
  const lacing = packets.flatMap(({ length }) => [...new Array<number>(Math.floor(length / 255)).fill(255), length % 255]);
  const head = new Uint8Array(HEADER_BYTES + lacing.length);
  const view = new DataView(head.buffer);
  head.set([0x4f, 0x67, 0x67, 0x53, 0, first ? 2 : 0]);
  view.setBigInt64(6, BigInt(granule), true);
  view.setUint32(14, 1, true);
  view.setUint32(18, sequence, true);
  head[26] = lacing.length;
  head.set(lacing, HEADER_BYTES);
  const page = joined([head, ...packets]);
  new DataView(page.buffer).setUint32(CHECKSUM_AT, oggChecksum(page), true);
  return page;
}

/** Pieces of a page that a packet needs. */
export const lacingCount = (packet: Uint8Array): number => Math.floor(packet.length / 255) + 1;
