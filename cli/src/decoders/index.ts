/** Compressed sound files in Node: MP3, Ogg Vorbis, Opus, WebM. In the app the browser decodes them itself. */
import type { Reading } from '@evenhand/core/problem';
import { allBytes, HEAD_BYTES, type SeekableBytes, type SoundStream, type TakeProblem } from '@evenhand/core/take';
import { mp3Stream } from './mp3.ts';
import { isMp3 } from './mp3-start.ts';
import { isOgg, type OggPacket, oggPackets, oggStreams } from './ogg.ts';
import { isOpusHead, opusStream } from './opus.ts';
import type { Packets } from './packets.ts';
import { notAudio, unsupported } from './problems.ts';
import { isVorbisHead, vorbisStream } from './vorbis.ts';
import { isWebm, laced, webmTrack } from './webm.ts';

type Opened = Promise<Reading<SoundStream, TakeProblem>>;

/**
 * Opens an MP3, Ogg (Vorbis, Opus) or WebM file; what the bytes are decides, not a name. Never throws, whatever the bytes; the decoder of each kind is
 * loaded when the first file of it comes. Of WebM the compressed bytes are held in memory, the sound never is.
 * @returns null when it is none of these.
 */
export async function openCompressed(bytes: SeekableBytes): Promise<Reading<SoundStream, TakeProblem> | null> {
  const head = bytes.read(0, HEAD_BYTES).slice();
  if (isOgg(head)) return oggStream(bytes);
  if (isWebm(head)) return webmStream(allBytes(bytes));
  return isMp3(head) ? mp3Stream(bytes) : null;
}

async function oggStream(bytes: SeekableBytes): Opened {
  const streams = [...oggStreams(bytes)];
  const sound = streams.find(([, head]) => isOpusHead(head) || isVorbisHead(head));
  if (streams.length === 0) return notAudio('a damaged Ogg file');
  if (!sound) return unsupported('Ogg with neither Vorbis nor Opus in it');
  const [serial, head] = sound;
  // Behind the first packet come one more of tags, and in Vorbis the codebooks.
  const headerCount = isOpusHead(head) ? 2 : 3;
  const headers = firstOf(oggPackets(bytes, serial), headerCount).map((packet) => packet.bytes);
  const packets = (): Packets => behind(oggPackets(bytes, serial), headerCount);
  return isOpusHead(head) ? opusStream(head, packets) : vorbisStream(headers, packets);
}

async function webmStream(bytes: Uint8Array): Opened {
  const track = webmTrack(bytes);
  if (!track) return unsupported('WebM without sound');
  if (track.codec === 'A_OPUS') return opusStream(track.setup, track.packets);
  return track.codec === 'A_VORBIS' ? vorbisStream(laced(track.setup), track.packets) : unsupported(`WebM with ${track.codec}`);
}

function firstOf(packets: Generator<OggPacket, boolean>, count: number): OggPacket[] {
  const found: OggPacket[] = [];
  for (const packet of packets) {
    found.push(packet);
    if (found.length === count) break;
  }
  return found;
}

function behind(packets: Packets, count: number): Packets {
  for (let i = 0; i < count; i++) packets.next();
  return packets;
}
