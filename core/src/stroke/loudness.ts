/** How loud it was at any moment of a take, band by band: coarse, and small enough to be kept for an hour. */
import type { Spectra } from './novelty.ts';
import * as P from './parameters.ts';

/** Mean powers of consecutive rows, rising from the start of the take. Click bleed is taken out where the ear was told of it. */
export interface Loudness {
  readonly rowSec: number;
  /** Where the first row begins: 0 unless times are counted from elsewhere. */
  readonly fromSec: number;
  readonly bandCount: number;
  /** One row of `bandCount` values per `rowSec`, low bands first, full scale squared. */
  readonly powers: Float32Array;
}

/** The rows heard so far, while there is more to come. */
export interface LoudnessState {
  powers: Float32Array;
  rowCount: number;
}

const LOUDNESS_BANDS = P.BAND_COUNT / P.LOUDNESS_BAND_MERGE;

const GROWTH = 1.25;

/** No rows yet. */
export const startLoudness = (): LoudnessState => ({ powers: new Float32Array(1024 * LOUDNESS_BANDS), rowCount: 0 });

/**
 * Adds the rows that end at or before frame `untilFrame` of the take and are not yet there; with `flush` the one begun too.
 * @param memory band powers from frame `firstFrame` of the take on.
 */
export const addLoudness = (
  state: LoudnessState,
  memory: { readonly spectra: Spectra; readonly firstFrame: number },
  { untilFrame, flush }: { readonly untilFrame: number; readonly flush: boolean },
): void => {
  const rows = untilFrame / P.LOUDNESS_ROW_FRAMES;
  const until = flush ? Math.ceil(rows) : Math.floor(rows);
  if (until * LOUDNESS_BANDS > state.powers.length) {
    // By a quarter at most: an hour has 23 MB of rows.
    const larger = new Float32Array(Math.ceil(GROWTH * until) * LOUDNESS_BANDS);
    larger.set(state.powers);
    state.powers = larger;
  }
  for (; state.rowCount < until; state.rowCount++) addRow(state, memory);
};

const addRow = ({ powers, rowCount }: LoudnessState, { spectra, firstFrame }: { spectra: Spectra; firstFrame: number }): void => {
  const from = rowCount * P.LOUDNESS_ROW_FRAMES - firstFrame;
  const to = Math.min(spectra.frameCount, from + P.LOUDNESS_ROW_FRAMES);
  const share = 1 / ((to - from) * P.LOUDNESS_BAND_MERGE);
  for (let band = 0; band < LOUDNESS_BANDS; band++) {
    let sum = 0;
    for (let n = from; n < to; n++) {
      for (let k = 0; k < P.LOUDNESS_BAND_MERGE; k++) sum += spectra.powers[n * spectra.bandCount + band * P.LOUDNESS_BAND_MERGE + k]!;
    }
    powers[rowCount * LOUDNESS_BANDS + band] = share * sum;
  }
};

/** The rows as they are told; the state is used up, for its memory is handed on. */
export const loudnessOf = ({ powers, rowCount }: LoudnessState, frameSec: number): Loudness => ({
  rowSec: P.LOUDNESS_ROW_FRAMES * frameSec,
  fromSec: 0,
  bandCount: LOUDNESS_BANDS,
  powers: powers.subarray(0, rowCount * LOUDNESS_BANDS),
});
