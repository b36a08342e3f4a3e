/** Plays samples in an audio context, from a frame on. */

/** Something that plays and can be stopped. `ended` settles when it is over, stopped or not. */
export interface Playing {
  readonly startFrame: number;
  readonly ended: Promise<void>;
  stop(): void;
}

/** @param how.fromFrame first frame; one that has passed means now. `over` plays the samples again and again until stopped. */
export function playIn(
  context: AudioContext,
  samples: Float32Array<ArrayBuffer>,
  { sampleRateHz, fromFrame, over = false }: { readonly sampleRateHz: number; readonly fromFrame: number; readonly over?: boolean },
): Playing {
  const buffer = new AudioBuffer({ length: Math.max(1, samples.length), sampleRate: sampleRateHz, numberOfChannels: 1 });
  buffer.copyToChannel(samples, 0);
  const source = new AudioBufferSourceNode(context, { buffer, loop: over });
  source.connect(context.destination);
  const ended = new Promise<void>((resolve) => source.addEventListener('ended', () => resolve(), { once: true }));
  source.start(fromFrame / context.sampleRate);
  return { startFrame: fromFrame, ended, stop: () => source.stop() };
}
