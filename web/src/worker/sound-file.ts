/** Reads a sound file that the drummer chose, as samples at the file's own rate. */
import { isFlac } from '@evenhand/adapters/flac';
import type { Reading } from '@evenhand/core/problem';
import { readWav, type TakeProblem } from '@evenhand/core/take';
import { fileRateHz } from './file-rate.ts';
import type { FileToHear } from './protocol.ts';

/**
 * WAV and FLAC go as bytes to our own readers (the same samples as on the command line); all else is decoded by the browser, at the file's own rate.
 * @returns what `EarClient.hearFile` takes, or why it cannot be read.
 */
export async function readSoundFile(file: Blob, takeId: string): Promise<Reading<FileToHear, TakeProblem>> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  if (isFlac(bytes)) return { value: { takeId, bytes }, problems: [] };
  const asWav = readWav(bytes);
  if (asWav.value || asWav.problems.some(({ code }) => code !== 'take-not-audio')) return { value: { takeId, bytes }, problems: [] };
  try {
    const sampleRateHz = fileRateHz(bytes);
    const decoder = new OfflineAudioContext({ length: 1, sampleRate: sampleRateHz });
    // The decoder takes the buffer away; `bytes` is not used after.
    const decoded = await decoder.decodeAudioData(bytes.buffer);
    return { value: { takeId, samples: meanOfChannels(decoded), sampleRateHz }, problems: [] };
  } catch {
    return { value: null, problems: asWav.problems };
  }
}

function meanOfChannels(buffer: AudioBuffer): Float32Array<ArrayBuffer> {
  const mean = new Float32Array(buffer.length);
  for (let channel = 0; channel < buffer.numberOfChannels; channel++) {
    const samples = buffer.getChannelData(channel);
    for (let i = 0; i < mean.length; i++) mean[i]! += samples[i]! / buffer.numberOfChannels;
  }
  return mean;
}
