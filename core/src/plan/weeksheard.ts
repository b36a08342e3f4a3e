/** What was heard over the weeks of a plan: the clean tempo then and now, what changed in the strokes, and in the set-up. */
import type { DiaryView } from '../diary/index.ts';
import {
  blocksOf,
  fastestWithTwoDays,
  linesDiffer,
  referenceTake,
  setupChanges,
  tempoCourse,
  tempoCurve,
  thenAndNow,
  volumesThenAndNow,
} from '../progress/index.ts';
import type { WeeksPlan } from './weeksplan.ts';
import type { OnWeeksPage } from './weekssaid.ts';

/** Changes that are told at most, so that the page stays one sheet. Assumption. */
const MOST_CHANGES = 5;
const MOST_SETUPS = 2;

/** Clean tempo and changes; one sentence when nothing is known of either. */
export function weeksHeard(plan: WeeksPlan, view: DiaryView): OnWeeksPage[] {
  const tempo = tempoThenAndNow(plan);
  const changes = changesHeard(plan, view);
  return tempo.length + changes.length === 0 ? [{ code: 'weeks-nothing-heard', params: {} }] : [...tempo, ...changes];
}

function tempoThenAndNow({ phrase, results, from, end }: WeeksPlan): OnWeeksPage[] {
  if (!phrase) return [];
  const upToEnd = results.filter(({ day }) => day <= end);
  const points = tempoCurve(upToEnd, phrase.id, { from });
  const known = points.flatMap(({ day, estimate }) => (estimate.known ? [{ day, estimate }] : []));
  const last = points.at(-1)?.estimate;
  if (known.length === 0) return last && !last.known ? [last.why] : [];
  const told = ({ day, estimate: { median, low90, high90 } }: (typeof known)[number]) => ({
    ...{ day, perBeat: phrase.perBeat, bpm: Math.round(median), lowBpm: Math.round(low90), highBpm: Math.round(high90) },
  });
  return [
    ...(known.length > 1 ? [{ code: 'weeks-tempo-then', params: told(known[0]!) } as const] : []),
    { code: 'weeks-tempo-now', params: told(known.at(-1)!) },
    ...tempoCourse(
      upToEnd.filter(({ day }) => day >= from),
      phrase,
    ).said,
  ];
}

function changesHeard({ phrase, from, end }: WeeksPlan, view: DiaryView): OnWeeksPage[] {
  const own = blocksOf(view).filter(({ day, body }) => day >= from && day <= end && body.exercise.id === phrase?.id);
  if (!own.some(({ body }) => body.heard)) return [];
  const takes = fastestWithTwoDays(own);
  if (!takes) return [{ code: 'weeks-no-takes', params: {} }];
  const [then, now] = [takes[0]!, takes.at(-1)!];
  const pair = [referenceTake(then, view), referenceTake(now, view)] as const;
  const { tempoBpm, exercise } = now.body;
  const changed = thenAndNow(...pair).said;
  const said = [...changed, ...linesDiffer(then, now, changed), ...volumesThenAndNow(...pair).said].slice(0, MOST_CHANGES);
  return [{ code: 'weeks-takes', params: { thenDay: then.day, nowDay: now.day, tempoBpm, perBeat: exercise.perBeat } }, ...said];
}

/** Where what is played with became another than what was said before: the latest changes, or that there was none. */
export function setupsChanged({ from, end }: WeeksPlan, { setups }: DiaryView): OnWeeksPage[] {
  const changes = setupChanges(setups).filter(({ day }) => day >= from && day <= end);
  if (changes.length === 0) return [{ code: 'weeks-setup-same', params: {} }];
  return changes.slice(-MOST_SETUPS).map((change) => ({ code: 'weeks-setup', params: { ...change } }));
}
