/** A made voice: not speech, but what an ear of strokes meets in it: hiss, a burst, a buzzing vowel that glides, an end. */
import { seededRandom } from '../../core/src/random.ts';

/** Resonances of a few vowels, Hz. From memory: textbooks of phonetics, rounded. */
const VOWELS = [
  [600, 1000, 2400],
  [350, 850, 2300],
  [300, 2200, 2900],
  [550, 850, 2450],
] as const;

/**
 * One word.
 * @param number which; each has another vowel and another consonant before it.
 * @param how.levelDb RMS of the vowel, dB of full scale.
 */
export function madeVoice(
  number: number,
  { sampleRateHz, lastsSec, levelDb }: { readonly sampleRateHz: number; readonly lastsSec: number; readonly levelDb: number },
): Float32Array {
  const random = seededRandom(300 + number);
  const vowel = VOWELS[number % VOWELS.length]!;
  const consonantSec = 0.06;
  const samples = Float32Array.from({ length: Math.round(lastsSec * sampleRateHz) }, (_, i) => {
    const sec = i / sampleRateHz;
    if (sec < consonantSec) return 0.25 * (2 * random() - 1) * Math.sin((Math.PI * sec) / consonantSec) + (number % 2 === 1 && i < 40 ? 0.6 : 0);
    const open = Math.min(1, (sec - consonantSec) / 0.02, (lastsSec - sec) / 0.05);
    return open * buzz(sec, vowel, 125 - 40 * sec);
  });
  const vowels = samples.subarray(Math.round(consonantSec * sampleRateHz));
  const rms = Math.sqrt(vowels.reduce((sum, sample) => sum + sample * sample, 0) / vowels.length);
  const gain = 10 ** (levelDb / 20) / rms;
  return samples.map((sample) => sample * gain);
}

/** Harmonics of a voice through the resonances of a mouth. */
function buzz(sec: number, vowel: readonly number[], pitchHz: number): number {
  let sum = 0;
  for (let k = 1; k * pitchHz < 4000; k++) {
    const hz = k * pitchHz;
    const passed = vowel.reduce((all, formant, f) => all + 0.6 ** f / (1 + ((hz - formant) / 90) ** 2), 0.02);
    sum += (passed / k ** 0.5) * Math.sin(2 * Math.PI * hz * sec);
  }
  return sum;
}
