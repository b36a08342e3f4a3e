/** English for what can be wrong with a recording that is played over. */
import type { SongProblem } from '../../song/index.ts';
import type { Sentences } from '../sentences.ts';

export const songSentences: Sentences<SongProblem> = {
  'song-short': ({ durationSec, leastSec }) =>
    `This recording lasts ${durationSec.toFixed(0)} seconds, too short to find a tempo in: ${leastSec} are needed. Tap along or type the tempo.`,
  'song-no-beat': () => 'No beat is heard in this recording. Tap along with it, or type its tempo.',
  'song-tempo-moves': ({ lowBpm, highBpm }) =>
    `The tempo moves between ${Math.round(lowBpm)} and ${Math.round(highBpm)}. A loop is played at its own tempo; keep it to a few bars.`,
  'song-few-taps': ({ least }) => `Tap on every beat, ${least} times or more, beginning on 1.`,
  'song-loop-outside': ({ barCount }) => `This recording has ${barCount} whole bars. Choose the first and the last among them.`,
};
