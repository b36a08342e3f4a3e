/** At what rate a compressed sound file was made, from its first bytes: decoded at another rate its strokes would be moved and smeared. */

/** What browsers decode to when a file does not say; most such files are Opus, which is always 48 kHz. */
const USUAL_RATE_HZ = 48_000;

/** Sample rates of MPEG-1 layer 3 by index; version 2 has half, version 2.5 a quarter. @source [ISO11172] */
const MPEG_RATES_HZ = [44_100, 48_000, 32_000] as const;
const MPEG_DIVISORS: Readonly<Record<number, number>> = { 3: 1, 2: 2, 0: 4 };

/**
 * The sample rate stated by a FLAC, Ogg Vorbis, MP3 or MP4 file; 48,000 for others.
 * @param bytes of the whole file.
 */
export function fileRateHz(bytes: Uint8Array): number {
  const rate = flacRate(bytes) ?? vorbisRate(bytes) ?? mp4Rate(bytes) ?? mp3Rate(bytes);
  return rate !== null && rate >= 8000 && rate <= 192_000 ? rate : USUAL_RATE_HZ;
}

const viewOf = (bytes: Uint8Array): DataView => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

const lettersAt = (bytes: Uint8Array, at: number, length: number): string => String.fromCharCode(...bytes.subarray(at, at + length));

/** 20 bits after marker, block header, block and frame sizes. @source [RFC9639] section 8.2 */
function flacRate(bytes: Uint8Array): number | null {
  return lettersAt(bytes, 0, 4) === 'fLaC' && bytes.length > 21 ? viewOf(bytes).getUint32(18) >>> 12 : null;
}

/** In the identification header, after version and channels. @source [VorbisI] section 4.2.2 */
function vorbisRate(bytes: Uint8Array): number | null {
  if (lettersAt(bytes, 0, 4) !== 'OggS') return null;
  const at = find(bytes, '\u0001vorbis', 200);
  return at >= 0 && bytes.length > at + 16 ? viewOf(bytes).getUint32(at + 12, true) : null;
}

/** The time scale of the first sound track. @source [ISO14496] box `mdhd`, version 0 or 1 */
function mp4Rate(bytes: Uint8Array): number | null {
  if (lettersAt(bytes, 4, 4) !== 'ftyp') return null;
  const at = find(bytes, 'mdhd', bytes.length);
  if (at < 0 || bytes.length < at + 32) return null;
  return viewOf(bytes).getUint32(at + 4 + (bytes[at + 4] === 1 ? 20 : 12));
}

/** The first frame header after any ID3 tag. */
function mp3Rate(bytes: Uint8Array): number | null {
  const from = lettersAt(bytes, 0, 3) === 'ID3' ? 10 + synchsafe(bytes.subarray(6, 10)) : 0;
  for (let at = from; at + 3 < Math.min(bytes.length, from + 4096); at++) {
    if (bytes[at] !== 0xff || (bytes[at + 1]! & 0xe6) !== 0xe2) continue;
    const divisor = MPEG_DIVISORS[(bytes[at + 1]! >> 3) & 3];
    const rate = MPEG_RATES_HZ[(bytes[at + 2]! >> 2) & 3];
    if (divisor && rate) return rate / divisor;
  }
  return null;
}

/** Four bytes of seven bits each. */
const synchsafe = (bytes: Uint8Array): number => bytes.reduce((sum, byte) => sum * 128 + byte, 0);

function find(bytes: Uint8Array, letters: string, within: number): number {
  const codes = Array.from(letters, (letter) => letter.charCodeAt(0));
  const last = Math.min(bytes.length, within) - codes.length;
  for (let at = 0; at <= last; at++) {
    if (codes.every((code, i) => bytes[at + i] === code)) return at;
  }
  return -1;
}
