/** Says what a file that is no WAV file looks like, from its first bytes. */

const MAGIC: readonly (readonly [at: number, letters: string, name: string])[] = [
  [0, 'fLaC', 'a FLAC file'],
  [0, 'OggS', 'an Ogg file'],
  [0, 'ID3', 'an MP3 file'],
  [4, 'ftyp', 'an M4A or MP4 file'],
  [0, '\x89PNG', 'a PNG picture'],
  [0, '\xff\xd8\xff', 'a JPEG picture'],
  [0, 'PK\x03\x04', 'a ZIP archive'],
  [0, '%PDF', 'a PDF document'],
  [0, 'MThd', 'a MIDI file'],
  [0, '\x1aE\xdf\xa3', 'a WebM or Matroska file'],
  [0, 'FORM', 'an AIFF file'],
  [0, '.snd', 'an AU file'],
  [0, 'caff', 'a CAF file'],
  [0, '\x30\x26\xb2\x75\x8e\x66\xcf\x11', 'a WMA file'],
  [0, '#!AMR', 'an AMR file'],
  [0, 'RIFF', 'a RIFF file that is not WAV'],
  [0, '\x1f\x8b', 'a gzip archive'],
];

/** A name with its article, for a sentence: `a FLAC file`, `text`, `unknown data`. */
export const looksLike = (bytes: Uint8Array): string => {
  const head = String.fromCharCode(...bytes.subarray(0, 512));
  const known = MAGIC.find(([at, letters]) => head.startsWith(letters, at));
  if (known) return known[2];
  if (bytes.length > 1 && bytes[0] === 0xff && (bytes[1]! & 0xf6) === 0xf0) return 'an AAC file';
  if (bytes.length > 1 && bytes[0] === 0xff && (bytes[1]! & 0xe0) === 0xe0) return 'an MP3 file';
  if (/^\s*(<!doctype html|<html)/i.test(head)) return 'a web page';
  return isText(bytes.subarray(0, 512)) ? 'text' : 'unknown data';
};

/** Letters, digits, blanks and bytes of UTF-8, no control characters. */
const isText = (head: Uint8Array): boolean => head.every((byte) => byte >= 32 || byte === 9 || byte === 10 || byte === 13);
