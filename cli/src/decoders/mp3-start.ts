/** Where the sound of an MP3 file begins and ends: tags passed over, the samples that encoder and decoder put before it counted. */
import type { SeekableBytes } from '@evenhand/core/take';

export interface Mp3Start {
  /** Byte of the first frame, and the end of the last that follows without a break: the decoder can hang on what is no frame. */
  readonly at: number;
  readonly end: number;
  /** Whether nothing but tags comes after that. */
  readonly proper: boolean;
  readonly layer: number;
  readonly sampleRateHz: number;
  readonly channels: number;
  /** Samples per channel that are decoded before the sound begins. */
  readonly skipSamples: number;
  /** Samples of sound; infinite where the file does not tell. */
  readonly soundSamples: number;
}

interface FrameHeader {
  readonly layer: number;
  readonly sampleRateHz: number;
  readonly channels: number;
  readonly samples: number;
  readonly byteCount: number;
  /** Bytes from the frame's start to an encoder's own header, if there is one. */
  readonly infoAt: number;
}

/** What a decoder puts before the first sample. @source [ISO11172] as measured by LAME: 528 samples and one */
const DECODER_DELAY = 529;

/** The first frame that another one follows; null when there is none. */
export function mp3Start(bytes: SeekableBytes): Mp3Start | null {
  const from = tagEnd(bytes.read(0, 10), bytes.byteCount);
  const head = bytes.read(from, from + LOOKED_BYTES + 2 * LONGEST_FRAME_BYTES).slice();
  for (let at = 0; at < Math.min(head.length - 4, LOOKED_BYTES); at++) {
    if (head[at] !== 0xff) continue;
    const frame = frameAt(head, at);
    const next = frame && frameAt(head, at + frame.byteCount);
    if (!frame || !next || next.sampleRateHz !== frame.sampleRateHz || next.layer !== frame.layer) continue;
    const { layer, sampleRateHz, channels } = frame;
    return { at: from + at, ...chainOf(bytes, from + at, frame), layer, sampleRateHz, channels, ...soundOf(head, at, frame) };
  }
  return null;
}

/** Where the frames from `at` to `end` begin, one after the other. */
export function* frameStarts(bytes: SeekableBytes, { at, end }: Pick<Mp3Start, 'at' | 'end'>): Generator<number, void> {
  for (let place = at; place < end; ) {
    yield place;
    place += headerAt(bytes, place)?.byteCount ?? end;
  }
}

const headerAt = (bytes: SeekableBytes, at: number): FrameHeader | null => frameAt(bytes.read(at, at + 4), 0);

/** How far frames of the same kind follow each other. */
function chainOf(bytes: SeekableBytes, from: number, first: FrameHeader): Pick<Mp3Start, 'end' | 'proper'> {
  let end = from;
  for (
    let frame: FrameHeader | null = first;
    frame && alike(frame, first) && end + frame.byteCount <= bytes.byteCount;
    frame = headerAt(bytes, end)
  ) {
    end += frame.byteCount;
  }
  const behind = bytes.read(end, end + 16);
  const proper = /^(TAG|APETAGEX|LYRICS|ID3)/.test(String.fromCharCode(...behind)) || behind.every((byte) => byte === 0);
  return { end, proper };
}

const alike = (a: FrameHeader, b: FrameHeader): boolean =>
  a.layer === b.layer && a.sampleRateHz === b.sampleRateHz && a.channels === b.channels && a.byteCount > 0;

/** How far a first frame is looked for. Assumption: other tags and stray bytes are shorter. */
const LOOKED_BYTES = 65_536;

/** No frame is longer. @source [ISO11172] arithmetic: layer 2, 384 kbit/s at 32 kHz has 1728 bytes, layer 1 at 448 kbit/s fewer; twice that for safety */
const LONGEST_FRAME_BYTES = 3456;

/** Whether bytes may be an MP3 file: a tag, or a frame that another follows. */
export const isMp3 = (head: Uint8Array): boolean => isTag(head) || (head[0] === 0xff && frameAt(head, 0) !== null);

const isTag = (bytes: Uint8Array): boolean => String.fromCharCode(...bytes.subarray(0, 3)) === 'ID3';

/** @source [ID3v2] section 3.1: ten bytes, a length in four bytes of seven bits, perhaps a footer. */
function tagEnd(bytes: Uint8Array, byteCount: number): number {
  if (!isTag(bytes) || bytes.length < 10) return 0;
  const length = bytes.subarray(6, 10).reduce((sum, byte) => sum * 128 + (byte & 127), 0);
  return Math.min(byteCount, 10 + length + (bytes[5]! & 16 ? 10 : 0));
}

const RATES_HZ = [44_100, 48_000, 32_000] as const;
/** Kilobits per second by version 1 or 2, layer and index. @source [ISO11172] */
const KBITS: Readonly<Record<string, readonly number[]>> = {
  '1-1': [0, 32, 64, 96, 128, 160, 192, 224, 256, 288, 320, 352, 384, 416, 448],
  '1-2': [0, 32, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320, 384],
  '1-3': [0, 32, 40, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320],
  '2-1': [0, 32, 48, 56, 64, 80, 96, 112, 128, 144, 160, 176, 192, 224, 256],
  '2-2': [0, 8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160],
  '2-3': [0, 8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160],
};

/** @source [ISO11172] section 2.4.1.3 */
function frameAt(bytes: Uint8Array, at: number): FrameHeader | null {
  if (at + 4 > bytes.length || bytes[at] !== 0xff || (bytes[at + 1]! & 0xe0) !== 0xe0) return null;
  const version = (bytes[at + 1]! >> 3) & 3;
  const layer = 4 - ((bytes[at + 1]! >> 1) & 3);
  const rate = RATES_HZ[(bytes[at + 2]! >> 2) & 3];
  const kbits = KBITS[`${version === 3 ? 1 : 2}-${layer}`]?.[bytes[at + 2]! >> 4];
  if (version === 1 || layer === 4 || !rate || !kbits) return null;
  const sampleRateHz = rate / (version === 3 ? 1 : version === 2 ? 2 : 4);
  const channels = bytes[at + 3]! >> 6 === 3 ? 1 : 2;
  const samples = samplesOf(layer, version === 3);
  const slots = Math.floor((samples * 125 * kbits) / sampleRateHz / slotBytes(layer)) + ((bytes[at + 2]! >> 1) & 1);
  return { layer, sampleRateHz, channels, samples, byteCount: slots * slotBytes(layer), infoAt: 4 + sideInfoBytes(channels, version === 3) };
}

const samplesOf = (layer: number, first: boolean): number => (layer === 1 ? 384 : layer === 2 || first ? 1152 : 576);
const slotBytes = (layer: number): number => (layer === 1 ? 4 : 1);
const sideInfoBytes = (channels: number, first: boolean): number => (first ? (channels === 1 ? 17 : 32) : channels === 1 ? 9 : 17);

/** A first frame may hold no sound but a table, which LAME and its kin end with the samples put before and behind. A file without tells nothing of its encoder's delay, only the decoder's is known. */
function soundOf(bytes: Uint8Array, at: number, frame: FrameHeader): Pick<Mp3Start, 'skipSamples' | 'soundSamples'> {
  const info = bytes.subarray(at + frame.infoAt, at + frame.byteCount);
  const name = String.fromCharCode(...info.subarray(0, 4));
  if ((name !== 'Xing' && name !== 'Info') || info.length < 8) return { skipSamples: DECODER_DELAY, soundSamples: Number.POSITIVE_INFINITY };
  const view = new DataView(info.buffer, info.byteOffset, info.length);
  const flags = info[7]!;
  const frameCount = flags & 1 && info.length >= 12 ? view.getUint32(8) : null;
  const lameAt = 8 + (flags & 1 ? 4 : 0) + (flags & 2 ? 4 : 0) + (flags & 4 ? 100 : 0) + (flags & 8 ? 4 : 0);
  const told = info.subarray(lameAt + 21, lameAt + 24);
  const hasTold = told.length === 3 && info[lameAt] !== 0;
  const delay = hasTold ? (told[0]! << 4) | (told[1]! >> 4) : 0;
  const padding = hasTold ? ((told[1]! & 15) << 8) | told[2]! : 0;
  const skipSamples = frame.samples + delay + DECODER_DELAY;
  const soundSamples = frameCount === null || frameCount === 0 ? Number.POSITIVE_INFINITY : Math.max(0, frameCount * frame.samples - delay - padding);
  return { skipSamples, soundSamples };
}
