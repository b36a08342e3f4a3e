/** Finds the beats of a recording, so that the page stays free while it listens. */
import { findBeats } from '@evenhand/core/song';
import type { SongToHear } from './song.ts';

const scope = self as unknown as DedicatedWorkerGlobalScope;

scope.onmessage = ({ data }: MessageEvent<SongToHear>) => {
  scope.postMessage(findBeats(data.samples, data.sampleRateHz, { beatsPerBar: data.beatsPerBar }));
};
