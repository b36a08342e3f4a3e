/** Ears to listen with: a perfect one that reads the truth, a poor one that loses and blurs strokes, and the real one. */
import { normal, seededRandom } from '../../core/src/random.ts';
import { type DrumKind, type DrumOdds, type Heard, hear } from '../../core/src/stroke/index.ts';
import type { ListenTake } from './takes.ts';

/** What an ear gives to be matched; loudness only when it listened to sound. */
export type Listener = (take: ListenTake) => Pick<Heard, 'candidates' | 'loudness'>;

const oddsOf = (surface: string): DrumOdds => {
  const names: Record<string, DrumKind> = { kick: 'kick', bass: 'kick', tom: 'tom', pad: 'pad' };
  const odds = { kick: 0.02, tom: 0.02, snare: 0.02, pad: 0.02, cymbal: 0.02 };
  return { ...odds, [names[surface] ?? 'snare']: 0.92 };
};

/** Every stroke at its true time and volume. */
export const perfectEar: Listener = ({ truth }) => ({
  candidates: truth.strokes.flatMap((stroke) =>
    stroke.onset === null
      ? []
      : [{ timeSec: stroke.onset, strength: 3, volumeDb: stroke.rms20Dbfs, confidence: 0.99, drumOdds: oddsOf(stroke.surface) }],
  ),
});

/** One stroke in ten lost, the rest 1 ms (SD) off. */
export const poorEar: Listener = (take) => {
  const random = seededRandom(take.truth.strokes.length);
  const candidates = perfectEar(take)
    .candidates.filter(() => random() >= 0.1)
    .map((candidate) => ({ ...candidate, timeSec: candidate.timeSec + 0.001 * normal(random) }));
  return { candidates };
};

/** The ear that ships, told when the click sounded. */
export const realEar: Listener = ({ take, truth }) => hear(take, { clickTimesSec: truth.clicks });
