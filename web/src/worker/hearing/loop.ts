/** The loopback: clicks sent to the loudspeaker are found again in what the microphone hears. */
import type { Reading } from '@evenhand/core/problem';
import { type ClickLatency, clickLatency, type DeviceProblem, joinSamples, LOOPBACK_SPREAD_MOST_SEC } from '@evenhand/core/take';
import { msOfSec } from '@evenhand/core/units';
import type { CapturedBlock } from '../../audio/capture.ts';
import type { Requests } from '../protocol.ts';
import type { Input } from './input.ts';
import { sentClicks } from './way.ts';

/** How long it may take until the sound has arrived. Assumption: three times as long as is listened to. */
const LIMIT_MS = 15_000;

/** Listens up to `toFrame` and finds the clicks. Refused when they are not heard, or scatter more than a millisecond: then their median tells nothing. */
export async function measureLoop(
  input: Input,
  { clicks, clickSound, sampleRateHz, fromFrame, toFrame }: Requests['measureLoop']['ask'],
): Promise<Reading<ClickLatency, DeviceProblem>> {
  const blocks = await blocksUntil(input, fromFrame, toFrame);
  const from = blocks[0]?.frame ?? fromFrame;
  const sent = sentClicks(clicks, { fromFrame: from, sampleRateHz, clickSound });
  const found = clickLatency(joinSamples(blocks.map(({ samples }) => samples)), sampleRateHz, sent);
  if (!found) return refused({ code: 'click-not-heard', severity: 'doubtful', params: {} });
  if (found.spreadSec > LOOPBACK_SPREAD_MOST_SEC)
    return refused({ code: 'click-unsteady', severity: 'doubtful', params: { spreadMs: msOfSec(found.spreadSec) } });
  return { value: found, problems: [] };
}

const refused = (problem: DeviceProblem): Reading<never, DeviceProblem> => ({ value: null, problems: [problem] });

/** Blocks that follow each other without a gap; after one, only what comes behind it counts. */
function blocksUntil(input: Input, fromFrame: number, toFrame: number): Promise<readonly CapturedBlock[]> {
  return new Promise((resolve) => {
    let blocks: CapturedBlock[] = [];
    const end = (): void => {
      clearTimeout(limit);
      unlisten();
      resolve(blocks);
    };
    const limit = setTimeout(end, LIMIT_MS);
    const unlisten = input.listen((block) => {
      const last = blocks.at(-1);
      if (block.frame < fromFrame) return;
      if (last && last.frame + last.samples.length !== block.frame) blocks = [];
      blocks.push(block);
      // Later, for the listener may be called while it is being added.
      if (block.frame + block.samples.length >= toFrame) queueMicrotask(end);
    });
  });
}
