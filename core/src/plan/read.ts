/** A plan from JSON that may have been kept in a file, edited by hand or cut off: checked here, trusted everywhere else. */
import { isDay, type Weekday, weekdayOf } from '../day.ts';
import type { Reading } from '../problem.ts';
import { readClickWay } from '../session/index.ts';
import { closingFamilies } from './closing.ts';
import type { BlockPart, Plan, PlannedBlock, PlannedSession } from './plan.ts';
import type { PlanProblem } from './said.ts';

/**
 * Reads a plan. Never throws. Fields that are not known stay where they are, so that a session that is past is kept as it was written.
 * @param json what `JSON.parse` gave: an object with `sessions`; `weekdays`, `away`, `replaces` and `closing` may be missing, then the days
 *   of the week are those of the sessions.
 * @returns sessions by date; null with a problem that names the first session that cannot be read, counted from 1.
 */
export function readPlan(json: unknown): Reading<Plan, PlanProblem> {
  const sessions = isObject(json) && Array.isArray(json.sessions) ? (json.sessions as readonly unknown[]) : null;
  if (!sessions || !isObject(json)) return refused({ code: 'plan-not-a-plan', severity: 'refused', params: {} });
  const wrong = sessions.findIndex((session) => !isSession(session));
  if (wrong >= 0) return refused({ code: 'plan-session-unreadable', severity: 'refused', params: { session: wrong + 1 } });
  const read = (sessions as readonly PlannedSession[]).map(withReadClicks).sort((a, b) => (a.date < b.date ? -1 : 1));
  const twice = read.find(({ date }, k) => k > 0 && read[k - 1]!.date === date);
  if (twice) return refused({ code: 'plan-day-twice', severity: 'refused', params: { date: twice.date } });
  const weekdays = listOf(json.weekdays, isWeekday) ?? [...new Set(read.map(({ date }) => weekdayOf(date)))].sort((a, b) => a - b);
  const replaces = typeof json.replaces === 'string' ? json.replaces : null;
  const closing = Array.isArray(json.closing) ? { closing: closingFamilies(json.closing) } : {};
  return { value: { replaces, weekdays, away: listOf(json.away, isDate) ?? [], sessions: read, ...closing }, problems: [] };
}

const refused = (problem: PlanProblem): Reading<Plan, PlanProblem> => ({ value: null, problems: [problem] });

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> => typeof value === 'object' && value !== null;
const isDate = (value: unknown): value is string => typeof value === 'string' && isDay(value);
const isPositive = (value: unknown): boolean => typeof value === 'number' && Number.isFinite(value) && value > 0;
const isWeekday = (value: unknown): value is Weekday => Number.isInteger(value) && (value as number) >= 1 && (value as number) <= 7;
const isStatement = (value: unknown): boolean => isObject(value) && typeof value.code === 'string' && isObject(value.params);

/** The list when every entry fits and there is one at least; else null. */
function listOf<Item>(value: unknown, fits: (entry: unknown) => entry is Item): readonly Item[] | null {
  return Array.isArray(value) && value.length > 0 && value.every((entry) => fits(entry)) ? value : null;
}

const isSession = (value: unknown): boolean =>
  isObject(value) && isDate(value.date) && isPositive(value.minutes) && Array.isArray(value.blocks) && value.blocks.every(isBlock);

/** What cannot be clicked so is clicked on every beat; a session without a click stays the object it was. */
function withReadClicks(session: PlannedSession): PlannedSession {
  if (!session.blocks.some((block) => 'click' in block || 'fewerClicks' in block)) return session;
  const blocks = session.blocks.map(({ click: written, fewerClicks, ...block }) => {
    const click = readClickWay(written);
    return { ...block, ...(click ? { click } : {}), ...(fewerClicks === true ? { fewerClicks } : {}) };
  });
  return { ...session, blocks };
}

const PARTS: readonly BlockPart[] = ['warmUp', 'reference', 'work', 'use'];

function isBlock(value: unknown): value is PlannedBlock {
  if (!isObject(value) || typeof value.exerciseId !== 'string' || !PARTS.includes(value.part as BlockPart)) return false;
  return isPositive(value.minutes) && isPositive(value.tempoBpm) && [value.aim, value.reason, value.tempoReason].every(isStatement);
}
