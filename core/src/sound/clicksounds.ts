/** The sounds of the click as data: what rings in each, how high its three voices are, and how loud. */
import type { ClickKind, ClickSound } from './clickname.ts';
import { ROD_RATIOS } from './parameters.ts';

/** A damped sine in a click. */
interface Partial {
  /** Its frequency over that of the voice. */
  readonly ratio: number;
  readonly gain: number;
  /** At the first sample, in radians; 0 (a crest) unless said. */
  readonly phase?: number;
  /** How much faster than the whole it dies away, 1/s. */
  readonly dampingHz?: number;
}

/** What one sound of the click is made of. */
export interface ClickTimbre {
  readonly partials: readonly Partial[];
  /** Seconds in which it falls by 1/e. */
  readonly decaySec: number;
  /** Frequency, and volume of the envelope at its height, dB of full scale. */
  readonly voices: Readonly<Record<ClickKind, { readonly hz: number; readonly peakDb: number }>>;
}

/** Partials so close and so out of step that no pitch is heard: 1/3 octave up and down, none at a whole ratio of another. The phases of many tried: a low crest, and a first sample above the 10 % of an onset. */
const RUSTLING = 24;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
const rustling: readonly Partial[] = Array.from({ length: RUSTLING }, (_, k) => ({
  ratio: 2 ** (((2 * k + 1) / RUSTLING - 1 + ((k * GOLDEN) % 1) / RUSTLING) / 3),
  gain: 1 / Math.sqrt(RUSTLING),
  phase: 2 * Math.PI * (((k + 1) ** 2 * Math.sqrt(3)) % 1),
}));

/** A bar of wood: higher modes softer, and sooner over. @source [FletcherRossing1998] modes of a free bar */
const wooden: readonly Partial[] = [0.62, 0.28, 0.1].map((gain, k) => ({ ratio: ROD_RATIOS[k]!, gain, dampingHz: 120 * k }));

/**
 * Where the voices lie. A signal in noise is to have its strength between 500 and 2,500 Hz, two strong partials between 500 and 1,500, and something under
 * 1,500 for whoever wears hearing protection [ISO7731]. Drums are strongest under that (snare and toms below some 350 Hz) and cymbals above it, 3 to 5 kHz
 * once they ring [FletcherRossing1998]. None may ring mostly from 1.7 kHz on, as two sticks do, which are commands (session/parameters.ts). Within that
 * assumptions: a fifth or a fourth between voices; the low one for ear plugs, which take more from high sounds, and for long evenings; the bright one
 * with a partial where ears hear best, for loud rooms; the one without a pitch beside music in any key.
 *
 * The volumes make every sound as loud as the soft tone, voice by voice, by ITU-R BS.1770 (click.test.ts); so a change of sound changes no loudness.
 */
export const CLICK_TIMBRES: Readonly<Record<ClickSound, ClickTimbre>> = {
  tone: {
    partials: [
      { ratio: 1, gain: 0.8 },
      { ratio: 2, gain: 0.2 },
    ],
    decaySec: 0.008,
    voices: { bar: { hz: 1568, peakDb: -6 }, beat: { hz: 1046.5, peakDb: -9 }, subdivision: { hz: 784, peakDb: -18 } },
  },
  knock: {
    partials: wooden,
    decaySec: 0.011,
    voices: { bar: { hz: 1175, peakDb: -4.24 }, beat: { hz: 831, peakDb: -7.83 }, subdivision: { hz: 587, peakDb: -16.93 } },
  },
  low: {
    partials: [
      { ratio: 1, gain: 0.66, phase: -0.65 },
      { ratio: 2, gain: 0.34, phase: -1.3 },
    ],
    decaySec: 0.011,
    voices: { bar: { hz: 740, peakDb: -4.53 }, beat: { hz: 554, peakDb: -8.65 }, subdivision: { hz: 415, peakDb: -18.21 } },
  },
  bright: {
    partials: [
      { ratio: 1, gain: 0.66 },
      { ratio: 2.41, gain: 0.34 },
    ],
    decaySec: 0.008,
    voices: { bar: { hz: 1480, peakDb: -5.25 }, beat: { hz: 1109, peakDb: -8.79 }, subdivision: { hz: 831, peakDb: -17.73 } },
  },
  rustle: {
    partials: rustling,
    decaySec: 0.012,
    voices: { bar: { hz: 1250, peakDb: -8.34 }, beat: { hz: 900, peakDb: -11.75 }, subdivision: { hz: 650, peakDb: -20.92 } },
  },
};
