/** Power of short windows of sound in log-spaced bands. */
import FFT from 'fft.js';
import { sameInEngines } from './engines.ts';

/** What a bank of bands needs to know. */
export interface BandSpec {
  readonly sampleRateHz: number;
  /** Wished window lengths in seconds; each becomes a power of two in samples (`windowSize`). Their band powers are averaged. */
  readonly windowSecs: readonly number[];
  /** Lower edge of the first band. */
  readonly lowHz: number;
  /** Upper edge of the last band; half the sample rate cuts it. */
  readonly highHz: number;
  readonly bandCount: number;
}

interface Window {
  readonly size: number;
  readonly fft: FFT;
  readonly shape: Float64Array;
  readonly frame: Float64Array;
  readonly spectrum: Float64Array;
  /** First bin of each band, one more for the end; weights are spread so that a band between two bins still hears its neighbour. */
  readonly edges: Int32Array;
  readonly scale: number;
}

/** A ready bank: windows, work space, band edges. Work space is reused, so one bank serves one caller at a time. */
export interface BandBank {
  readonly bandCount: number;
  /** Samples that must exist on either side of a frame's centre. */
  readonly halfSamples: number;
  readonly centresHz: Float64Array;
  readonly windows: readonly Window[];
}

/** The largest power of two at most a quarter longer than `samples`, at least 16. `windowSize(256)` is 256, `windowSize(186)` 128. */
const windowSize = (samples: number): number => Math.max(16, 2 ** Math.floor(Math.log2(1.25 * samples)));

/** Makes the bank for one sample rate. Bands are equal in log frequency from `lowHz` to the smaller of `highHz` and 0.45 of the rate. */
export const createBandBank = (spec: BandSpec): BandBank => {
  const top = Math.min(spec.highHz, 0.45 * spec.sampleRateHz);
  const edgesHz = Float64Array.from({ length: spec.bandCount + 1 }, (_, i) => spec.lowHz * (top / spec.lowHz) ** (i / spec.bandCount));
  const windows = spec.windowSecs.map((sec) => createWindow(windowSize(sec * spec.sampleRateHz), edgesHz, spec.sampleRateHz));
  return {
    bandCount: spec.bandCount,
    halfSamples: Math.max(...windows.map((w) => w.size)) / 2,
    centresHz: Float64Array.from({ length: spec.bandCount }, (_, b) => Math.sqrt(edgesHz[b]! * edgesHz[b + 1]!)),
    windows,
  };
};

const createWindow = (size: number, edgesHz: Float64Array, sampleRateHz: number): Window => {
  const shape = Float64Array.from({ length: size }, (_, i) => sameInEngines(0.5 - 0.5 * Math.cos((2 * Math.PI * (i + 0.5)) / size)));
  const edges = Int32Array.from(edgesHz, (hz) => Math.min(size / 2, Math.max(1, Math.round((hz * size) / sampleRateHz))));
  const energy = shape.reduce((sum, v) => sum + v * v, 0);
  const fft = new FFT(size);
  fft.table.forEach((turn, i) => {
    fft.table[i] = sameInEngines(turn);
  });
  return { size, fft, shape, frame: new Float64Array(size), spectrum: new Float64Array(2 * size), edges, scale: 1 / (energy * size) };
};

/** Where a frame lies and where its band powers go. */
export interface FrameSpot {
  /** Index of the frame's centre in `samples`; what lies outside counts as silence. */
  readonly centre: number;
  readonly out: Float32Array;
  readonly outOffset: number;
}

/** Writes the band powers of the frame around `spot.centre` (mean over the windows, full-scale sine about 0.5 summed over bands). */
export const bandPowers = (bank: BandBank, samples: Float32Array, spot: FrameSpot): void => {
  const { out, outOffset } = spot;
  for (let b = 0; b < bank.bandCount; b++) out[outOffset + b] = 0;
  const share = 1 / bank.windows.length;
  for (const window of bank.windows) {
    cutFrame(window, samples, spot.centre - window.size / 2);
    window.fft.realTransform(window.spectrum, window.frame);
    addBands(window, share * window.scale, spot);
  }
};

const cutFrame = (window: Window, samples: Float32Array, from: number): void => {
  const { frame, shape, size } = window;
  if (from >= 0 && from + size <= samples.length) {
    for (let i = 0; i < size; i++) frame[i] = samples[from + i]! * shape[i]!;
    return;
  }
  for (let i = 0; i < size; i++) {
    const at = from + i;
    frame[i] = at >= 0 && at < samples.length ? samples[at]! * shape[i]! : 0;
  }
};

/** A band narrower than a bin takes the bin it lies in, weighted by nothing: neighbours then share it, which costs resolution only. */
const addBands = (window: Window, scale: number, { out, outOffset }: FrameSpot): void => {
  const { edges, spectrum } = window;
  const bands = edges.length - 1;
  for (let b = 0; b < bands; b++) {
    const from = edges[b]!;
    const to = Math.max(from + 1, edges[b + 1]!);
    let power = 0;
    for (let k = from; k < to; k++) {
      const re = spectrum[2 * k]!;
      const im = spectrum[2 * k + 1]!;
      power += re * re + im * im;
    }
    out[outOffset + b] = out[outOffset + b]! + scale * 2 * power;
  }
};
