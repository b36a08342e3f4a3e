/** Made strokes at known samples: what the files of `fixtures/sounds` were made of. */

export const CLICK_TRAIN_RATE_HZ = 44_100;

/** Frames at which its strokes begin. */
export const CLICK_TRAIN_FRAMES: readonly number[] = [8820, 19_845, 26_901, 39_690];

/** Bursts of noise that die away in some 12 ms over hiss at −66 dB, 1.25 s. Each first sample is far above a tenth of its burst's peak. */
export function clickTrain(): Float32Array<ArrayBuffer> {
  let state = 12_345;
  const noise = (): number => {
    state = (Math.imul(state, 1_103_515_245) + 12_345) & 0x7fffffff;
    return (state / 0x7fffffff) * 2 - 1;
  };
  const samples = Float32Array.from({ length: 55_125 }, () => 0.0008 * noise());
  for (const frame of CLICK_TRAIN_FRAMES) {
    for (let i = 0; i < 2600; i++) samples[frame + i]! += (i === 0 ? 0.55 : 0.6 * noise()) * Math.exp(-i / 530);
  }
  return samples;
}
