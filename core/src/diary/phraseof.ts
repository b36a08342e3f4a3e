/** Which phrase a session counts for: practice written down by hand names none itself. */
import type { DiaryView } from './fold.ts';
import type { KnownRecord } from './record.ts';

/**
 * Id of the sticking point that a session counts for: the one it names, else the only one that was open on its day; null where none was, or several.
 * @param points with their edits applied: of a state only the last change is known, so one that was opened again counts as open all along.
 */
export function phraseOfSession({ day, body }: KnownRecord<'session'>, points: DiaryView['stickingPoints']): string | null {
  if (body.stickingPointId !== null) return body.stickingPointId;
  const open = points.filter((point) => isOpenOn(point, day));
  return open.length === 1 ? open[0]!.id : null;
}

/** Whether a sticking point was worked on at a day: begun, and not closed or put aside before. */
export const isOpenOn = ({ day: begun, body: { state } }: KnownRecord<'stickingPoint'>, day: string): boolean =>
  begun <= day && (!state || state.is === 'open' || day <= state.day);
