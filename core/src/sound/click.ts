/** The click: sounds to choose from, each of three short voices told apart by pitch and by volume, so that they are told apart on a small loudspeaker too. */
import { amplitudeOfDb, frameOfSec } from '../units.ts';
import { type ClickKind, type ClickSound, USUAL_CLICK } from './clickname.ts';
import { CLICK_TIMBRES, type ClickTimbre } from './clicksounds.ts';

const LENGTH_SEC = 0.035;
/** From the first sample to full strength: quick enough to be a point in time, slow enough not to be a snap. */
const ATTACK_SEC = 0.0003;
/** Share of full strength in the first sample: above the 10 % by which an onset is defined. */
const FIRST_SHARE = 0.2;

/**
 * The samples of one click, for any thread: a table to be copied from its frame on. Always the same.
 * @param kind what it marks.
 * @param sampleRateHz of the sound it is mixed into.
 * @param sound what it sounds like.
 * @returns 35 ms of mono samples whose first is the onset, ending in silence; no true peak above −6 dB of full scale.
 */
export function renderClick(kind: ClickKind, sampleRateHz: number, sound: ClickSound = USUAL_CLICK): Float32Array {
  const timbre = CLICK_TIMBRES[sound];
  const { hz, peakDb } = timbre.voices[kind];
  const length = frameOfSec(LENGTH_SEC, sampleRateHz);
  return Float32Array.from({ length }, (_, i) => {
    const sec = i / sampleRateHz;
    const rise = Math.min(1, FIRST_SHARE + ((1 - FIRST_SHARE) * sec) / ATTACK_SEC);
    const fall = Math.exp(-sec / timbre.decaySec) * (1 - i / (length - 1));
    return amplitudeOfDb(peakDb) * rise * fall * waveAt(timbre, { hz, sec, sampleRateHz });
  });
}

/** The partials of a voice at a moment; those that the sample rate cannot hold are left out. */
function waveAt({ partials }: ClickTimbre, { hz, sec, sampleRateHz }: { readonly hz: number; readonly sec: number; readonly sampleRateHz: number }) {
  let wave = 0;
  for (const { ratio, gain, phase = 0, dampingHz = 0 } of partials) {
    if (hz * ratio >= sampleRateHz / 2) continue;
    wave += gain * Math.exp(-sec * dampingHz) * Math.cos(2 * Math.PI * (hz * ratio) * sec + phase);
  }
  return wave;
}
