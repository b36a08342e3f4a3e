/** How the drummer of the demo plays on a given day: steady hands, a foot whose second stroke hurries, and slow learning. */
import type { ExpectedCycle } from '@evenhand/core/exercise';
import type { Fault } from '@evenhand/core/player';
import { toNumber } from '@evenhand/core/rational';
import { beatSec, msOfSec } from '@evenhand/core/units';
import { EARLY_MS, LEFT_PER_SESSION, REFERENCE_SPACE_MS, SOFT_DB, STEEPNESS } from './parameters.ts';

/**
 * What goes wrong in a cycle: each stroke of the right foot that follows another one after no more than `slowestDouble` comes early and soft,
 * the more so the less time there is, the less so the more sessions lie behind her.
 * @param sessions that lie behind her, from 0.
 */
export function faultsOf(cycle: ExpectedCycle, { tempoBpm, sessions }: { readonly tempoBpm: number; readonly sessions: number }): readonly Fault[] {
  const kicks = cycle.strokes.filter(({ limb }) => limb === 'K');
  const lengthBeats = toNumber(cycle.lengthBeats);
  return kicks.flatMap((kick, k) => {
    const before = kicks.at(k - 1)!;
    const gapBeats = (toNumber(kick.beat) - toNumber(before.beat) + lengthBeats) % lengthBeats || lengthBeats;
    const share = (REFERENCE_SPACE_MS / msOfSec(gapBeats * beatSec(tempoBpm))) ** STEEPNESS * LEFT_PER_SESSION ** sessions;
    return share < LEAST_SHARE ? [] : [{ index: kick.index, earlyMs: EARLY_MS * share, softDb: SOFT_DB * share }];
  });
}

/** Faults below this share of the first day's are none: two kicks a beat apart are no double. */
const LEAST_SHARE = 0.1;
