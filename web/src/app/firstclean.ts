/** The first round of an exercise at its tempo in which all was clean: kept to be heard, of an evening the fastest alone. */
import type { NotePart } from '@evenhand/core/diary';
import type { Heard, SessionBlock, SessionState } from '@evenhand/core/session';
import type { TempoResult } from '@evenhand/core/tempo';
import { countsForWork } from './results.ts';
import type { SessionPages } from './sessionpages.ts';

/** A round of fewer runs is clean by chance. Assumption. */
const FEWEST_RUNS = 4;

type Counted = Pick<TempoResult, 'clean' | 'runs'>;

/**
 * Whether a round is the first at its tempo of which every run was clean, of an exercise that was played before.
 * @param before what came of it until then: single rounds, or several taken together.
 */
export function isFirstClean({ clean, runs }: Counted, tempoBpm: number, before: readonly TempoResult[]): boolean {
  return runs >= FEWEST_RUNS && clean === runs && before.length > 0 && !before.some((one) => one.tempoBpm >= tempoBpm && hadCleanRound(one, runs));
}

/** Whether rounds taken together must have had a clean one: fewer runs failed than there were rounds (the pigeonhole principle). */
function hadCleanRound({ clean, runs }: Counted, runsOfRound: number): boolean {
  const rounds = Math.max(1, Math.floor(runs / runsOfRound));
  return runs >= FEWEST_RUNS && runs - clean < rounds;
}

/** What was heard of each round of an exercise in this session. */
export const roundsSoFar = ({ blocks, glances }: SessionState, { exercise }: SessionBlock): readonly TempoResult[] =>
  glances
    .filter(({ block }) => blocks[block]?.exercise.id === exercise.id)
    .map(({ tempoBpm, heard }) => ({ tempoBpm, clean: heard.clean, runs: heard.runs }));

interface PlayedRound {
  /** With the tempo at which it was played. */
  readonly block: SessionBlock;
  readonly heard: Heard;
  readonly before: readonly TempoResult[];
  /** Where it lies in its take. */
  readonly part: NotePart;
}

/** @returns to be told of every round. */
export function keepFirstClean(pages: Pick<SessionPages, 'keep' | 'letGo'>): (round: PlayedRound) => void {
  const kept = new Map<string, NotePart>();
  return ({ block, heard, before, part }) => {
    if (!countsForWork(block) || !isFirstClean(heard, block.tempoBpm, before)) return;
    const slower = kept.get(block.exercise.id);
    if (slower) pages.letGo(slower);
    pages.keep(part, block, 'first-clean-kept');
    kept.set(block.exercise.id, part);
  };
}
