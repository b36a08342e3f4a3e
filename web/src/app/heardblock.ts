/** From what the ear measured in a block to what is said about it and the next tempo. */
import type { Shape } from '@evenhand/core/finding';
import type { Reading, Statement } from '@evenhand/core/problem';
import type { Heard, SessionBlock, SessionStatement, TempoStretch } from '@evenhand/core/session';
import { cleanRuns, nextTempo, standsAt, type TempoResult, type Tolerance } from '@evenhand/core/tempo';
import type { MeasuredTake } from '../worker/protocol.ts';
import type { MeasuredBlock } from './blocktake.ts';

/** What a block is judged against. */
export interface Judged {
  /** What counts as in time; medium unless said. */
  readonly tolerance?: Tolerance | undefined;
  /** What is meant beside evenness; nothing unless said. */
  readonly shapes?: readonly Shape[] | undefined;
}

/**
 * What a session is told about a block.
 * @param reading of the block's take; without a value nothing could be told, and the tempo stays.
 * @param earlier results of the same exercise, in order of time; none unless said.
 * @param stretches where the tempo moved within the block: what came of each tempo.
 */
export function heardBlock(
  block: SessionBlock,
  reading: Reading<MeasuredTake>,
  { tolerance = 'medium', shapes = [], earlier = [], stretches = [] }: Judged & Told = {},
): Heard {
  const { tempoBpm, cycle, capBpm } = block;
  if (!reading.value) {
    const { nextTempoBpm, reason } = nextTempo([], tempoBpm);
    return { said: reading.problems[0] ?? notHeard, clean: 0, runs: 0, nextTempoBpm, why: reason };
  }
  const { findings } = reading.value;
  // Where what was played is another thing, nothing follows from how evenly it was played.
  if (isInDoubt(reading.value))
    return { said: saidOfBlock(findings[0]!), clean: 0, runs: 0, nextTempoBpm: tempoBpm, why: nextTempo([], tempoBpm).reason };
  const counted = ({ measurement: of }: MeasuredTake) => cleanRuns(of, { cycle, tolerance, shapes });
  const each = stretches
    .filter(({ measured }) => !isInDoubt(measured))
    .map(({ tempoBpm: at, measured }) => ({ tempoBpm: at, byEar: true, ...runsOf(counted(measured)) }))
    .filter(({ runs }) => runs > 0);
  const turns = each.length > 0 ? each : [{ tempoBpm, byEar: true, ...runsOf(counted(reading.value)) }].filter(({ runs }) => runs > 0);
  const { nextTempoBpm, reason } = turns.length > 0 ? standsAt([...earlier, ...turns], { capBpm }) : nextTempo([], tempoBpm);
  const said = findings[0] ? saidOfBlock(findings[0]) : notHeard;
  return { said, ...totalOf(turns), nextTempoBpm, why: reason, ...(each.length > 1 ? { stretches: each } : {}) };
}

interface Told {
  readonly earlier?: readonly TempoResult[];
  readonly stretches?: MeasuredBlock['stretches'];
}

const isInDoubt = ({ findings }: MeasuredTake): boolean => findings[0]?.code === 'sticking-in-doubt';

const runsOf = ({ clean, runs }: { readonly clean: number; readonly runs: number }) => ({ clean, runs });

/** Runs of all tempi. */
const totalOf = (turns: readonly Pick<TempoStretch, 'clean' | 'runs'>[]) => ({
  clean: turns.reduce((sum, { clean }) => sum + clean, 0),
  runs: turns.reduce((sum, { runs }) => sum + runs, 0),
});

/** What is said of a block where a finding tells how to play the take again: nobody does that in a session. */
export function saidOfBlock(finding: Statement): Statement {
  if (finding.code === 'too-little-to-tell') return { code: 'block-too-short', params: {} };
  return finding.code === 'sticking-in-doubt' ? { code: 'block-of-else', params: {} } : finding;
}

/**
 * What a session is told about one round while its block goes on. Below a tempo at which work stood before, a good round keeps it where it is: to
 * that tempo it goes back next time, not in one leap.
 */
export function heardRound(block: SessionBlock, reading: Reading<MeasuredTake>, told: Judged & Told): Heard {
  return inNoLeap(heardBlock(block, reading, told), block);
}

/** What was told of a round, where it says no more than that the tempo is kept: that of the round. */
export const inNoLeap = (heard: Heard, { tempoBpm }: Pick<SessionBlock, 'tempoBpm'>): Heard =>
  heard.why.code === 'tempo-kept' ? { ...heard, nextTempoBpm: tempoBpm } : heard;

const notHeard: SessionStatement = { code: 'block-not-heard', params: {} };
