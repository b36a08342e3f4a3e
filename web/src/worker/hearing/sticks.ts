/** Listens for stick clicks in the microphone's sound while somebody wants to know, and tells each count of them. */
import { createSticks, type StickCount, stepSticks } from '@evenhand/core/session';
import type { Input } from './input.ts';

/** How much of what was heard before is listened to, so that it is known what is always there. Assumption: no longer, or clicks that were meant for the start are heard again. */
const BEFORE_SEC = 2;

/** Begins or ends listening; a second beginning starts afresh. */
export type StickListening = (asked: { readonly on: boolean; readonly sampleRateHz: number }) => void;

/** @param tell told of each count once the quiet after it has shown that it is over. */
export function listenForSticks(input: Input, tell: (count: StickCount) => void): StickListening {
  let stop: () => void = () => {};
  return ({ on, sampleRateHz }) => {
    stop();
    stop = () => {};
    if (!on) return;
    const sticks = createSticks(sampleRateHz);
    stop = input.listen(({ frame, samples }) => {
      const counted = stepSticks(sticks, samples, frame);
      if (counted) tell(counted);
    }, BEFORE_SEC * sampleRateHz);
  };
}
