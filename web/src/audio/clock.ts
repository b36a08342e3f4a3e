/** What frame it is: the next to be computed, the one that is heard, and when that is by the wall. */
import { msOfSec, secOfMs } from '@evenhand/core/units';

/** The frame about to be computed. */
export const nextFrameOf = (context: AudioContext): number => Math.ceil(context.currentTime * context.sampleRate);

/**
 * The frame that leaves the loudspeaker now, with fraction. By the output's own time stamp, carried on by the page's clock;
 * where a browser gives none, by the latency it states.
 */
export function audibleFrameOf(context: AudioContext): number {
  const { contextTime = 0, performanceTime = 0 } = context.getOutputTimestamp?.() ?? {};
  if (contextTime > 0 && performanceTime > 0) return (contextTime + secOfMs(performance.now() - performanceTime)) * context.sampleRate;
  const latencySec = context.outputLatency || context.baseLatency || 0;
  return Math.max(0, context.currentTime - latencySec) * context.sampleRate;
}

/** Milliseconds since 1970 at which a frame is computed. */
export const wallMsOf = (context: AudioContext, frame: number): number => Date.now() + msOfSec(frame / context.sampleRate - context.currentTime);
