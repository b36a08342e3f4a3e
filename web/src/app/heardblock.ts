/** From what the ear measured in a block to what is said about it and the next tempo. */
import type { Shape } from '@evenhand/core/finding';
import type { Reading } from '@evenhand/core/problem';
import type { Heard, SessionBlock, SessionStatement } from '@evenhand/core/session';
import { cleanRuns, nextTempo, standsAt, type TempoResult, type Tolerance } from '@evenhand/core/tempo';
import type { MeasuredTake } from '../worker/protocol.ts';

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
 */
export function heardBlock(
  block: SessionBlock,
  reading: Reading<MeasuredTake>,
  { tolerance = 'medium', shapes = [], earlier = [] }: Judged & { readonly earlier?: readonly TempoResult[] } = {},
): Heard {
  const { tempoBpm, cycle, capBpm } = block;
  if (!reading.value) {
    const { nextTempoBpm, reason } = nextTempo([], tempoBpm);
    return { said: reading.problems[0] ?? notHeard, clean: 0, runs: 0, nextTempoBpm, why: reason };
  }
  const { measurement, findings } = reading.value;
  const { clean, runs } = cleanRuns(measurement, { cycle, tolerance, shapes });
  const { nextTempoBpm, reason } = runs > 0 ? standsAt([...earlier, { tempoBpm, clean, runs }], { capBpm }) : nextTempo([], tempoBpm);
  return { said: findings[0] ?? notHeard, clean, runs, nextTempoBpm, why: reason };
}

const notHeard: SessionStatement = { code: 'block-not-heard', params: {} };
