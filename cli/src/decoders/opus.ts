/** Opus packets become sound, whatever file they stood in. */
import type { Reading } from '@evenhand/core/problem';
import { type Blocks, type Channels, monoOf, type SoundStream, type TakeProblem } from '@evenhand/core/take';
import { amplitudeOfDb } from '@evenhand/core/units';
import type { OpusDecodedAudio } from 'opus-decoder';
import type { Packets } from './packets.ts';
import { damagedAt, unsupported } from './problems.ts';

/** Opus is always decoded at this rate. @source [RFC7845] section 4 */
const RATE_HZ = 48_000;

interface OpusHead {
  readonly channels: number;
  /** Samples at the beginning that are not part of the sound. */
  readonly preSkip: number;
  readonly gain: number;
  readonly streamCount: number;
  readonly coupledStreamCount: number;
  readonly mapping: readonly number[];
}

interface Decoder {
  decodeFrame(packet: Uint8Array): OpusDecodedAudio<48000>;
  free(): void;
}

/** Whether a packet is the header of an Opus stream. */
export const isOpusHead = (packet: Uint8Array): boolean => String.fromCharCode(...packet.subarray(0, 8)) === 'OpusHead';

/**
 * @param head the header's packet.
 * @param packets gives the packets of sound, each time from the start; one with a granule of at least 1 says where the sound ends.
 */
export async function opusStream(head: Uint8Array, packets: () => Packets): Promise<Reading<SoundStream, TakeProblem>> {
  const header = readHead(head);
  if (!header) return unsupported('Opus of an unknown kind');
  const { OpusDecoder } = await import('opus-decoder');
  const { channels, streamCount, coupledStreamCount, mapping } = header;
  const options = { channels, streamCount, coupledStreamCount, channelMappingTable: [...mapping] };
  // One for each time that `monoOf` runs through the file.
  const decoders = Array.from({ length: channels === 1 ? 1 : 2 }, () => new OpusDecoder(options));
  try {
    await Promise.all(decoders.map(({ ready }) => ready));
  } catch {
    return unsupported('Opus with an unknown arrangement of channels');
  }
  return { value: monoOf({ sampleRateHz: RATE_HZ, channels, start: () => blocksOf(decoders.shift()!, header, packets()) }), problems: [] };
}

function* blocksOf(decoder: Decoder, { channels, preSkip, gain }: OpusHead, packets: Packets): Blocks<Channels> {
  let decoded = 0;
  let given = 0;
  let next = packets.next();
  for (; !next.done; next = packets.next()) {
    const { bytes, granule } = next.value;
    const sound = isOpusPacket(bytes) ? decodedBy(decoder, bytes) : null;
    if (!sound) break;
    const from = Math.max(0, Math.min(sound.samplesDecoded, preSkip - decoded));
    decoded += sound.samplesDecoded;
    // The last page may end before its last packet does.
    const over = granule !== null && granule > 0 ? Math.max(0, Math.min(sound.samplesDecoded - from, decoded - granule)) : 0;
    const frames = sound.samplesDecoded - from - over;
    given += frames;
    if (frames > 0) yield { frames, channels, sampleAt: (i, channel) => gain * sound.channelData[channel]![from + i]! };
  }
  decoder.free();
  return next.done && next.value ? [] : [damagedAt(given / RATE_HZ)];
}

function decodedBy(decoder: Decoder, packet: Uint8Array): OpusDecodedAudio<48000> | null {
  try {
    const sound = decoder.decodeFrame(packet);
    return sound.errors.length > 0 ? null : sound;
  } catch {
    return null;
  }
}

/** @source [RFC7845] section 5.1 */
function readHead(head: Uint8Array): OpusHead | null {
  if (!isOpusHead(head) || head.length < 19 || head[8]! > 15) return null;
  const view = new DataView(head.buffer, head.byteOffset, head.length);
  const channels = head[9]!;
  const base = { channels, preSkip: view.getUint16(10, true), gain: amplitudeOfDb(view.getInt16(16, true) / 256) };
  if (head[18] === 0) {
    if (channels < 1 || channels > 2) return null;
    return { ...base, streamCount: 1, coupledStreamCount: channels - 1, mapping: channels === 2 ? [0, 1] : [0] };
  }
  const [streamCount = 0, coupledStreamCount = 0] = [head[19], head[20]];
  const mapping = [...head.subarray(21, 21 + channels)];
  const sound = channels > 0 && mapping.length === channels && streamCount > 0 && coupledStreamCount <= streamCount;
  return sound && mapping.every((stream) => stream < streamCount + coupledStreamCount || stream === 255)
    ? { ...base, streamCount, coupledStreamCount, mapping }
    : null;
}

/** Samples in a frame, by the five bits of a packet's first byte. @source [RFC6716] section 3.1 */
function frameSamples(configuration: number): number {
  if (configuration < 12) return [480, 960, 1920, 2880][configuration % 4]!;
  if (configuration < 16) return [480, 960][configuration % 2]!;
  return [120, 240, 480, 960][configuration % 4]!;
}

const MOST_SAMPLES = 5760;

/** Whether a packet can be decoded, by its first bytes; the decoder complains aloud of others. @source [RFC6716] section 3.4 */
export function isOpusPacket(bytes: Uint8Array): boolean {
  if (bytes.length === 0 || bytes.length > 1275 * 48) return false;
  const code = bytes[0]! & 3;
  if (code === 0) return bytes.length <= 1276;
  if (code === 1) return bytes.length % 2 === 1 && bytes.length <= 2551;
  if (code === 2) return twoFrames(bytes);
  return manyFrames(bytes, frameSamples(bytes[0]! >> 3));
}

function twoFrames(bytes: Uint8Array): boolean {
  const [length, used] = frameLength(bytes, 1);
  const rest = bytes.length - 1 - used - length;
  return used > 0 && rest >= 0 && rest <= 1275;
}

function manyFrames(bytes: Uint8Array, samples: number): boolean {
  if (bytes.length < 2) return false;
  const count = bytes[1]! & 63;
  if (count === 0 || count * samples > MOST_SAMPLES) return false;
  let at = 2;
  let padding = 0;
  if (bytes[1]! & 64) {
    let byte = 255;
    while (byte === 255) {
      if (at >= bytes.length) return false;
      byte = bytes[at++]!;
      padding += byte === 255 ? 254 : byte;
    }
  }
  const end = bytes.length - padding;
  if (!(bytes[1]! & 128)) return end >= at && (end - at) % count === 0 && (end - at) / count <= 1275;
  for (let left = count - 1; left > 0; left--) {
    const [length, used] = frameLength(bytes.subarray(0, Math.max(0, end)), at);
    if (used === 0) return false;
    at += used;
    padding += length;
  }
  const rest = bytes.length - padding - at;
  return rest >= 0 && rest <= 1275;
}

/** The length of a frame told in one byte or two, and how many it took: 0 when they are missing. @source [RFC6716] section 3.2.1 */
function frameLength(bytes: Uint8Array, at: number): readonly [length: number, used: number] {
  const first = bytes[at];
  if (first === undefined) return [0, 0];
  if (first < 252) return [first, 1];
  const second = bytes[at + 1];
  return second === undefined ? [0, 0] : [4 * second + first, 2];
}
