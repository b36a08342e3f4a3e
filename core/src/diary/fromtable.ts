/** Rows of a table become records of a diary; nothing that is there already is changed. */

import { msOfMinutes, secOfMinutes } from '../units.ts';
import { draftsByHand } from './byhand.ts';
import type { TableRow } from './readtable.ts';
import type { RecordDraft } from './record.ts';
import type { SavedHeard } from './saved.ts';

export interface FromTableOptions {
  /** Ids of all records that the diary has. */
  readonly known: ReadonlySet<string>;
  readonly newId: () => string;
  /** Zone of rows that name none. */
  readonly zone: string;
  /** A moment of a practice day in the zone here, for rows that tell none: its noon. */
  readonly noonOf: (day: string) => number;
}

/** What would come in. */
export interface FromTable {
  readonly drafts: readonly RecordDraft[];
  readonly sessionCount: number;
  readonly blockCount: number;
  readonly noteCount: number;
  /** Rows that are in the diary already. */
  readonly knownCount: number;
}

/** Drafts of the rows that the diary does not have. What was played by the tool comes with its figures, without single strokes and sound: those are in the backup. */
export function draftsOfTable(rows: readonly TableRow[], options: FromTableOptions): FromTable {
  const fresh = rows.filter(({ id }) => id === null || !options.known.has(id));
  const positions = new Map<string, number>();
  const drafts = fresh.flatMap((row) => draftsOf(row, options, positions));
  const count = (kind: RecordDraft['kind']) => drafts.filter((draft) => draft.kind === kind).length;
  return {
    drafts,
    sessionCount: count('session'),
    blockCount: count('block'),
    noteCount: count('note'),
    knownCount: rows.length - fresh.length,
  };
}

function draftsOf(row: TableRow, { newId, zone, noonOf }: FromTableOptions, positions: Map<string, number>): readonly RecordDraft[] {
  const when = { atMs: row.atMs ?? noonOf(row.day), zone: row.zone ?? zone, day: row.day };
  const id = row.id ?? newId();
  if (row.kind === null) return draftsByHand({ ...when, minutes: row.minutes, note: row.text === '' ? null : row.text, felt: row.felt }, id);
  if (row.kind === 'note')
    return [{ ...when, kind: 'note', id, body: { text: row.text, sessionId: row.sessionId, ...(row.felt === null ? {} : { felt: row.felt }) } }];
  if (row.kind === 'block') return [blockDraft(row, { ...when, id }, positions)];
  return [sessionDraft(row, { ...when, id })];
}

type When = Pick<RecordDraft, 'atMs' | 'zone' | 'day'> & { readonly id: string };

function sessionDraft({ minutes, ended, by }: TableRow, when: When): RecordDraft {
  const endedAtMs = minutes === null ? null : when.atMs + msOfMinutes(minutes);
  const body = { stickingPointId: null, plannedMinutes: minutes ?? 0, endedAtMs, ended, reason: null };
  return { ...when, kind: 'session', body: by === 'hand' ? { ...body, reason: { code: 'session-by-hand', params: {} } } : body };
}

function blockDraft(row: TableRow, when: When, positions: Map<string, number>): RecordDraft {
  const sessionId = row.sessionId ?? '';
  const position = positions.get(sessionId) ?? 0;
  positions.set(sessionId, position + 1);
  const [clean, runs] = [row.clean ?? 0, row.runs ?? 0];
  const byWord = row.by !== 'ear' && runs > 0;
  return {
    ...when,
    kind: 'block',
    body: {
      sessionId,
      position,
      exercise: row.exercise!,
      tempoBpm: row.tempoBpm!,
      durationSec: secOfMinutes(row.minutes ?? 0),
      takeIds: [],
      heard: row.by === 'ear' && runs > 0 ? counted(row.tempoBpm!, { clean, runs }) : null,
      playerSays: null,
      ...(byWord ? { playerRounds: { hadIt: clean, again: runs - clean } } : {}),
      nextTempo: null,
      reason: null,
    },
  };
}

/** Heard once, of which a table tells no more than how many runs were clean. */
const counted = (trackedBpm: number, { clean, runs }: { readonly clean: number; readonly runs: number }): SavedHeard => ({
  ...{ trackedBpm, offsetMs: null, places: [], pairs: [], cleanRunCount: clean, runCount: runs, findings: [], problems: [] },
});
