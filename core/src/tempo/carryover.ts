/** How much of the clean tempo of one exercise shows up in another: a usual share by what they keep of each other, learnt from this player. */
import { CARRY } from './parameters.ts';

/** What an exercise keeps of another one: its movement, its rhythm, or neither; and whether it is on the same drums. */
export interface Kept {
  readonly of: 'sticking' | 'rhythm' | 'nothing';
  readonly drums: 'same' | 'other';
}

/** Two exercises of this player whose speeds are known: that of the second over that of the first, stroke for stroke. */
export interface CarriedPair {
  readonly kept: Kept;
  readonly share: number;
}

/** What is expected to come over. */
export interface CarryOver {
  /** Share of the speed. */
  readonly share: number;
  /** Pairs of this player that kept as much; 0 when the share is the usual one. */
  readonly pairCount: number;
}

/**
 * Share of the speed of a known exercise at which a new one that keeps so much of it is expected to be clean.
 *
 * The usual share first; each pair of this player moves it, those that keep the same most, the others a little, because some players lose more
 * in any new setting than others. Never above the known speed: each new setting is expected to start lower.
 * @source [MeyerPalmer2003] for the order; the weighing is a normal prior on log speed.
 */
export function carryOver(kept: Kept, pairs: readonly CarriedPair[] = []): CarryOver {
  const same = (pair: CarriedPair) => pair.kept.of === kept.of && pair.kept.drums === kept.drums;
  const weighed = pairs.map((pair) => ({
    off: Math.max(-CARRY.mostOff, Math.min(CARRY.mostOff, Math.log(pair.share / usualShare(pair.kept)))),
    weight: same(pair) ? 1 : CARRY.otherWeight,
  }));
  const weight = weighed.reduce((sum, pair) => sum + pair.weight, 0);
  const off = weighed.reduce((sum, pair) => sum + pair.weight * pair.off, 0) / (weight + CARRY.usualWeight);
  return { share: Math.min(CARRY.highestShare, usualShare(kept) * Math.exp(off)), pairCount: pairs.filter(same).length };
}

/** The share before anything is known of a player. */
export const usualShare = ({ of, drums }: Kept): number => CARRY.share[of] * (drums === 'same' ? 1 : CARRY.otherDrumsShare);
