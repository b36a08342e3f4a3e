/** The outline of the diary beside its records: written in the transaction that writes them, held against them, and made anew where it is not theirs. */
import {
  addToSegment,
  type DiaryRecord,
  type DiaryView,
  EMPTY_SEGMENT,
  type Folded,
  foldAll,
  foldOn,
  OUTLINE_VERSION,
  type OutlineSegment,
  type OutlineSeries,
  plansOf,
  readSegment,
  seriesOf,
  type ToFold,
  toFold,
} from '@evenhand/core/diary';
import { type IDBPObjectStore, type StoreNames, unwrap } from 'idb';
import { noOutline, type Outlined, type SegmentKey } from './outlined.ts';
import { idsInOrder, recordsOfIds } from './parts.ts';
import { standsStill } from './standing.ts';
import type { Database, Tables } from './tables.ts';

type Table<Name extends StoreNames<Tables>> = Pick<
  IDBPObjectStore<Tables, ArrayLike<StoreNames<Tables>>, Name, 'readwrite'>,
  'get' | 'put' | 'delete' | 'openCursor'
>;

/** The stores of a transaction that the outline is written in. */
export interface OutlineTables {
  readonly facts: Table<'facts'>;
  readonly outlines: Table<'outlines'>;
}

/**
 * Records to a segment, some 25 kB. The last one is written again with every entry, and should stay inside the table: from memory, Chromium puts values
 * from 64 kB on in a file of their own, and an entry would wait for that file. Ten years are a thousand segments.
 * @tuned bench/diary
 */
const FULL = 50;
/** Segments of days that are read first: the latest month or two of someone who practises daily. */
const FIRST = 16;

const SERIES = { standing: 0, days: 1 } as const satisfies Record<OutlineSeries, SegmentKey[0]>;
const BOTH: readonly OutlineSeries[] = ['standing', 'days'];

/** Where an outline is added to: what it is of, and its last segments. */
export interface OutlineEnd {
  readonly outlined: Outlined | undefined;
  readonly segments: Readonly<Record<OutlineSeries, OutlineSegment>>;
}

/** Asks for the end of the outline at once, without waiting for one answer to ask the next. */
export async function endOf({ facts, outlines }: OutlineTables): Promise<OutlineEnd> {
  const lastOf = (series: OutlineSeries) =>
    outlines.openCursor(IDBKeyRange.bound([SERIES[series], 0], [SERIES[series], Number.MAX_SAFE_INTEGER]), 'prev');
  const [outlined, standing, days] = await Promise.all([facts.get('outlined') as Promise<Outlined | undefined>, lastOf('standing'), lastOf('days')]);
  return { outlined, segments: { standing: standing?.value ?? EMPTY_SEGMENT, days: days?.value ?? EMPTY_SEGMENT } };
}

/**
 * Adds new records to the outline, in the transaction that adds them to the diary. One that is not there, or of another version, stays so.
 * @param end as `endOf` gave it in this transaction, where it was asked for already.
 */
export async function outline(tables: OutlineTables, records: readonly DiaryRecord[], end?: OutlineEnd): Promise<void> {
  const { outlined, segments } = end ?? (await endOf(tables));
  if (outlined?.version !== OUTLINE_VERSION || records.length === 0) return;
  const put: Promise<unknown>[] = [];
  const last = { ...outlined.last };
  for (const series of BOTH) {
    const grown = extended(
      { place: last[series], segment: segments[series] },
      records.filter((record) => seriesOf(record) === series),
    );
    for (const { place, segment } of grown) put.push(tables.outlines.put(segment, [SERIES[series], place]));
    last[series] = grown.at(-1)?.place ?? last[series];
  }
  put.push(tables.facts.put({ ...outlined, count: outlined.count + records.length, last }, 'outlined'));
  await Promise.all(put);
}

interface Placed {
  readonly place: number;
  readonly segment: OutlineSegment;
}

/** The segments that are other ones once records were added; the last one is the end. */
function extended(end: Placed, records: readonly DiaryRecord[]): readonly Placed[] {
  const grown: Placed[] = [];
  let { place, segment } = end;
  for (let at = 0; at < records.length; ) {
    if (segment.count >= FULL) [segment, place] = [EMPTY_SEGMENT, place + 1];
    const more = records.slice(at, at + FULL - segment.count);
    segment = addToSegment(segment, more);
    at += more.length;
    grown.push({ place, segment });
  }
  return grown;
}

/** From now on the outline is not that of the records, until it is made anew. For transactions that do more than add. */
export const outlineLost = ({ facts }: Pick<OutlineTables, 'facts'>): Promise<void> => facts.delete('outlined');

/**
 * Makes the outline anew from the records, unless it is that of the records already: some at a time, in order of making, one page or Worker after the
 * other. What is written meanwhile is in it. Cut off, there is none, and it is made the next time.
 * @param tell how far it is, 0 to 1, where it takes longer.
 */
export async function outlineAnew(db: Database, tell: (share: number) => void = () => {}): Promise<void> {
  if (await isOutlined(db)) return;
  await navigator.locks.request(`${db.name}-outline`, async () => {
    while (!(await isOutlined(db))) await putOutline(db, tell);
  });
}

/** So many records are counted at once before anything is shown; more take a moment, and are counted behind the first screen. */
const COUNTED_FIRST = 2000;

/** Whether the outline is of this version and of as many records as there are. Records are never changed: one more or less is what can happen. */
export async function isOutlined(db: Database): Promise<boolean> {
  const transaction = db.transaction(['facts', 'records']);
  const [outlined, count] = await Promise.all([transaction.objectStore('facts').get('outlined'), transaction.objectStore('records').count()]);
  return holds(outlined as Outlined | undefined, count);
}

const holds = (outlined: Outlined | undefined, count: number): boolean => outlined?.version === OUTLINE_VERSION && outlined.count === count;

/** Puts the outline of the records in the place of what is there; it counts only when there are no others by then. */
async function putOutline(db: Database, tell: (share: number) => void): Promise<void> {
  const clearing = db.transaction(['facts', 'outlines'], 'readwrite');
  await Promise.all([outlineLost({ facts: clearing.objectStore('facts') }), clearing.objectStore('outlines').clear(), clearing.done]);
  const ids = await idsInOrder(db, () => {});
  const ends: Record<OutlineSeries, Placed> = { standing: { place: 0, segment: EMPTY_SEGMENT }, days: { place: 0, segment: EMPTY_SEGMENT } };
  let count = 0;
  for await (const some of recordsOfIds(db, ids)) {
    const transaction = db.transaction('outlines', 'readwrite');
    // What cannot be put ends the transaction: no promise is needed for each.
    const table = unwrap(transaction.store);
    for (const series of BOTH) {
      const grown = extended(
        ends[series],
        some.filter((record) => seriesOf(record) === series),
      );
      for (const { place, segment } of grown) table.put(segment, [SERIES[series], place]);
      ends[series] = grown.at(-1) ?? ends[series];
    }
    await transaction.done;
    count += some.length;
    if (count < ids.length) tell(count / ids.length);
  }
  const transaction = db.transaction(['records', 'facts'], 'readwrite', { durability: 'strict' });
  const last = { standing: ends.standing.place, days: ends.days.place };
  if ((await transaction.objectStore('records').count()) === count)
    await transaction.objectStore('facts').put({ ...noOutline(), count, last }, 'outlined');
  await transaction.done;
}

/** What was read of the diary. */
export interface ReadDiary {
  readonly view: DiaryView;
  /** When the latest entry was made, milliseconds since 1970; null for an empty diary. */
  readonly writtenAtMs: number | null;
  /** False while only the latest days are in it. */
  readonly whole: boolean;
}

/** Reads the outline, and remembers what it read. */
export interface OutlineReader {
  /** The latest days with all that stands, or all there is. Makes the outline anew where that must be. */
  read(part: 'latest' | 'whole', tell?: (share: number) => void): Promise<ReadDiary>;
  /** The edits of one record, in no order. */
  editsOf(targetId: string): readonly DiaryRecord[];
}

interface Read {
  readonly making: string;
  readonly count: number;
  readonly segments: ReadonlyMap<string, readonly ToFold[]>;
}

const NOTHING: Read = { making: '', count: 0, segments: new Map() };

export function outlineReader(db: Database): OutlineReader {
  let known = NOTHING;
  let folded: Folded | null = null;
  let plans: ReadonlyMap<string, DiaryRecord> = new Map();
  /** Whether it was held against the records; from then on every writer keeps it theirs. */
  let isChecked = false;

  /** Reads segments that are not known yet, or may have grown. @returns what is new; null when there is no outline, or another. */
  async function look(part: 'latest' | 'whole'): Promise<readonly ToFold[] | null> {
    const transaction = db.transaction(['facts', 'outlines']);
    await standsStill(transaction.objectStore('facts'));
    const outlined = (await transaction.objectStore('facts').get('outlined')) as Outlined | undefined;
    if (outlined?.version !== OUTLINE_VERSION) return null;
    const isSame = outlined.making === known.making;
    if (!isSame) folded = null;
    const segments = new Map(isSame ? known.segments : []);
    const added: ToFold[] = [];
    for (const series of BOTH) {
      const from = part === 'latest' && series === 'days' ? Math.max(0, outlined.last.days - FIRST + 1) : firstMissing(segments, outlined, series);
      const range = IDBKeyRange.bound([SERIES[series], from], [SERIES[series], outlined.last[series]]);
      const rows = await transaction.objectStore('outlines').getAll(range);
      for (const [k, row] of rows.entries()) added.push(...grown(segments, nameOf(series, from + k), row));
    }
    known = { making: outlined.making, count: outlined.count, segments };
    return added;
  }

  const all = (): readonly ToFold[] => [...known.segments.values()].flat();

  async function foldAnew(): Promise<Folded> {
    const outlines = all();
    const ids = plansOf(outlines);
    const read = await Promise.all(ids.map(async (id) => plans.get(id) ?? db.get('records', id)));
    plans = new Map(ids.flatMap((id, k) => (read[k] ? [[id, read[k]] as const] : [])));
    return foldAll(toFold(outlines, (id) => plans.get(id)));
  }

  return {
    async read(part, tell) {
      let added = await look(part);
      if (added === null || (!isChecked && (part === 'whole' || known.count <= COUNTED_FIRST))) {
        await outlineAnew(db, tell);
        isChecked = true;
        added = [...(added ?? []), ...((await look(part)) ?? [])];
      }
      folded = (folded && foldOn(folded, added)) ?? (await foldAnew());
      const { view, merged } = folded;
      return { view, writtenAtMs: merged.at(-1)?.record.made.wallMs ?? null, whole: isChecked && merged.length === known.count };
    },
    editsOf: (targetId) =>
      all()
        .map(({ record }) => record)
        .filter(({ kind, body }) => kind === 'edit' && (body as { readonly targetId: string }).targetId === targetId),
  };
}

/** Takes up what a segment has that was not known of it. */
function grown(segments: Map<string, readonly ToFold[]>, name: string, row: OutlineSegment): readonly ToFold[] {
  const before = segments.get(name) ?? [];
  const more = row.count > before.length ? readSegment(row).slice(before.length) : [];
  if (more.length > 0 || before.length === 0) segments.set(name, [...before, ...more]);
  return more;
}

const nameOf = (series: OutlineSeries, place: number): string => `${series} ${place}`;

/** The last segment known may have grown since; those before it never change. */
function firstMissing(segments: Read['segments'], { last }: Outlined, series: OutlineSeries): number {
  for (let place = 0; place < last[series]; place++)
    if (!segments.has(nameOf(series, place + 1)) || !segments.has(nameOf(series, place))) return place;
  return last[series];
}
