/** The diary as it is read: records, edits applied, gathered by day and session. */
import { secondsByHand } from './byhand.ts';
import { compareText } from './clock.ts';
import { isDeleted, standingEdits } from './edit.ts';
import { mergeRecords } from './merge.ts';
import type { DiaryRecord, EditBody, KnownKind, KnownRecord, SettingBody, TakeBody } from './record.ts';
import { editedAsItIs, upgrade } from './upgrade.ts';

/** A take as the view has it: what was heard stroke by stroke is in its record alone. */
export type ShownTake = DiaryRecord<'take', Omit<TakeBody, 'strokes' | 'clicksSec' | 'problems'>>;

/** A session with what belongs to it. */
export interface SessionEntry {
  readonly session: KnownRecord<'session'>;
  /** By place in the session. */
  readonly blocks: readonly KnownRecord<'block'>[];
  /** In order of time. */
  readonly takes: readonly ShownTake[];
  /** Seconds played, the sum over its blocks; the whole length of one written down by hand. */
  readonly playedSec: number;
}

/** One practice day. */
export interface DiaryDay {
  /** `YYYY-MM-DD` */
  readonly day: string;
  /** In order of time. */
  readonly sessions: readonly SessionEntry[];
  readonly notes: readonly KnownRecord<'note'>[];
  /** Blocks and takes that belong to no session that is known. */
  readonly loose: readonly Part[];
  /** Seconds played, the sum over its sessions and loose blocks. */
  readonly playedSec: number;
}

/** What lies inside a session. */
export type Part = KnownRecord<'block'> | ShownTake;

/** What a reader of the diary sees. */
export interface DiaryView {
  /** Days on which something is written, the latest first. */
  readonly days: readonly DiaryDay[];
  /** In order of time. */
  readonly stickingPoints: readonly KnownRecord<'stickingPoint'>[];
  /** The plan that stands: the revision made last, or null. */
  readonly plan: KnownRecord<'plan'> | null;
  /** The last revision of the plan of each phrase that was not replaced by one for another, in the order in which they were made. */
  readonly plans: readonly KnownRecord<'plan'>[];
  /** The last value of each setting. */
  readonly settings: Readonly<Record<string, SettingBody['value']>>;
  /** What was said about sticks, drums and pedal, in order of time; each counts from its day on. */
  readonly setups: readonly KnownRecord<'setup'>[];
  /** The last of them, or null. */
  readonly setup: KnownRecord<'setup'> | null;
  /** What was said of exercises, the last of each, in the order in which it was said. */
  readonly choices: readonly KnownRecord<'choice'>[];
  /** When the sound of takes was let go, in the order in which it was; what was taken back is not among them. */
  readonly thinnings: readonly KnownRecord<'thinning'>[];
  /** Records that this version cannot show: unknown kinds, newer versions, damaged bodies. They are kept. */
  readonly notShownCount: number;
}

/**
 * The view of a set of records, in whatever order they come; doubles count once.
 * Blocks and takes of a deleted session are hidden with it; its notes stay on their day.
 */
export const fold = (records: readonly DiaryRecord[]): DiaryView => foldRead(mergeRecords(records, []).map((record) => ({ record, as: 'written' })));

/** A record on its way into the view. */
export interface ToFold {
  readonly record: DiaryRecord;
  /** written: its body is still to be looked at. checked: it is of this version and was found to fit. notShown: this version cannot show it. */
  readonly as: 'written' | 'checked' | 'notShown';
}

/** The same view of records of which some were looked at before. @param merged each once, in order of making. */
export function foldRead(merged: readonly ToFold[]): DiaryView {
  const edits = standingEdits(merged.map(({ record }) => record));
  const read = merged.map((one) => readOne(one, edits.get(one.record.id) ?? NO_EDITS));
  const shown = read.filter((one): one is KnownRecord => one !== null && one !== 'deleted');
  return {
    days: daysOf(shown, deletedSessions(merged, edits)),
    stickingPoints: byTime(ofKind(shown, 'stickingPoint')),
    plan: ofKind(shown, 'plan').at(-1) ?? null,
    plans: standingPlans(ofKind(shown, 'plan')),
    settings: Object.fromEntries(ofKind(shown, 'setting').map(({ body }) => [body.name, body.value])),
    setups: byTime(ofKind(shown, 'setup')),
    setup: ofKind(shown, 'setup').at(-1) ?? null,
    choices: lastOfEach(ofKind(shown, 'choice'), ({ body }) => body.exercise.id),
    thinnings: ofKind(shown, 'thinning'),
    notShownCount: read.filter((one) => one === null).length,
  };
}

/** The day of a view, empty when nothing is written on it. */
export const dayOf = (view: DiaryView, day: string): DiaryDay =>
  view.days.find((entry) => entry.day === day) ?? { day, sessions: [], notes: [], loose: [], playedSec: 0 };

const NO_EDITS: readonly EditBody[] = [];

/** A record with its edits; null for one that cannot be shown. */
export function readOne({ record, as }: ToFold, edits: readonly EditBody[]): KnownRecord | 'deleted' | null {
  if (edits.length > 0 && isDeleted(edits)) return 'deleted';
  if (as === 'notShown') return null;
  return as === 'written' ? upgrade(record, edits) : edits.length === 0 ? (record as KnownRecord) : editedAsItIs(record as KnownRecord, edits);
}

function deletedSessions(merged: readonly ToFold[], edits: ReadonlyMap<string, readonly EditBody[]>): ReadonlySet<string> {
  return new Set(
    merged.filter(({ record }) => record.kind === 'session' && isDeleted(edits.get(record.id) ?? NO_EDITS)).map(({ record }) => record.id),
  );
}

const ofKind = <Kind extends KnownKind>(records: readonly (KnownRecord | ShownTake)[], kind: Kind): readonly KnownRecord<Kind>[] =>
  records.filter((record) => record.kind === kind) as unknown as readonly KnownRecord<Kind>[];

const byTime = <R extends DiaryRecord>(records: readonly R[]): readonly R[] =>
  [...records].sort((a, b) => a.atMs - b.atMs || compareText(a.id, b.id));

/** The records of the plans that the view will have: of these alone it needs the whole. */
export function plansShown(merged: readonly ToFold[]): readonly string[] {
  const { plan, plans } = foldRead(merged.filter(({ record: { kind } }) => kind === 'plan' || kind === 'edit'));
  return [...new Set([...(plan ? [plan.id] : []), ...plans.map(({ id }) => id)])];
}

function standingPlans(revisions: readonly KnownRecord<'plan'>[]): readonly KnownRecord<'plan'>[] {
  const replaced = new Set(revisions.map(({ body }) => body.replaces));
  return lastOfEach(revisions, ({ body }) => body.stickingPointId ?? '').filter(({ id }) => !replaced.has(id));
}

function lastOfEach<Item>(items: readonly Item[], nameOf: (item: Item) => string): readonly Item[] {
  const last = new Map(items.map((item) => [nameOf(item), item]));
  return items.filter((item) => last.get(nameOf(item)) === item);
}

function groupBy<Item>(items: readonly Item[], nameOf: (item: Item) => string): ReadonlyMap<string, readonly Item[]> {
  const groups = new Map<string, Item[]>();
  for (const item of items) {
    const name = nameOf(item);
    const group = groups.get(name);
    if (group) group.push(item);
    else groups.set(name, [item]);
  }
  return groups;
}

const dayName = ({ day }: DiaryRecord): string => day;

/** The days of records that are shown, the latest first. @param hidden ids of sessions whose parts are hidden. */
export function daysOf(shown: readonly KnownRecord[], hidden: ReadonlySet<string>): readonly DiaryDay[] {
  const all: readonly Part[] = [...ofKind(shown, 'block'), ...ofKind(shown, 'take')];
  const parts = byTime(all).filter(({ body }) => !hidden.has(body.sessionId ?? ''));
  const bySession = groupBy(parts, ({ body }) => body.sessionId ?? '');
  const sessions = byTime(ofKind(shown, 'session'));
  const known = new Set(sessions.map(({ id }) => id));
  const loose = groupBy(
    parts.filter(({ body }) => !known.has(body.sessionId ?? '')),
    dayName,
  );
  const entries = groupBy(
    sessions.map((session) => sessionEntry(session, bySession.get(session.id) ?? [])),
    ({ session }) => session.day,
  );
  const notes = groupBy(byTime(ofKind(shown, 'note')), dayName);
  const days = [...new Set([...entries.keys(), ...loose.keys(), ...notes.keys()])].sort(compareText).reverse();
  return days.map((day) => dayEntry(day, entries.get(day) ?? [], loose.get(day) ?? [], notes.get(day) ?? []));
}

function dayEntry(day: string, sessions: readonly SessionEntry[], loose: readonly Part[], notes: readonly KnownRecord<'note'>[]): DiaryDay {
  const playedSec = sessions.reduce((sum, session) => sum + session.playedSec, secondsOf(ofKind(loose, 'block')));
  return { day, sessions, notes, loose, playedSec };
}

function sessionEntry(session: KnownRecord<'session'>, parts: readonly Part[]): SessionEntry {
  const blocks = [...ofKind(parts, 'block')].sort((a, b) => a.body.position - b.body.position || compareText(a.id, b.id));
  return { session, blocks, takes: ofKind(parts, 'take'), playedSec: secondsOf(blocks) + secondsByHand(session) };
}

const secondsOf = (blocks: readonly KnownRecord<'block'>[]): number => blocks.reduce((sum, { body }) => sum + body.durationSec, 0);
