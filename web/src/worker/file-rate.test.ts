/** Sample rates read from the heads of sound files that other programs wrote, and from the standards. */
import { describe, expect, it } from 'vitest';
import { fileRateHz } from './file-rate.ts';

const bytesOf = (hexadecimal: string): Uint8Array => Uint8Array.from(hexadecimal.match(/../g) ?? [], (byte) => Number.parseInt(byte, 16));
const ascii = (text: string): string => Array.from(text, (letter) => letter.charCodeAt(0).toString(16).padStart(2, '0')).join('');
/** An MP4 head whose only box of interest is `mdhd` of version 0 or 1 with this time scale. */
const mp4 = (version: 0 | 1, rateHz: number): string =>
  `00000018${ascii('ftypM4A ')}${'00'.repeat(12)}00000020${ascii('mdhd')}0${version}000000${'00'.repeat(version === 1 ? 16 : 8)}${rateHz.toString(16).padStart(8, '0')}${'00'.repeat(20)}`;

describe('the rate of a sound file', () => {
  it.each([
    { head: '664c614300000022100010000001bc000edc0ac441700000113a', rateHz: 44_100, says: 'SoX 14.4.2, a FLAC file of 44.1 kHz' },
    { head: '664c61430000002210001000000bb0000bb0056221700000089d', rateHz: 22_050, says: 'SoX 14.4.2, a FLAC file of 22.05 kHz' },
    {
      head: '4f676753000200000000000000009b33132f00000000a348d23f011e01766f72626973000000000144ac000000000000',
      rateHz: 44_100,
      says: 'SoX 14.4.2, an Ogg Vorbis file of 44.1 kHz',
    },
    {
      head: '4f676753000200000000000000002c17d259000000008efe6397011e01766f7262697300000000012256000000000000',
      rateHz: 22_050,
      says: 'SoX 14.4.2, an Ogg Vorbis file of 22.05 kHz',
    },
    { head: 'fffb9064', rateHz: 44_100, says: 'ISO 11172-3: rate index 0 of MPEG-1' },
    { head: 'fffb9464', rateHz: 48_000, says: 'ISO 11172-3: rate index 1 of MPEG-1' },
    { head: 'fff39064', rateHz: 22_050, says: 'ISO 13818-3: rate index 0 of MPEG-2' },
    {
      head: `${ascii('ID3')}030000000000${'0a'}${'ff'.repeat(10)}fffb9864`,
      rateHz: 32_000,
      says: 'ID3v2.3: a tag of ten bytes before the first frame',
    },
    { head: mp4(0, 44_100), rateHz: 44_100, says: 'ISO 14496-12: mdhd version 0' },
    { head: mp4(1, 48_000), rateHz: 48_000, says: 'ISO 14496-12: mdhd version 1' },
    { head: '1a45dfa3', rateHz: 48_000, says: 'RFC 7845: Opus, as in WebM, is decoded at 48 kHz' },
    { head: '', rateHz: 48_000, says: 'nothing to read' },
    { head: '664c6143', rateHz: 48_000, says: 'a FLAC file that breaks off' },
  ])('$rateHz Hz (says: $says)', ({ head, rateHz }) => {
    expect(fileRateHz(bytesOf(head))).toBe(rateHz);
  });
});
