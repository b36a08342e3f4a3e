/** What of a block stands in the diary, what changes it there, and how one that was cut off goes on in its record. */
import { type BlockBody, type EditBody, editOf, type KnownRecord, type SavedHeard, type SavedTempoRuns } from '@evenhand/core/diary';
import type { BlockOutcome, SessionBlock } from '@evenhand/core/session';
import type { MeasuredTake } from '../worker/protocol.ts';
import { wordFor } from './ownword.ts';
import { promisesTempo } from './results.ts';
import { savedExercise } from './savedplan.ts';

export interface BlockPage {
  readonly outcome: BlockOutcome;
  readonly block: SessionBlock;
  readonly takeIds: readonly string[];
  readonly measured: MeasuredBlock | null;
}

/** What of a measured take is written with its block. Without its strokes, so that a long session does not gather them. */
export type MeasuredBlock = Pick<SavedHeard, 'trackedBpm' | 'offsetMs' | 'places' | 'pairs' | 'findings'>;

export function measuredBlock({ measurement, findings }: MeasuredTake): MeasuredBlock {
  const { trackedBpm, offsetMs, places, pairs } = measurement;
  return { trackedBpm, offsetMs, places, pairs, findings };
}

/** What leads from a block as it stands in the diary to another body of it. */
export function editsTo(known: KnownRecord<'block'>, body: BlockBody): readonly EditBody[] {
  // What was known of single rounds gives way to what is known of the whole.
  const next = known.body.stretches ? { stretches: [], ...body } : body;
  const changed = CHANGING.filter((field) => next[field] !== undefined && JSON.stringify(next[field]) !== JSON.stringify(known.body[field]));
  return changed.map((field) => editOf(known, field, next[field]));
}

const CHANGING = ['durationSec', 'takeIds', 'heard', 'nextTempo', 'playerSays', 'playerRounds', 'stretches', 'unfinished'] as const;

/** A block that was cut off, and what was played of it afterwards. */
export function joined(before: BlockBody, after: BlockBody): BlockBody {
  const [first, then] = [before.playerRounds, after.playerRounds];
  const rounds = first && then ? { hadIt: first.hadIt + then.hadIt, again: first.again + then.again } : (then ?? first);
  return {
    ...after,
    durationSec: before.durationSec + after.durationSec,
    takeIds: [...before.takeIds, ...after.takeIds],
    ...(rounds ? { playerRounds: rounds, playerSays: wordFor(rounds) } : {}),
    ...(before.stretches?.length ? { stretches: gathered([...before.stretches, ...stretchesIn(after)]) } : {}),
    unfinished: false,
  };
}

/** Those at one tempo after each other as one. */
function gathered(stretches: readonly SavedTempoRuns[]): readonly SavedTempoRuns[] {
  const all: SavedTempoRuns[] = [];
  for (const next of stretches) {
    const last = all.at(-1);
    const goesOn = last?.tempoBpm === next.tempoBpm && last.byEar === next.byEar;
    if (goesOn) all.pop();
    all.push(goesOn ? { ...next, clean: last.clean + next.clean, runs: last.runs + next.runs } : next);
  }
  return all;
}

/** Each tempo of a block with its runs, by ear or by the player's word. */
function stretchesIn({ stretches, heard, playerRounds, tempoBpm }: BlockBody): readonly SavedTempoRuns[] {
  if (stretches) return stretches;
  if (heard && heard.runCount > 0) return [{ tempoBpm, clean: heard.cleanRunCount, runs: heard.runCount, byEar: true }];
  const { hadIt, again } = playerRounds ?? { hadIt: 0, again: 0 };
  return hadIt + again > 0 ? [{ tempoBpm, clean: hadIt, runs: hadIt + again, byEar: false }] : [];
}

/** @param place the session, and how many of its blocks lie before those that run now. */
export function blockBody(
  { outcome, block, takeIds, measured }: BlockPage,
  place: { readonly sessionId: string; readonly before: number },
): BlockBody {
  const playerSays = wordFor(outcome.rounds);
  return {
    sessionId: place.sessionId,
    position: place.before + (block.place ?? outcome.block),
    exercise: savedExercise(block.exercise),
    tempoBpm: outcome.tempoBpm,
    durationSec: outcome.playedSec,
    takeIds,
    heard: savedHeard(outcome, measured),
    ...stretchesToKeep(outcome),
    playerSays,
    ...(playerSays ? { playerRounds: outcome.rounds } : {}),
    // The tempo of a reference take is the same every week.
    nextTempo: outcome.heard && promisesTempo(block) ? { tempoBpm: outcome.heard.nextTempoBpm, reason: outcome.heard.why } : null,
    reason: block.reason,
  };
}

/** Where the tempo moved, each; while nothing of the whole is known, what is known of its rounds. */
function stretchesToKeep({ heard, glanced }: BlockOutcome): Pick<BlockBody, 'stretches'> {
  const stretches = heard ? (heard.stretches ?? []) : glanced;
  return stretches.length > 0 ? { stretches } : {};
}

function savedHeard(outcome: BlockOutcome, measured: MeasuredBlock | null): SavedHeard | null {
  if (!outcome.heard || !measured) return null;
  const { clean, runs } = outcome.heard;
  return { ...measured, cleanRunCount: clean, runCount: runs, problems: [] };
}
