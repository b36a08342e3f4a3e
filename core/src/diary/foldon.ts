/** A view goes on: what is written later is added to it, and only the days that it touches are put together anew. */
import { compareRecords } from './clock.ts';
import { isDeleted, standingEdits } from './edit.ts';
import { type DiaryDay, type DiaryView, daysOf, foldRead, readOne, type ShownTake, type ToFold } from './fold.ts';
import { seriesOf } from './outline.ts';
import type { DiaryRecord, EditBody, KnownRecord } from './record.ts';

/** A view with what it takes to go on from it. */
export interface Folded {
  readonly view: DiaryView;
  /** In order of making. */
  readonly merged: readonly ToFold[];
  /** Grows: what goes on from here takes it over. */
  readonly byId: Map<string, ToFold>;
  readonly edits: ReadonlyMap<string, readonly EditBody[]>;
}

/** Folds everything. @param merged each record once, in order of making. */
export const foldAll = (merged: readonly ToFold[]): Folded => ({
  view: foldRead(merged),
  merged,
  byId: new Map(merged.map((one) => [one.record.id, one])),
  edits: standingEdits(merged.map(({ record }) => record)),
});

/**
 * The same as folding everything anew, in a fraction of the time where only sessions, blocks, takes, notes and corrections of them came.
 * @param more records that are not in it yet, in any order.
 * @returns null where everything must be folded anew: something of another kind, from elsewhere with an older stamp, or a session struck out.
 */
export function foldOn(before: Folded, more: readonly ToFold[]): Folded | null {
  if (more.length === 0) return before;
  const last = before.merged.at(-1);
  const coming = [...more].sort((a, b) => compareRecords(a.record, b.record));
  if (coming.some((one) => !isOfDays(one) || before.byId.has(one.record.id) || (last && compareRecords(one.record, last.record) <= 0))) return null;
  const { byId } = before;
  const edits = withEdits(before.edits, coming);
  const targets = coming.flatMap(({ record }) => (record.kind === 'edit' ? targetOf(record, [byId, coming]) : []));
  if (targets.some((one) => !isOfDays(one) || one.record.kind === 'edit' || isSessionStruck(one, [before.edits, edits]))) return null;
  for (const one of coming) byId.set(one.record.id, one);
  const changed = new Map([...coming, ...targets].filter(({ record }) => record.kind !== 'edit').map((one) => [one.record.id, one]));
  return { view: { ...before.view, days: daysWith(before, { byId, edits }, changed) }, merged: [...before.merged, ...coming], byId, edits };
}

type Standing = Pick<Folded, 'byId' | 'edits'>;
type Changed = ReadonlyMap<string, ToFold>;

const isOfDays = ({ record, as }: ToFold): boolean => as === 'checked' && seriesOf(record) === 'days';

function targetOf(edit: DiaryRecord, [byId, coming]: readonly [Folded['byId'], readonly ToFold[]]): readonly ToFold[] {
  const { targetId } = edit.body as EditBody;
  const target = byId.get(targetId) ?? coming.find(({ record }) => record.id === targetId);
  return target ? [target] : [];
}

const isSessionStruck = ({ record }: ToFold, all: readonly Folded['edits'][]): boolean =>
  record.kind === 'session' && all.some((edits) => (edits.get(record.id) ?? []).some(({ field }) => field === 'deleted'));

/** Later edits of a field take the place of those before. */
function withEdits(before: Folded['edits'], coming: readonly ToFold[]): Folded['edits'] {
  const edits = new Map(before);
  for (const { record } of coming) {
    if (record.kind !== 'edit') continue;
    const body = record.body as EditBody;
    const others = (edits.get(body.targetId) ?? []).filter(({ field, targetV }) => field !== body.field || targetV !== body.targetV);
    edits.set(body.targetId, [...others, body]);
  }
  return edits;
}

function daysWith(before: Folded, now: Standing, changed: Changed): readonly DiaryDay[] {
  const sessions = new Set([...changed.values()].filter(({ record }) => record.kind === 'session').map(({ record }) => record.id));
  const waitsForOne = ({ loose }: DiaryDay) => loose.some(({ body }) => sessions.has(body.sessionId ?? ''));
  const touched = new Set([
    ...[...changed.values()].flatMap((one) => [dayIn(before, one), dayIn(now, one)]),
    ...(sessions.size > 0 ? before.view.days.filter(waitsForOne).map(({ day }) => day) : []),
  ]);
  const stay = before.view.days
    .filter(({ day }) => touched.has(day))
    .flatMap(recordsOf)
    .filter(({ id }) => !changed.has(id));
  const come = [...changed.values()]
    .map((one) => readOne(one, now.edits.get(one.record.id) ?? []))
    .filter((one) => one !== null && one !== 'deleted');
  const members = [...stay, ...come] as readonly KnownRecord[];
  const renewed = daysOf(members, hiddenAmong(members, now));
  return [...before.view.days.filter(({ day }) => !touched.has(day)), ...renewed].sort((a, b) => (a.day < b.day ? 1 : -1));
}

/** The day under which a record stands, or would: that of its session where there is one. */
function dayIn({ byId, edits }: Standing, one: ToFold): string {
  const read = readOne(one, edits.get(one.record.id) ?? []);
  if (read === null || read === 'deleted') return one.record.day;
  const sessionId = read.kind === 'block' || read.kind === 'take' ? read.body.sessionId : null;
  const session = sessionId === null ? undefined : byId.get(sessionId);
  return session?.record.kind === 'session' ? dayIn({ byId, edits }, session) : read.day;
}

const recordsOf = ({ sessions, notes, loose }: DiaryDay): readonly (KnownRecord | ShownTake)[] => [
  ...sessions.flatMap(({ session, blocks, takes }) => [session, ...blocks, ...takes]),
  ...notes,
  ...loose,
];

function hiddenAmong(members: readonly KnownRecord[], { byId, edits }: Standing): ReadonlySet<string> {
  const named = members.flatMap(({ kind, body }) => (kind === 'block' || kind === 'take' ? (body.sessionId ?? []) : []));
  return new Set(named.filter((id) => byId.get(id)?.record.kind === 'session' && isDeleted(edits.get(id) ?? [])));
}
