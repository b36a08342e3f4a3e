/** Reads AIFF and AIFF-C files: whole numbers either way round, float, A-law and mu-law, any number of channels. */
import type { Reading } from '../problem.ts';
import { type SeekableBytes, tagAt, viewOf } from './bytes.ts';
import * as P from './parameters.ts';
import { pcmStream } from './pcm.ts';
import { decoderFor, signed8 } from './sampleformats.ts';
import { monoOf, type SoundStream } from './stream.ts';
import type { TakeProblem } from './take.ts';

interface Common {
  readonly channels: number;
  readonly promised: number;
  readonly bits: number;
  readonly sampleRateHz: number;
  /** Four letters of the compression; `NONE` for plain AIFF. */
  readonly encoding: string;
}

/** Whether bytes begin as an AIFF or AIFF-C file does. */
export const isAiff = (head: Uint8Array): boolean => tagAt(head, 0) === 'FORM' && ['AIFF', 'AIFC'].includes(tagAt(head, 8));

/** An AIFF file a block at a time, mono, full scale ±1. Never throws, whatever the bytes. @source [AIFF] */
export const openAiff = (bytes: SeekableBytes): Reading<SoundStream, TakeProblem> => {
  const { common, samplesAt } = readChunks(bytes);
  if (!common) return refused({ code: 'take-not-audio', severity: 'refused', params: { looksLike: 'an AIFF file without its beginning' } });
  const { sampleRateHz, channels, bits, encoding, promised } = common;
  const decode = decoderOf(common);
  if (typeof decode === 'string') return unsupported(decode);
  if (!Number.isFinite(sampleRateHz) || channels === 0) return unsupported('an AIFF file with a damaged beginning');
  if (sampleRateHz < P.LOWEST_RATE_HZ || sampleRateHz > P.HIGHEST_RATE_HZ) return unsupported(`${sampleRateHz} Hz`);
  const blockAlign = channels * Math.ceil((WIDTH_BITS[encoding] ?? bits) / 8);
  const frames = samplesAt === null ? 0 : Math.min(promised, Math.floor((bytes.byteCount - samplesAt) / blockAlign));
  if (samplesAt === null || frames <= 0) return refused({ code: 'take-empty', severity: 'refused', params: {} });
  const params = { expectedSec: promised / sampleRateHz, foundSec: frames / sampleRateHz };
  const problems: readonly TakeProblem[] = promised > frames ? [{ code: 'take-cut-short', severity: 'doubtful', at: params.foundSec, params }] : [];
  return { value: monoOf(pcmStream(bytes, { from: samplesAt, frames, channels, blockAlign, sampleRateHz, decode }, problems)), problems: [] };
};

const refused = (problem: TakeProblem): Reading<never, TakeProblem> => ({ value: null, problems: [problem] });

const unsupported = (encoding: string) => refused({ code: 'take-unsupported', severity: 'refused', params: { encoding } });

/** Encodings whose width is not the one told. */
const WIDTH_BITS: Readonly<Record<string, number>> = { ulaw: 8, ULAW: 8, alaw: 8, ALAW: 8, fl32: 32, FL32: 32, fl64: 64, FL64: 64 };

/** The WAV format tag of each encoding; `sowt` is turned round. */
const TAGS: Readonly<Record<string, number>> = {
  NONE: 1,
  twos: 1,
  sowt: 1,
  in24: 1,
  in32: 1,
  fl32: 3,
  FL32: 3,
  fl64: 3,
  FL64: 3,
  alaw: 6,
  ALAW: 6,
  ulaw: 7,
  ULAW: 7,
};

const decoderOf = ({ encoding, bits }: Common) => {
  const tag = TAGS[encoding];
  if (tag === undefined) return `AIFF-C with ${encoding.replace(/[^ -~]/g, '?')}`;
  const width = WIDTH_BITS[encoding] ?? bits;
  if (tag === 1 && width >= 1 && width <= 8) return signed8;
  return decoderFor({ tag, bits: width }, encoding === 'sowt');
};

/** No file has more chunks; damaged ones of no length would be walked for ever. Assumption. */
const MOST_CHUNKS = 10_000;

/** Common chunk and sound chunk stand in any order. */
const readChunks = (bytes: SeekableBytes): { common: Common | null; samplesAt: number | null } => {
  let common: Common | null = null;
  let samplesAt: number | null = null;
  for (let at = 12, count = 0; at + 8 <= bytes.byteCount && count < MOST_CHUNKS; count++) {
    const head = bytes.read(at, at + 8 + 22);
    const size = viewOf(head).getUint32(4);
    const id = tagAt(head, 0);
    if (id === 'COMM') common = readCommon(head);
    if (id === 'SSND' && head.length >= 16) samplesAt = at + 16 + viewOf(head).getUint32(8);
    if (common && samplesAt !== null) break;
    at += 8 + size + (size & 1);
  }
  return { common, samplesAt };
};

/** @param head the chunk from its id on. */
const readCommon = (head: Uint8Array): Common | null => {
  if (head.length < 26) return null;
  const view = viewOf(head);
  const extended = view.getUint32(4) >= 22 && head.length >= 30;
  return {
    channels: view.getUint16(8),
    promised: view.getUint32(10),
    bits: view.getUint16(14),
    sampleRateHz: Math.round(extendedFloat(view, 16)),
    encoding: extended ? tagAt(head, 26) : 'NONE',
  };
};

/** A positive number in the 80 bits of IEEE 754's extended format: 15 bits of exponent, 64 of mantissa with its leading one. @source [AIFF] */
const extendedFloat = (view: DataView, at: number): number => {
  const exponent = (view.getUint16(at) & 0x7fff) - 16383;
  return view.getUint32(at + 2) * 2 ** (exponent - 31) + view.getUint32(at + 6) * 2 ** (exponent - 63);
};
