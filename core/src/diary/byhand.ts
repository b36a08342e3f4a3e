/** Practice without the tool, written down afterwards. */
import { ParameterError } from '../errors.ts';
import type { Statement } from '../problem.ts';
import { msOfMinutes, secOfMs } from '../units.ts';
import type { Felt, KnownRecord, RecordDraft } from './record.ts';

/** Why a session has no blocks. */
export type ByHandStatement = Statement<'session-by-hand', Record<string, never>>;

const BY_HAND: ByHandStatement = { code: 'session-by-hand', params: {} };

/** What the player says of it. */
export interface ByHandEntry {
  /** Practice day `YYYY-MM-DD`; it counts, whatever `atMs` says. */
  readonly day: string;
  /** When it began, milliseconds since 1970, as far as known. */
  readonly atMs: number;
  readonly zone: string;
  /** Minutes played, null when only a note is written. */
  readonly minutes: number | null;
  /** null when only minutes are written. */
  readonly note: string | null;
  /** How it felt; a note without text holds it where nothing else was said. */
  readonly felt?: Felt | null;
}

/**
 * The drafts of an entry by hand: a session of that length for the minutes, a note for the text, the note naming the session.
 * @param sessionId id for the session (`recordId`).
 * Throws ParameterError when there are neither minutes nor a note.
 */
export function draftsByHand({ day, atMs, zone, minutes, note, felt = null }: ByHandEntry, sessionId: string): readonly RecordDraft[] {
  if (minutes === null && note === null) throw new ParameterError('entry', 'empty', 'minutes, a note, or both');
  const when = { atMs, zone, day };
  const session: RecordDraft[] =
    minutes === null
      ? []
      : [
          {
            ...when,
            kind: 'session',
            id: sessionId,
            body: { stickingPointId: null, plannedMinutes: minutes, endedAtMs: atMs + msOfMinutes(minutes), ended: 'done', reason: BY_HAND },
          },
        ];
  const said = { text: note ?? '', sessionId: minutes === null ? null : sessionId, ...(felt === null ? {} : { felt }) };
  const notes: RecordDraft[] = note === null && felt === null ? [] : [{ ...when, kind: 'note', body: said }];
  return [...session, ...notes];
}

/** Whether a session was written down by hand. */
export const isByHand = ({ body }: KnownRecord<'session'>): boolean => body.reason?.code === BY_HAND.code;

/** Seconds of a session that was written down by hand, from its own times; 0 for any other. */
export const secondsByHand = (session: KnownRecord<'session'>): number =>
  isByHand(session) && session.body.endedAtMs !== null ? secOfMs(Math.max(0, session.body.endedAtMs - session.atMs)) : 0;
