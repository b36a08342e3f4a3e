/** Several channels become one, unless they would cancel. */

/** Samples by frame and channel, full scale ±1. */
export interface Channels {
  readonly frames: number;
  readonly channels: number;
  readonly sampleAt: (frame: number, channel: number) => number;
}

/** Energy heard so far of each channel and of their mean. */
export interface MixState {
  readonly energies: Float64Array;
  meanEnergy: number;
}

export const startMix = (channels: number): MixState => ({ energies: new Float64Array(channels), meanEnergy: 0 });

/** Adds a block to the energies. */
export const measureMix = (state: MixState, { frames, channels, sampleAt }: Channels): void => {
  for (let i = 0; i < frames; i++) {
    let sum = 0;
    for (let c = 0; c < channels; c++) {
      const value = sampleAt(i, c);
      sum += value;
      state.energies[c] = state.energies[c]! + value * value;
    }
    state.meanEnergy += (sum / channels) ** 2;
  }
};

/** What is taken for the whole: the mean of the channels; where that has lost more than 6 dB against the strongest channel they cancel, and the strongest is taken alone. */
export const mixChoice = ({ energies, meanEnergy }: MixState): number | 'mean' => {
  const strongest = energies.reduce((best, energy, c) => (energy > energies[best]! ? c : best), 0);
  // A sound in one channel of n alone loses 20·log10(n) dB in the mean without any cancelling: compare with what that would leave.
  return meanEnergy >= 0.25 * (energies[strongest]! / energies.length ** 2) ? 'mean' : strongest;
};

/** A block as one channel. */
export const mixBlock = ({ frames, channels, sampleAt }: Channels, choice: number | 'mean'): Float32Array => {
  const mixed = new Float32Array(frames);
  if (choice !== 'mean') {
    for (let i = 0; i < frames; i++) mixed[i] = sampleAt(i, choice);
    return mixed;
  }
  for (let i = 0; i < frames; i++) {
    let sum = 0;
    for (let c = 0; c < channels; c++) sum += sampleAt(i, c);
    mixed[i] = sum / channels;
  }
  return mixed;
};
