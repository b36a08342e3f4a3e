/** What follows from the player's own word for the rounds of a block. */
import type { Heard, RoundsSaid, SessionBlock } from '@evenhand/core/session';
import { standsAt, type TempoResult } from '@evenhand/core/tempo';

/**
 * A block by the player's word: a round is one run, of which the ear would count several, so words weigh less from the start.
 * @param earlier results of the same exercise, in order of time.
 * @returns null when nothing was said.
 */
export function heardByWord({ tempoBpm, capBpm }: SessionBlock, rounds: RoundsSaid, earlier: readonly TempoResult[]): Heard | null {
  const runs = rounds.hadIt + rounds.again;
  if (runs === 0) return null;
  const { nextTempoBpm, reason } = standsAt([...earlier, { tempoBpm, clean: rounds.hadIt, runs }], { capBpm });
  return { said: { code: 'block-by-word', params: { ...rounds } }, clean: rounds.hadIt, runs, nextTempoBpm, why: reason };
}

/** The word that stands for a block: the one said more often, `again` when both were said alike, null when none was. */
export function wordFor({ hadIt, again }: RoundsSaid): 'hadIt' | 'again' | null {
  if (hadIt + again === 0) return null;
  return hadIt > again ? 'hadIt' : 'again';
}
