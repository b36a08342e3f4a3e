/** Samples that lie in a file as they are: the body of WAV and AIFF files, a block at a time. */
import { type SeekableBytes, viewOf } from './bytes.ts';
import type { SampleDecoder } from './sampleformats.ts';
import type { ChannelStream } from './stream.ts';
import type { TakeProblem } from './take.ts';

/** Bytes read at once, about; a block holds one frame at least. Assumption: 64 kB are quick to read and small beside everything else. */
const BLOCK_BYTES = 65_536;

export interface PcmBody {
  readonly from: number;
  readonly frames: number;
  readonly channels: number;
  /** Bytes from one frame to the next. */
  readonly blockAlign: number;
  readonly sampleRateHz: number;
  readonly decode: SampleDecoder;
}

/** @param problems what is already known to be wrong; told at the end. */
export const pcmStream = (bytes: SeekableBytes, body: PcmBody, problems: readonly TakeProblem[]): ChannelStream => ({
  sampleRateHz: body.sampleRateHz,
  channels: body.channels,
  *start() {
    const { from, frames, channels, blockAlign, decode } = body;
    const framesAtOnce = Math.max(1, Math.floor(BLOCK_BYTES / blockAlign));
    for (let frame = 0; frame < frames; frame += framesAtOnce) {
      const count = Math.min(framesAtOnce, frames - frame);
      const at = from + frame * blockAlign;
      const view = viewOf(bytes.read(at, at + count * blockAlign));
      // A file that shrinks while it is read ends here.
      const whole = Math.min(count, Math.floor(view.byteLength / blockAlign));
      yield { frames: whole, channels, sampleAt: (i, channel) => decode(view, i * blockAlign, channel) };
      if (whole < count)
        return [...problems, { code: 'take-damaged', severity: 'doubtful', params: { foundSec: (frame + whole) / body.sampleRateHz } }];
    }
    return problems;
  },
});
