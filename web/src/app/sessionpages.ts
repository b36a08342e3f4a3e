/** What a session leaves in the diary: a record when it begins, one per block as it ends, and how it ended. */
import { type BlockBody, type DiaryRecord, type EditBody, editOf, type KnownRecord, type RecordDraft, type SavedHeard } from '@evenhand/core/diary';
import type { Problem } from '@evenhand/core/problem';
import { type BlockOutcome, minutesOf, type SessionBlock, type SessionSummary } from '@evenhand/core/session';
import type { Store } from '../store/store.ts';
import type { MeasuredTake } from '../worker/protocol.ts';
import type { CutOff } from './cutoff.ts';
import { wordFor } from './ownword.ts';
import type { Room } from './room.ts';
import { savedExercise } from './savedplan.ts';

export interface BlockPage {
  readonly outcome: BlockOutcome;
  readonly block: SessionBlock;
  readonly takeIds: readonly string[];
  readonly measured: MeasuredTake | null;
}

export interface SessionPages {
  readonly sessionId: string;
  /** Writes a block, or what changed since it was written. */
  block(page: BlockPage): void;
  end(summary: SessionSummary): void;
  /** Settles when everything asked for so far is on the device. */
  written(): Promise<void>;
}

/**
 * Begins the pages of a session. Writing goes on behind the playing; what goes wrong is told.
 * @param store null when the browser keeps nothing: the session runs all the same.
 */
export function sessionPages(
  room: Room,
  store: Store | null,
  options: {
    readonly blocks: readonly SessionBlock[];
    readonly stickingPointId: string | null;
    /** A session that was cut off and goes on here: its blocks to come follow those it has. */
    readonly goesOn?: Pick<CutOff, 'session' | 'nextPosition'> | null;
    readonly onProblems: (problems: readonly Problem[]) => void;
  },
): SessionPages {
  const { goesOn = null } = options;
  const sessionId = goesOn?.session.id ?? room.newId();
  const blocks = new Map<number, KnownRecord<'block'>>();
  const now = () => room.writtenNow();
  let session: KnownRecord<'session'> | null = goesOn?.session ?? null;
  let queue: Promise<void> = Promise.resolve();

  async function append(drafts: readonly RecordDraft[]): Promise<readonly DiaryRecord[]> {
    const written = await store?.append(drafts);
    options.onProblems(written?.problems ?? []);
    return written?.value ?? [];
  }
  const inTurn = (write: () => Promise<void>): void => {
    queue = queue.then(write);
  };
  const edit = (body: EditBody): RecordDraft => ({ kind: 'edit', ...now(), body });

  async function begin(): Promise<void> {
    const body = { stickingPointId: options.stickingPointId, plannedMinutes: minutesOf(options.blocks), endedAtMs: null, ended: null, reason: null };
    const [written] = await append([{ id: sessionId, kind: 'session', ...now(), body }]);
    session = (written as KnownRecord<'session'> | undefined) ?? null;
  }

  async function writeBlock(page: BlockPage): Promise<void> {
    const body = blockBody(page, { sessionId, before: goesOn?.nextPosition ?? 0 });
    const known = blocks.get(page.outcome.block);
    if (known) {
      const { heard, nextTempo, playerSays, playerRounds } = body;
      const word = playerSays ? [edit(editOf(known, 'playerSays', playerSays)), edit(editOf(known, 'playerRounds', playerRounds))] : [];
      await append([edit(editOf(known, 'heard', heard)), edit(editOf(known, 'nextTempo', nextTempo)), ...word]);
      return;
    }
    const [written] = await append([{ kind: 'block', ...now(), body }]);
    if (written) blocks.set(page.outcome.block, written as KnownRecord<'block'>);
  }

  async function writeEnd(summary: SessionSummary, atMs: number): Promise<void> {
    if (!session) return;
    const ended = summary.hurt ? 'hurt' : summary.stoppedEarly ? 'stopped' : 'done';
    await append([edit(editOf(session, 'ended', ended)), edit(editOf(session, 'endedAtMs', atMs))]);
  }

  if (!goesOn) inTurn(begin);
  return {
    sessionId,
    block: (page) => inTurn(() => writeBlock(page)),
    end(summary) {
      const { atMs } = now();
      inTurn(() => writeEnd(summary, atMs));
    },
    written: () => queue,
  };
}

/** @param place the session, and how many of its blocks lie before those that run now. */
function blockBody({ outcome, block, takeIds, measured }: BlockPage, place: { readonly sessionId: string; readonly before: number }): BlockBody {
  const playerSays = wordFor(outcome.rounds);
  return {
    sessionId: place.sessionId,
    position: place.before + outcome.block,
    exercise: savedExercise(block.exercise),
    tempoBpm: outcome.tempoBpm,
    durationSec: outcome.playedSec,
    takeIds,
    heard: savedHeard(outcome, measured),
    playerSays,
    ...(playerSays ? { playerRounds: outcome.rounds } : {}),
    // The tempo of a reference take is the same every week.
    nextTempo: outcome.heard && !block.fixedTempo ? { tempoBpm: outcome.heard.nextTempoBpm, reason: outcome.heard.why } : null,
    reason: block.reason,
  };
}

function savedHeard(outcome: BlockOutcome, measured: MeasuredTake | null): SavedHeard | null {
  if (!outcome.heard || !measured) return null;
  const { trackedBpm, offsetMs, places, pairs } = measured.measurement;
  const { clean, runs } = outcome.heard;
  return { trackedBpm, offsetMs, places, pairs, cleanRunCount: clean, runCount: runs, findings: measured.findings, problems: [] };
}
