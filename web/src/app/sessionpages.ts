/** What a session leaves in the diary: a record when it begins, one per block as it ends, and how it ended. */
import {
  type BlockBody,
  type DiaryRecord,
  deletionOf,
  type EditBody,
  editOf,
  type KnownRecord,
  type NotePart,
  type RecordDraft,
} from '@evenhand/core/diary';
import type { Problem } from '@evenhand/core/problem';
import { minutesOf, type SessionBlock, type SessionSummary } from '@evenhand/core/session';
import type { Store } from '../store/store.ts';
import { type BlockPage, blockBody, editsTo, joined } from './blockpage.ts';
import type { CutOff } from './cutoff.ts';
import type { Room } from './room.ts';
import { say } from './said.ts';

/** Asked for, or the first round at its tempo in which all was clean. */
export type KeptBecause = 'idea-kept' | 'first-clean-kept';

export interface SessionPages {
  readonly sessionId: string;
  /** Keeps the block that runs as far as it was played, aside of the diary: what is there of it should the page be killed. */
  soFar(page: BlockPage): void;
  /** Writes a block, or what changed since it was written. */
  block(page: BlockPage): void;
  /** Writes that a stretch of a take is to be kept, as an idea or because nothing was cleaner before; or takes an idea back. */
  keep(part: NotePart, block: SessionBlock, why: KeptBecause): void;
  letGo(part: NotePart): void;
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
    readonly goesOn?: Pick<CutOff, 'session' | 'nextPosition' | 'begun'> | null;
    readonly onProblems: (problems: readonly Problem[]) => void;
  },
): SessionPages {
  const { goesOn = null } = options;
  const sessionId = goesOn?.session.id ?? room.newId();
  /** Blocks as they stand in the diary, by place; a block that was begun before the session was cut off goes on in its record. */
  const blocks = new Map<number, KnownRecord<'block'>>(goesOn?.begun ? [[0, goesOn.begun]] : []);
  const ids = new Map<number, string>();
  /** Ideas by the stretch they are. */
  const kept = new Map<string, DiaryRecord>();
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
    const { block } = page.outcome;
    const body = bodyOf(page);
    const known = blocks.get(block);
    const drafts = known ? editsTo(known, body).map(edit) : [{ kind: 'block' as const, id: idOf(block), ...now(), body }];
    const [written] = drafts.length > 0 ? await append(drafts) : [];
    if (written) blocks.set(block, known ? { ...known, body } : (written as KnownRecord<'block'>));
  }

  function idOf(block: number): string {
    const id = blocks.get(block)?.id ?? ids.get(block) ?? room.newId();
    ids.set(block, id);
    return id;
  }

  function bodyOf(page: BlockPage): BlockBody {
    const body = blockBody(page, { sessionId, before: goesOn?.nextPosition ?? 0 });
    return page.outcome.block === 0 && goesOn?.begun ? joined(goesOn.begun.body, body) : body;
  }

  async function keepSoFar(page: BlockPage): Promise<void> {
    const body = { ...bodyOf(page), unfinished: true };
    const kept = await store?.keepSoFar({ kind: 'block', id: idOf(page.outcome.block), ...now(), body });
    options.onProblems(kept?.problems ?? []);
  }

  async function writeKept(part: NotePart, { exercise, tempoBpm }: SessionBlock, code: KeptBecause): Promise<void> {
    const text = say({ code, params: { tempoBpm, perBeat: exercise.perBeat, sticking: exercise.sticking } });
    const [written] = await append([{ kind: 'note', ...now(), body: { text, sessionId, part } }]);
    if (written) kept.set(JSON.stringify(part), written);
  }

  async function writeLetGo(part: NotePart): Promise<void> {
    const written = kept.get(JSON.stringify(part));
    if (written) await append([edit(deletionOf(written))]);
  }

  async function writeEnd(summary: SessionSummary, atMs: number): Promise<void> {
    if (!session) return;
    const ended = summary.hurt ? 'hurt' : summary.stoppedEarly ? 'stopped' : 'done';
    await append([edit(editOf(session, 'ended', ended)), edit(editOf(session, 'endedAtMs', atMs))]);
  }

  if (!goesOn) inTurn(begin);
  return {
    sessionId,
    soFar: (page) => inTurn(() => keepSoFar(page)),
    block: (page) => inTurn(() => writeBlock(page)),
    keep: (part, block, why) => inTurn(() => writeKept(part, block, why)),
    letGo: (part) => inTurn(() => writeLetGo(part)),
    end(summary) {
      const { atMs } = now();
      inTurn(() => writeEnd(summary, atMs));
    },
    written: () => queue,
  };
}
