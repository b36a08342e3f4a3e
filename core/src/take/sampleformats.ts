/** How one sample lies in a WAV file, per format tag and width. */

/** The format chunk of a WAV file. */
export interface Format {
  /** 1 PCM, 3 float, 6 A-law, 7 mu-law; what WAVE_FORMAT_EXTENSIBLE points to is put in its place. */
  readonly tag: number;
  readonly channels: number;
  readonly sampleRateHz: number;
  readonly blockAlign: number;
  readonly bits: number;
}

/** Reads the sample of `channel` in the frame that begins at byte `at`, full scale ±1. */
export type SampleDecoder = (view: DataView, at: number, channel: number) => number;

/** The decoder of a format, or the name of the encoding when there is none. */
export const decoderFor = ({ tag, bits }: Pick<Format, 'tag' | 'bits'>, little: boolean): SampleDecoder | string => {
  const width = Math.ceil(bits / 8);
  if (tag === 1) return pcmDecoder(width, little) ?? `PCM of ${bits} bits`;
  if (tag === 3) return floatDecoder(bits, little) ?? `float of ${bits} bits`;
  if (tag === 6 && bits === 8) return (view, at, channel) => aLaw(view.getUint8(at + channel));
  if (tag === 7 && bits === 8) return (view, at, channel) => muLaw(view.getUint8(at + channel));
  return ENCODING_NAMES[tag] ?? `format ${tag}, ${bits} bits`;
};

const ENCODING_NAMES: Readonly<Record<number, string>> = {
  2: 'Microsoft ADPCM',
  17: 'IMA ADPCM',
  80: 'MPEG',
  85: 'MP3 inside WAV',
  255: 'AAC inside WAV',
};

const pcmDecoder = (width: number, little: boolean): SampleDecoder | null => {
  if (width === 1) return (view, at, channel) => (view.getUint8(at + channel) - 128) / 128;
  if (width === 2) return (view, at, channel) => view.getInt16(at + 2 * channel, little) / 32768;
  if (width === 3) return (view, at, channel) => int24(view, at + 3 * channel, little) / 8388608;
  if (width === 4) return (view, at, channel) => view.getInt32(at + 4 * channel, little) / 2147483648;
  return null;
};

/** Eight bits with a sign, as AIFF has them; WAV's have none. */
export const signed8: SampleDecoder = (view, at, channel) => view.getInt8(at + channel) / 128;

const int24 = (view: DataView, at: number, little: boolean): number =>
  little ? view.getUint8(at) | (view.getInt16(at + 1, true) << 8) : view.getUint8(at + 2) | (view.getInt16(at, false) << 8);

const floatDecoder = (bits: number, little: boolean): SampleDecoder | null => {
  if (bits === 32) return (view, at, channel) => finite(view.getFloat32(at + 4 * channel, little));
  if (bits === 64) return (view, at, channel) => finite(view.getFloat64(at + 8 * channel, little));
  return null;
};

/** Some recorders write NaN or huge numbers where a device failed. */
const finite = (value: number): number => (Math.abs(value) < 1e4 ? value : 0);

/** @source [G711] */
const aLaw = (code: number): number => {
  const bits = code ^ 0x55;
  const exponent = (bits >> 4) & 7;
  const mantissa = ((bits & 15) << 4) + 8;
  const magnitude = exponent === 0 ? mantissa : (mantissa + 256) << (exponent - 1);
  return (bits & 0x80 ? magnitude : -magnitude) / 32768;
};

/** @source [G711] */
const muLaw = (code: number): number => {
  const bits = ~code & 0xff;
  const magnitude = ((((bits & 15) << 3) + 132) << ((bits >> 4) & 7)) - 132;
  return (bits & 0x80 ? -magnitude : magnitude) / 32768;
};
