/** Asks a Worker for the beats of a recording. */
import type { Reading } from '@evenhand/core/problem';
import type { FoundBeats, SongProblem } from '@evenhand/core/song';

/** One channel of a recording. */
export interface SongToHear {
  readonly samples: Float32Array;
  readonly sampleRateHz: number;
  readonly beatsPerBar: number;
}

/** What is found; null with a problem where nothing is, also when the Worker could not be started. */
export function hearSong(song: SongToHear): Promise<Reading<FoundBeats, SongProblem>> {
  const worker = new Worker(new URL('./song.worker.ts', import.meta.url), { type: 'module', name: 'evenhand-song' });
  return new Promise<Reading<FoundBeats, SongProblem>>((resolve) => {
    worker.onmessage = ({ data }: MessageEvent<Reading<FoundBeats, SongProblem>>) => resolve(data);
    worker.onerror = () => resolve({ value: null, problems: [{ code: 'song-no-beat', severity: 'refused', params: {} }] });
    worker.postMessage(song);
  }).finally(() => worker.terminate());
}
