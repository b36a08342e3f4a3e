/** A sound at another sample rate. */

/** Zero crossings of the kernel on each side. Assumption: 16 keep what is heard; the loudness of a take moves by less than .01 LU. */
const REACH = 16;

/** The same sound at another rate, by a Hann-windowed sinc that cuts at half the lower rate. Equal rates give the samples themselves. */
export function resampled(samples: Float32Array, fromHz: number, toHz: number): Float32Array {
  if (fromHz === toHz) return samples;
  const cut = Math.min(1, toHz / fromHz);
  const reach = REACH / cut;
  return Float32Array.from({ length: Math.round((samples.length * toHz) / fromHz) }, (_, k) => {
    const at = (k * fromHz) / toHz;
    let sum = 0;
    for (let i = Math.max(0, Math.ceil(at - reach)); i <= Math.min(samples.length - 1, Math.floor(at + reach)); i++) {
      sum += samples[i]! * cut * kernel((i - at) * cut);
    }
    return sum;
  });
}

function kernel(x: number): number {
  if (x === 0) return 1;
  const angle = Math.PI * x;
  return (Math.sin(angle) / angle) * Math.cos(angle / (2 * REACH)) ** 2;
}
