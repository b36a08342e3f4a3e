/** What is told of reach, as codes with parameters; `words` has the sentences. */
import type { Statement } from '../problem.ts';
import { type BeyondReach, BURSTS, type PlayedBurst, type Reach } from './reach.ts';

export type ReachStatement =
  /** A burst of so many strokes (8: on and on) at so many a second, and what the reach so far is: this player's, or the usual figure where nothing was heard of the limb. */
  | Statement<
      'reach-burst',
      { readonly limb: string; readonly burst: number; readonly perSec: number; readonly soFarPerSec: number; readonly played: boolean }
    >
  | Statement<'reach-travel', { readonly limb: string; readonly from: string; readonly to: string; readonly gapSec: number }>
  | Statement<'reach-crossed', { readonly right: string; readonly left: string }>
  /** Strokes a second in bursts of 2, 3, 4 and on; `played` whether anything of this player's is in it, or usual figures alone. */
  | Statement<'reach-so-far', { readonly limb: string; readonly perSec: readonly number[]; readonly played: boolean }>;

/** What an exercise asks beyond the reach so far, to be said. @param played what the reach was made from. */
export function toldBeyond(beyond: BeyondReach, played: readonly PlayedBurst[]): ReachStatement {
  if (beyond.kind === 'burst') {
    const { limb, burst, perSec, soFarPerSec } = beyond;
    return { code: 'reach-burst', params: { limb, burst, perSec, soFarPerSec, played: isPlayed(limb, played) } };
  }
  if (beyond.kind === 'travel') {
    const { limb, from, to, gapSec } = beyond;
    return { code: 'reach-travel', params: { limb, from, to, gapSec } };
  }
  return { code: 'reach-crossed', params: { right: beyond.right, left: beyond.left } };
}

/** The reach of each limb, to be said. @param played what it was made from. */
export const toldReach = (reach: Reach, played: readonly PlayedBurst[]): readonly ReachStatement[] =>
  (['R', 'L', 'K', 'H'] as const).map((limb) => {
    const perSec = BURSTS.map((burst) => reach[limb][burst]);
    return { code: 'reach-so-far', params: { limb, perSec, played: isPlayed(limb, played) } };
  });

const isPlayed = (limb: string, played: readonly PlayedBurst[]): boolean => played.some((each) => each.limb === limb);
