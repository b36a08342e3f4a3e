/** The drums as data: what rings, what rustles, for how long. All figures are assumptions within what such drums do; none is measured from a recording. */
import { drumNamed } from '../kit/index.ts';
import { CYMBAL_POWER, MEMBRANE_RATIOS, ROD_RATIOS } from './parameters.ts';

/** One damped sine. */
export interface Mode {
  readonly hz: number;
  readonly gain: number;
  /** Seconds to fall by 1/e. */
  readonly decaySec: number;
}

/** Noise between two frequencies that dies away. */
export interface Rustle {
  readonly lowHz: number;
  readonly highHz: number;
  readonly gain: number;
  readonly decaySec: number;
}

/** A drum that can be struck. */
export interface Voice {
  readonly modes: readonly Mode[];
  readonly rustles: readonly Rustle[];
  /** How much higher the pitch begins, as a share, and how fast that settles: a head is tighter while it is pushed in. */
  readonly glide: { readonly share: number; readonly decaySec: number };
}

export type VoiceName =
  | 'snare'
  | 'rim'
  | 'cross-stick'
  | 'pad'
  | 'kick'
  | 'high-tom'
  | 'mid-tom'
  | 'floor-tom'
  | 'hi-hat'
  | 'open-hi-hat'
  | 'hi-hat-foot'
  | 'ride'
  | 'ride-bell'
  | 'crash'
  /** Two sticks struck together. */
  | 'sticks';

/** The modes of a round head: higher ones softer and shorter. */
const head = (lowestHz: number, decaySec: number, gains: readonly number[]): Mode[] =>
  gains.map((gain, i) => ({ hz: lowestHz * MEMBRANE_RATIOS[i]!, gain, decaySec: decaySec / (1 + 0.7 * i) }));

/** The modes of a cymbal: many, never in tune with each other. */
const plate = (lowestHz: number, decaySec: number, count: number): Mode[] =>
  Array.from({ length: count }, (_, i) => ({
    hz: lowestHz * (1 + i / 3) ** CYMBAL_POWER,
    gain: 0.3 / Math.sqrt(1 + i),
    decaySec: decaySec / (1 + i / 6),
  }));

/** The modes of a rod that hangs free; the lowest of a hickory stick of 406 mm by 14 mm lies near 338 Hz (arithmetic: 1.028 r/l² √(E/ρ)). */
const rod = (lowestHz: number, decaySec: number, gains: readonly number[]): Mode[] =>
  gains.map((gain, i) => ({ hz: lowestHz * ROD_RATIOS[i]!, gain, decaySec: decaySec / (1 + 0.4 * i) }));

const still = { share: 0, decaySec: 1 };

const tom = (lowestHz: number, decaySec: number): Voice => ({
  modes: head(lowestHz, decaySec, [1, 0.5, 0.3, 0.2]),
  rustles: [{ lowHz: 300, highHz: 5000, gain: 0.35, decaySec: 0.012 }],
  glide: { share: 0.12, decaySec: 0.03 },
});

export const voices: Readonly<Record<VoiceName, Voice>> = {
  snare: {
    modes: head(190, 0.05, [0.8, 0.6, 0.35, 0.25]),
    rustles: [
      { lowHz: 1200, highHz: 9000, gain: 0.9, decaySec: 0.07 },
      { lowHz: 300, highHz: 4000, gain: 0.5, decaySec: 0.012 },
    ],
    glide: { share: 0.06, decaySec: 0.01 },
  },
  rim: {
    modes: [...head(190, 0.03, [0.4, 0.3]), { hz: 1720, gain: 1, decaySec: 0.012 }, { hz: 2650, gain: 0.6, decaySec: 0.008 }],
    rustles: [{ lowHz: 1500, highHz: 10000, gain: 0.6, decaySec: 0.05 }],
    glide: still,
  },
  'cross-stick': {
    modes: [
      { hz: 810, gain: 1, decaySec: 0.02 },
      { hz: 1790, gain: 0.7, decaySec: 0.012 },
      { hz: 3120, gain: 0.35, decaySec: 0.006 },
    ],
    rustles: [{ lowHz: 800, highHz: 7000, gain: 0.3, decaySec: 0.006 }],
    glide: still,
  },
  pad: {
    modes: [
      { hz: 420, gain: 0.8, decaySec: 0.01 },
      { hz: 950, gain: 0.5, decaySec: 0.006 },
    ],
    rustles: [{ lowHz: 400, highHz: 6000, gain: 0.9, decaySec: 0.008 }],
    glide: still,
  },
  kick: {
    modes: head(58, 0.14, [1, 0.3, 0.12]),
    rustles: [{ lowHz: 800, highHz: 5000, gain: 0.8, decaySec: 0.006 }],
    glide: { share: 0.9, decaySec: 0.018 },
  },
  'high-tom': tom(165, 0.16),
  'mid-tom': tom(125, 0.2),
  'floor-tom': tom(82, 0.26),
  'hi-hat': { modes: plate(3200, 0.02, 8), rustles: [{ lowHz: 5500, highHz: 16000, gain: 1, decaySec: 0.03 }], glide: still },
  'open-hi-hat': { modes: plate(3000, 0.22, 10), rustles: [{ lowHz: 5000, highHz: 16000, gain: 1, decaySec: 0.28 }], glide: still },
  'hi-hat-foot': { modes: plate(2600, 0.03, 6), rustles: [{ lowHz: 3500, highHz: 12000, gain: 0.9, decaySec: 0.04 }], glide: still },
  ride: { modes: plate(640, 0.45, 18), rustles: [{ lowHz: 4000, highHz: 14000, gain: 0.45, decaySec: 0.12 }], glide: still },
  'ride-bell': { modes: plate(1250, 0.5, 10), rustles: [{ lowHz: 3000, highHz: 12000, gain: 0.2, decaySec: 0.1 }], glide: still },
  sticks: {
    modes: rod(338, 0.016, [0.1, 0.3, 0.6, 1, 0.8, 0.5]),
    rustles: [{ lowHz: 1500, highHz: 9000, gain: 0.5, decaySec: 0.003 }],
    glide: still,
  },
  crash: { modes: plate(420, 0.8, 22), rustles: [{ lowHz: 2500, highHz: 15000, gain: 1, decaySec: 0.7 }], glide: still },
};

/**
 * The voice of a drum by its name, other names for it included. A drum that is not known sounds like a pad.
 * @example voiceOf('Floor Tom') // 'floor-tom'
 */
export function voiceOf(surface: string): VoiceName {
  const { name } = drumNamed(surface);
  return name in voices ? (name as VoiceName) : 'pad';
}
