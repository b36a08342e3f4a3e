/** Reads a sound file that the drummer chose, as samples at the file's own rate. */
import { isFlac } from '@evenhand/adapters/flac';
import type { Reading } from '@evenhand/core/problem';
import { isAiff, isWav, looksLike, monoOf, type TakeProblem, takeOf } from '@evenhand/core/take';
import { fileRateHz } from './file-rate.ts';
import type { FileToHear } from './protocol.ts';

/**
 * WAV, AIFF and FLAC go as bytes to our own readers (the same samples as on the command line); all else is decoded by the browser, at the file's own rate.
 * @returns what `EarClient.hearFile` takes, or why it cannot be read.
 */
export async function readSoundFile(file: Blob, takeId: string): Promise<Reading<FileToHear, TakeProblem>> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  if (bytes.length === 0 || isFlac(bytes) || isWav(bytes) || isAiff(bytes)) return { value: { takeId, bytes }, problems: [] };
  const looks = looksLike(bytes);
  try {
    const sampleRateHz = fileRateHz(bytes);
    const decoder = new OfflineAudioContext({ length: 1, sampleRate: sampleRateHz });
    // The decoder takes the buffer away; `bytes` is not used after.
    const decoded = await decoder.decodeAudioData(bytes.buffer);
    return { value: { takeId, samples: monoSamples(decoded), sampleRateHz }, problems: [] };
  } catch {
    const problem = SOUND_KINDS.test(looks)
      ? ({ code: 'take-unsupported', severity: 'refused', params: { encoding: looks } } as const)
      : ({ code: 'take-not-audio', severity: 'refused', params: { looksLike: looks } } as const);
    return { value: null, problems: [problem] };
  }
}

/** What is sound though this browser cannot decode it. */
const SOUND_KINDS = /\b(MP3|Ogg|M4A|WebM|AU|CAF|WMA|AMR|AAC)\b/;

/** Channels that cancel are not added up: see `monoOf`. */
function monoSamples(buffer: AudioBuffer): Float32Array<ArrayBuffer> {
  const { sampleRate: sampleRateHz, numberOfChannels: channels, length: frames } = buffer;
  const data = Array.from({ length: channels }, (_, channel) => buffer.getChannelData(channel));
  const stream = monoOf({
    sampleRateHz,
    channels,
    *start() {
      yield { frames, channels, sampleAt: (frame, channel) => data[channel]![frame]! };
      return [];
    },
  });
  return new Float32Array(takeOf(stream).value?.samples ?? []);
}
