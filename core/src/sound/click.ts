/** The click: three short, gentle voices, told apart by pitch and by volume, so that they are told apart on a small loudspeaker too. */
import { amplitudeOfDb, frameOfSec } from '../units.ts';

/** What a click marks: the 1 of a bar, another beat, or a part of a beat. */
export type ClickKind = 'bar' | 'beat' | 'subdivision';

interface ClickVoice {
  readonly hz: number;
  readonly peakDb: number;
}

/** Assumption: a fifth apart, where hearing is good and a snare is not loudest; no voice near full scale. */
const clickVoices: Readonly<Record<ClickKind, ClickVoice>> = {
  bar: { hz: 1568, peakDb: -6 },
  beat: { hz: 1046.5, peakDb: -9 },
  subdivision: { hz: 784, peakDb: -18 },
};

const LENGTH_SEC = 0.035;
const DECAY_SEC = 0.008;
/** From the first sample to full strength: quick enough to be a point in time, slow enough not to be a snap. */
const ATTACK_SEC = 0.0003;
/** Share of full strength in the first sample: above the 10 % by which an onset is defined. */
const FIRST_SHARE = 0.2;

/**
 * The samples of one click, for any thread: a table to be copied from its frame on. Always the same.
 * @param kind what it marks.
 * @param sampleRateHz of the sound it is mixed into.
 * @returns 35 ms of mono samples whose first is the onset, ending in silence.
 */
export function renderClick(kind: ClickKind, sampleRateHz: number): Float32Array {
  const { hz, peakDb } = clickVoices[kind];
  const length = frameOfSec(LENGTH_SEC, sampleRateHz);
  return Float32Array.from({ length }, (_, i) => {
    const sec = i / sampleRateHz;
    const rise = Math.min(1, FIRST_SHARE + ((1 - FIRST_SHARE) * sec) / ATTACK_SEC);
    const fall = Math.exp(-sec / DECAY_SEC) * (1 - i / (length - 1));
    const wave = 0.8 * Math.cos(2 * Math.PI * hz * sec) + 0.2 * Math.cos(4 * Math.PI * hz * sec);
    return amplitudeOfDb(peakDb) * rise * fall * wave;
  });
}
