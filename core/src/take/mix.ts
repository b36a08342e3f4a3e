/** Several channels become one, unless they would cancel. */

/** Samples by frame and channel, full scale ±1. */
export interface Channels {
  readonly frames: number;
  readonly channels: number;
  readonly sampleAt: (frame: number, channel: number) => number;
}

/** The mean of the channels; where that has lost more than 6 dB against the strongest channel they cancel, and the strongest is taken alone. */
export const mixToMono = ({ frames, channels, sampleAt }: Channels): Float32Array => {
  const mixed = new Float32Array(frames);
  if (channels === 1) {
    for (let i = 0; i < frames; i++) mixed[i] = sampleAt(i, 0);
    return mixed;
  }
  const energies = new Float64Array(channels);
  let mixedEnergy = 0;
  for (let i = 0; i < frames; i++) {
    let sum = 0;
    for (let c = 0; c < channels; c++) {
      const value = sampleAt(i, c);
      sum += value;
      energies[c] = energies[c]! + value * value;
    }
    mixed[i] = sum / channels;
    mixedEnergy += mixed[i]! * mixed[i]!;
  }
  const strongest = energies.indexOf(Math.max(...energies));
  // A sound in one channel of n alone loses 20·log10(n) dB in the mean without any cancelling: compare with what that would leave.
  if (mixedEnergy >= 0.25 * (energies[strongest]! / channels ** 2)) return mixed;
  return Float32Array.from({ length: frames }, (_, i) => sampleAt(i, strongest));
};
