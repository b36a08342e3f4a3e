/** A plan for people: a paragraph a day, its blocks as a small table with aim and reason beside them. */
import type { WrittenBlock, WrittenSession } from './plan-file.ts';
import { table } from './table.ts';

/** @param sessions by date. */
export function planLines(sessions: readonly WrittenSession[]): string[] {
  return sessions.flatMap((session, i) => [...(i > 0 ? [''] : []), ...sessionLines(session)]);
}

const sessionLines = ({ date, minutes, blocks }: WrittenSession): string[] => [
  `${WEEKDAYS[new Date(`${date}T00:00:00Z`).getUTCDay()]} ${date}, ${minutes} minutes`,
  ...table(blocks.flatMap(rowsOf)),
];

const WEEKDAYS = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'] as const;

const rowsOf = ({ exerciseId, title, minutes, tempoBpm, aim, reason }: WrittenBlock): string[][] => [
  [`${minutes} min`, printable(title ?? exerciseId), `at ${tempoBpm}`, printable(aim)],
  ['', '', '', printable(reason)],
];

/** Text of a plan that came from elsewhere may hold orders for a terminal; they are left out. */
const printable = (text: string): string => text.replace(/\p{Cc}/gu, '');
