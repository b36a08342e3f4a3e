/** The diary as a table for a spreadsheet, one row an entry: `docs/formats/diary-table.md`. */
import { defused, writeCsv } from '../csv.ts';
import { minutesOfSec, secOfMs } from '../units.ts';
import { isByHand } from './byhand.ts';
import type { DiaryView, SessionEntry } from './fold.ts';
import type { BlockBody, KnownRecord } from './record.ts';

/** Columns in the order in which they are written. */
export const TABLE_COLUMNS = [
  'day',
  'minutes',
  'text',
  'felt',
  'sticking',
  'perBeat',
  'tempoBpm',
  'clean',
  'runs',
  'by',
  'drums',
  'meter',
  'family',
  'ended',
  'kind',
  'at',
  'zone',
  'id',
  'session',
] as const;

export type TableColumn = (typeof TABLE_COLUMNS)[number];
type Cells = Partial<Record<TableColumn, string>>;

/** Sessions with their blocks, and notes, the earliest day first. It begins with a byte order mark, which tells spreadsheets that it is UTF-8. */
export function writeTable({ days }: DiaryView): string {
  const rows = [...days]
    .reverse()
    .flatMap(({ sessions, notes, loose }) => [
      ...sessions.flatMap(sessionRows),
      ...loose.flatMap((part) => (part.kind === 'block' ? [blockRow(part)] : [])),
      ...notes.map(noteRow),
    ]);
  return `\uFEFF${writeCsv([TABLE_COLUMNS, ...rows.map((cells) => TABLE_COLUMNS.map((column) => defused(cells[column] ?? '')))])}`;
}

function sessionRows({ session, blocks }: SessionEntry): readonly Cells[] {
  const { endedAtMs, ended } = session.body;
  const minutes = endedAtMs === null ? '' : minutesOf(secOfMs(endedAtMs - session.atMs));
  return [{ ...envelope(session), kind: 'session', minutes, by: isByHand(session) ? 'hand' : '', ended: ended ?? '' }, ...blocks.map(blockRow)];
}

function blockRow(block: KnownRecord<'block'>): Cells {
  const { sessionId, exercise, durationSec } = block.body;
  const { sticking, perBeat, surfaces, meter, family } = exercise;
  return {
    ...envelope(block),
    ...resultOf(block),
    kind: 'block',
    session: sessionId,
    minutes: minutesOf(durationSec),
    sticking,
    perBeat: String(perBeat),
    drums: surfaces.join(' '),
    meter: `${meter.beats}/${meter.unit}`,
    family,
  };
}

/** Tempo and clean runs by ear, else rounds by the player's word; of several tempi the one with most of them, the later of two alike. */
function resultOf({ body }: KnownRecord<'block'>): Cells {
  const { tempoBpm, stretches = [] } = body;
  const [most] = [...stretches].reverse().sort((a, b) => b.runs - a.runs);
  if (!most) return { tempoBpm: String(tempoBpm), ...countsOf(body) };
  return { tempoBpm: String(most.tempoBpm), clean: String(most.clean), runs: String(most.runs), by: most.byEar ? 'ear' : 'word' };
}

function countsOf({ heard, playerRounds, playerSays }: BlockBody): Cells {
  if (heard && heard.runCount > 0) return { clean: String(heard.cleanRunCount), runs: String(heard.runCount), by: 'ear' };
  if (playerRounds && playerRounds.hadIt + playerRounds.again > 0)
    return { clean: String(playerRounds.hadIt), runs: String(playerRounds.hadIt + playerRounds.again), by: 'word' };
  return playerSays === null ? {} : { clean: playerSays === 'hadIt' ? '1' : '0', runs: '1', by: 'word' };
}

const noteRow = (note: KnownRecord<'note'>): Cells => ({
  ...envelope(note),
  kind: 'note',
  text: note.body.text,
  felt: note.body.felt ?? '',
  session: note.body.sessionId ?? '',
});

const envelope = ({ id, day, atMs, zone }: KnownRecord): Cells => ({ id, day, at: new Date(Math.round(atMs)).toISOString(), zone });

/** Up to four decimals: a hundredth of a second. */
const minutesOf = (sec: number): string => String(Math.round(minutesOfSec(Math.max(0, sec)) * 1e4) / 1e4);
