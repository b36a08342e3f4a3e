/** Where what is played with became another than before: marked on plots, and told beside a jump. */
import { addDays, daysBetween } from '../day.ts';
import type { SetupBody } from '../diary/index.ts';
import { BESIDE_DAYS, DAYS_AWAY_ALLOWED } from './parameters.ts';
import type { CourseBeside, CourseJump } from './saidcourse.ts';

/** What was said of a set-up from a day on. */
export interface SaidSetup {
  /** Practice day `YYYY-MM-DD`. */
  readonly day: string;
  readonly body: SetupBody;
}

/** What changed from a day on: fields of the set-up, and what is said of each now. */
export interface SetupChange {
  readonly day: string;
  readonly names: readonly string[];
  readonly values: readonly string[];
}

const FIELDS = ['sticks', 'drums', 'pedal', 'heel', 'phonePlace'] as const satisfies readonly (keyof SetupBody)[];

/** Every change, ascending. What is said for the first time, or no longer, is none. @param setups in order of time. */
export const setupChanges = (setups: readonly SaidSetup[]): readonly SetupChange[] =>
  setups.flatMap(({ day, body }, k) => {
    const before = setups[k - 1]?.body;
    const names = before ? FIELDS.filter((name) => body[name] !== before[name] && body[name] !== '' && before[name] !== '') : [];
    return names.length > 0 ? [{ day, names, values: names.map((name) => body[name]) }] : [];
  });

/**
 * What else was different around the days between which a jump came: a change of set-up, and days away just before it. No cause is claimed.
 * @param practisedDays days on which anything was practised, in any order.
 */
export function besideJump(
  { params }: CourseJump,
  { changes, practisedDays }: { readonly changes: readonly SetupChange[]; readonly practisedDays: readonly string[] },
): readonly CourseBeside[] {
  const [from, to] = [addDays(params.fromDay, -BESIDE_DAYS), params.toDay];
  const near = changes.filter(({ day }) => day >= from && day <= to);
  const before = [...practisedDays].filter((day) => day < params.day).sort();
  const days = before.length > 0 ? daysBetween(before.at(-1)!, params.day) - 1 : 0;
  return [
    ...near.map((change): CourseBeside => ({ code: 'course-beside-setup', params: { ...change } })),
    ...(days > DAYS_AWAY_ALLOWED ? [{ code: 'course-beside-away', params: { days } } as const] : []),
  ];
}
