/** How weak a candidate may be and still be taken for a stroke where one is expected. */
import type { Candidate } from '../stroke/index.ts';
import type { EventCycle } from './events.ts';
import type { MatchOptions } from './matching.ts';
import { GATE_FLOOR } from './parameters.ts';

export function gateOf(_candidates: readonly Candidate[], _cycle: EventCycle, _asked: Omit<MatchOptions, 'gate'>): number {
  return GATE_FLOOR;
}
