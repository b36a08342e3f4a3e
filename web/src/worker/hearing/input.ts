/** The microphone's sound as it reaches the Worker: measured, kept for a moment, and given to the takes that are open. */
import type { CapturedBlock } from '../../audio/capture.ts';
import type { Meter } from '../protocol.ts';
import { createMeter } from './meter.ts';

/**
 * How much of the past is kept for a take whose first frame has gone by when it is asked for: half a minute at 48 kHz, 6 MB. Assumption: a page that
 * stands still from the end of a block into the next is asked to be closed before that.
 */
const KEPT_FRAMES = 1_440_000;

/** Who listens. */
export type Listener = (block: CapturedBlock) => void;

export interface Input {
  /** Takes the sound from this port from now on; the sample rate is that of the takes to come. */
  connect(port: MessagePort): void;
  /** Adds a listener, which first hears what is still kept of so many frames; default all that is. Gives the way to stop. */
  listen(listener: Listener, keptFrames?: number): () => void;
}

/** @param onMeter told how loud it is; the rate at which it is told assumes 48 kHz. */
export function createInput(onMeter: (meter: Meter) => void): Input {
  const listeners = new Set<Listener>();
  const kept: CapturedBlock[] = [];
  const meter = createMeter(48_000);
  let connected: MessagePort | null = null;

  const take = (block: CapturedBlock): void => {
    const reading = meter(block.frame, block.samples);
    if (reading) onMeter(reading);
    kept.push(block);
    while (kept[0]!.frame < block.frame - KEPT_FRAMES || kept[0]!.frame > block.frame) kept.shift();
    for (const listener of listeners) listener(block);
  };
  return {
    connect(port) {
      connected?.close();
      connected = port;
      kept.length = 0;
      port.onmessage = ({ data }: MessageEvent<CapturedBlock>) => take(data);
    },
    listen(listener, keptFrames = KEPT_FRAMES) {
      const from = (kept.at(-1)?.frame ?? 0) - keptFrames;
      for (const block of kept.filter(({ frame }) => frame >= from)) listener(block);
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
