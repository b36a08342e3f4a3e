/** What follows from the player's own word for the rounds of a block. */
import type { Heard, OwnWord, RoundsSaid, SessionBlock, TempoStretch } from '@evenhand/core/session';
import { standsAt, type TempoResult } from '@evenhand/core/tempo';
import { inNoLeap } from './heardblock.ts';

/**
 * A block by the player's word: a round is one run, of which the ear would count several; what a word weighs is for core/tempo to say.
 * @param rounds.stretches each tempo in its turn, where it moved within the block.
 * @param earlier results of the same exercise, in order of time.
 * @returns null when nothing was said.
 */
export function heardByWord(
  { tempoBpm, capBpm }: SessionBlock,
  { hadIt, again, stretches = [] }: RoundsSaid & { readonly stretches?: readonly TempoStretch[] },
  earlier: readonly TempoResult[],
): Heard | null {
  const runs = hadIt + again;
  if (runs === 0) return null;
  const turns = stretches.length > 1 ? stretches : [{ tempoBpm, clean: hadIt, runs, byEar: false }];
  const { nextTempoBpm, reason } = standsAt([...earlier, ...turns], { capBpm });
  const said = { code: 'block-by-word', params: { hadIt, again } };
  return { said, clean: hadIt, runs, nextTempoBpm, why: reason, ...(stretches.length > 1 ? { stretches } : {}) };
}

/**
 * One round by the player's word, while its block goes on.
 * @param block with the tempo at which it was played.
 */
export function roundByWord(block: SessionBlock, says: OwnWord, earlier: readonly TempoResult[]): Heard {
  return inNoLeap(heardByWord(block, { hadIt: Number(says === 'hadIt'), again: Number(says === 'again') }, earlier)!, block);
}

/** The word that stands for a block: the one said more often, `again` when both were said alike, null when none was. */
export function wordFor({ hadIt, again }: RoundsSaid): 'hadIt' | 'again' | null {
  if (hadIt + again === 0) return null;
  return hadIt > again ? 'hadIt' : 'again';
}
