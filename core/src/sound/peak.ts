/** The true peak of a sound: also what lies between its samples. */

/** Interpolated values per sample. @source [BS1770] annex 2: at least four times at 48 kHz */
const STEPS = 4;
/** Samples on each side that an interpolated value is made of. */
const REACH = 12;

/**
 * Largest absolute value of the sound, between its samples too (windowed-sinc interpolation at four steps per sample).
 * @returns a linear amplitude, full scale at 1; 0 for no samples.
 */
export function truePeak(samples: Float32Array): number {
  const plain = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
  let most = plain;
  for (let i = 0; i < samples.length; i++) {
    // Nothing between two samples can exceed the peak unless one of them comes near it.
    if (Math.abs(samples[i]!) < plain / 2) continue;
    for (const kernel of kernels) most = Math.max(most, Math.abs(between(samples, i, kernel)));
  }
  return most;
}

const kernels = Array.from({ length: STEPS - 1 }, (_, step) => kernelAt((step + 1) / STEPS));

function kernelAt(fraction: number): readonly number[] {
  return Array.from({ length: 2 * REACH }, (_, k) => {
    const distance = k - REACH + 1 - fraction;
    const window = Math.cos((Math.PI * distance) / (2 * (REACH + 1))) ** 2;
    return (Math.sin(Math.PI * distance) / (Math.PI * distance)) * window;
  });
}

/** The value a fraction of a sample after sample `at`. */
const between = (samples: Float32Array, at: number, kernel: readonly number[]): number =>
  kernel.reduce((sum, weight, k) => sum + weight * (samples[at + k - REACH + 1] ?? 0), 0);
