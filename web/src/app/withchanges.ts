/** Changes of set-up among what a table or a plot shows over the days. */
import type { SetupChange } from '@evenhand/core/progress';
import { courseLabels } from './labelscourse.ts';

/** A row of a table: one of a day or a week, or a change of set-up. */
export interface ChangedRow<One> {
  readonly day: string;
  readonly one: One | null;
  readonly change: SetupChange | null;
}

/** Those of days or weeks with the changes among them, the latest first; on the day of a change what was played with it stands above. */
export const withChanges = <One>(those: readonly One[], dayOf: (one: One) => string, changes: readonly SetupChange[]): readonly ChangedRow<One>[] =>
  [...those.map((one) => ({ day: dayOf(one), one, change: null })), ...changes.map((change) => ({ day: change.day, one: null, change }))].sort(
    (a, b) => (a.day === b.day ? Number(a.one === null) - Number(b.one === null) : a.day < b.day ? 1 : -1),
  );

/** Changes as a plot marks them. */
export const marksOf = (changes: readonly SetupChange[]) => changes.map((change) => ({ day: change.day, label: courseLabels.became(change) }));
