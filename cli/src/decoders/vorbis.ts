/** Vorbis packets become sound, some seconds at a time. */
import type { Reading } from '@evenhand/core/problem';
import { type Blocks, type Channels, HIGHEST_RATE_HZ, LOWEST_RATE_HZ, monoOf, type SoundStream, type TakeProblem } from '@evenhand/core/take';
import { joined, lacingCount, oggPage, PIECES_PER_PAGE } from './ogg.ts';
import type { Packets } from './packets.ts';
import { damagedAt, unsupported } from './problems.ts';

/** Packets decoded at once: some 10 s. The library decodes whole files only, and an hour is longer than its memory. Assumption. */
const PACKETS_AT_ONCE = 512;

/**
 * Packets decoded once more before each batch, their sound then left away. One would do by the format; but the library takes the first packet it is given
 * for the beginning of a file, and when it is a long one before short ones it gives nothing at all. From the short one behind it, it does. Assumption.
 */
const PACKETS_BEFORE = 4;

/** Whether a packet is the first of a Vorbis stream. @source [VorbisI] section 4.2.1 */
export const isVorbisHead = (packet: Uint8Array): boolean => String.fromCharCode(...packet.subarray(0, 7)) === '\u0001vorbis';

interface VorbisLibrary {
  decode(ogg: Uint8Array): { readonly sampleRate: number; readonly channels: readonly Float32Array[] };
}

/**
 * @param headers its three header packets.
 * @param packets gives the packets of sound, each time from the start.
 */
export async function vorbisStream(headers: readonly Uint8Array[], packets: () => Packets): Promise<Reading<SoundStream, TakeProblem>> {
  const [identification] = headers;
  if (!identification || identification.length < 30 || headers.length < 3) return unsupported('Vorbis without its headers');
  const channels = identification[11]!;
  const sampleRateHz = new DataView(identification.buffer, identification.byteOffset).getUint32(12, true);
  if (headers.some((header) => lacingCount(header) > PIECES_PER_PAGE)) return unsupported('Vorbis with headers of an unknown kind');
  if (channels === 0 || sampleRateHz < LOWEST_RATE_HZ || sampleRateHz > HIGHEST_RATE_HZ) return unsupported(`Vorbis at ${sampleRateHz} Hz`);
  const { StbVorbis } = await import('stb-vorbis');
  await StbVorbis.ready;
  const start = () => blocksOf(StbVorbis, { headers, channels, sampleRateHz }, packets());
  return { value: monoOf({ sampleRateHz, channels, start }), problems: [] };
}

interface Told {
  readonly headers: readonly Uint8Array[];
  readonly channels: number;
  readonly sampleRateHz: number;
}

function* blocksOf(library: VorbisLibrary, { headers, channels, sampleRateHz }: Told, packets: Packets): Blocks<Channels> {
  let given = 0;
  let before: readonly Uint8Array[] = [];
  for (let ended = false; !ended; ) {
    const batch = nextBatch(packets);
    const known = before.length > 0 ? (decodedFrom(library, headers, before)?.[0]?.length ?? 0) : 0;
    const decoded = batch.packets.length > 0 ? decodedFrom(library, headers, [...before, ...batch.packets]) : [];
    if (!decoded || (decoded.length > 0 && decoded.length !== channels)) return [damagedAt(given / sampleRateHz)];
    const fresh = (decoded[0]?.length ?? 0) - known;
    // Only the last page cuts sound off; elsewhere the library is ahead of the pages by up to a quarter of a block.
    const frames = batch.end === 'none' ? fresh : Math.min(fresh, Math.max(0, batch.until - given));
    given += frames;
    if (frames > 0) yield { frames, channels, sampleAt: (i, channel) => finite(decoded[channel]![known + i]!) };
    if (batch.end === 'early') return [damagedAt(given / sampleRateHz)];
    ended = batch.end === 'proper';
    before = [...before, ...batch.packets].slice(-PACKETS_BEFORE);
  }
  return [];
}

const finite = (value: number): number => (Math.abs(value) < 1e4 ? value : 0);

interface Batch {
  readonly packets: readonly Uint8Array[];
  /** Samples from the start up to the end of the batch, where the file tells; else infinite. */
  readonly until: number;
  readonly end: 'none' | 'proper' | 'early';
}

function nextBatch(from: Packets): Batch {
  const packets: Uint8Array[] = [];
  let until = Number.POSITIVE_INFINITY;
  while (packets.length < PACKETS_AT_ONCE) {
    const next = from.next();
    if (next.done) return { packets, until, end: next.value ? 'proper' : 'early' };
    const { bytes, granule } = next.value;
    packets.push(bytes);
    until = granule !== null && granule > 0 ? granule : Number.POSITIVE_INFINITY;
  }
  return { packets, until, end: 'none' };
}

/** The sound of packets in a row: from the first, or where the library can make nothing of it, from the second. */
const decodedFrom = (library: VorbisLibrary, headers: readonly Uint8Array[], packets: readonly Uint8Array[]): readonly Float32Array[] | null =>
  decodedBy(library, oggFile(headers, packets)) ?? decodedBy(library, oggFile(headers, packets.slice(1)));

function decodedBy(library: VorbisLibrary, ogg: Uint8Array): readonly Float32Array[] | null {
  try {
    return library.decode(ogg).channels;
  } catch {
    return null;
  }
}

/** A small Ogg file of its own. */
function oggFile(headers: readonly Uint8Array[], packets: readonly Uint8Array[]): Uint8Array {
  const pages = [oggPage(headers.slice(0, 1), { sequence: 0, granule: 0, first: true })];
  let page: Uint8Array[] = [];
  let pieces = 0;
  const close = (): void => {
    if (page.length > 0) pages.push(oggPage(page, { sequence: pages.length, granule: -1, first: false }));
    page = [];
    pieces = 0;
  };
  for (const packet of [...headers.slice(1), ...packets]) {
    if (lacingCount(packet) > PIECES_PER_PAGE) continue;
    if (pieces + lacingCount(packet) > PIECES_PER_PAGE) close();
    page.push(packet);
    pieces += lacingCount(packet);
    if (packet === headers[2]) close();
  }
  close();
  return joined(pages);
}
