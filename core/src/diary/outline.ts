/**
 * The outline of a diary: what its view is made of, packed into a few texts, so that ten years are read in a moment. It is made from the records alone,
 * can be made again at any time, and is never taken for them (docs/decisions/0068).
 */
import { BODIES } from './bodies.ts';
import { compareRecords } from './clock.ts';
import { plansShown, type ToFold } from './fold.ts';
import type { BlockBody, DiaryRecord, KnownRecord } from './record.ts';
import type { SavedExercise, SavedHeard } from './saved.ts';
import { upgrade } from './upgrade.ts';

/** Another version is made anew from the records. Count it up with every change of what stands in a segment, and of what a body must look like. */
export const OUTLINE_VERSION = 2;

/** The outlines of some records, in the order in which they were added. */
export interface OutlineSegment {
  readonly count: number;
  /** A line a record: JSON lists, parted by commas. */
  readonly lines: string;
  /** Exercises, and where and by whom records were made: what many lines name by its place. JSON, parted by commas. */
  readonly named: string;
  /** What was heard in the blocks, place by place; read when it is asked for. JSON, one after the other. */
  readonly heard: string;
}

/** A segment with nothing in it. */
export const EMPTY_SEGMENT: OutlineSegment = { count: 0, lines: '', named: '', heard: '' };

/** The view needs plans, points, settings and the like from all years, and of days the latest first. */
export type OutlineSeries = 'standing' | 'days';

const OF_DAYS: readonly string[] = ['session', 'block', 'take', 'note', 'edit'];

/** In which of the two series of segments the outline of a record stands. */
export const seriesOf = ({ kind }: Pick<DiaryRecord, 'kind'>): OutlineSeries => (OF_DAYS.includes(kind) ? 'days' : 'standing');

/** A segment with more records. The same records, added one by one or at once, give the same segment. */
export function addToSegment(segment: OutlineSegment, records: readonly DiaryRecord[]): OutlineSegment {
  const names = new Map((JSON.parse(`[${segment.named}]`) as readonly unknown[]).map((value, place) => [JSON.stringify(value), place]));
  const before = names.size;
  const heard: string[] = [];
  const place = (value: unknown): number => {
    const text = JSON.stringify(value);
    const known = names.get(text);
    if (known !== undefined) return known;
    names.set(text, names.size);
    return names.size - 1;
  };
  const lines = records.map((record) => JSON.stringify(lineOf(record, { place, heard })));
  return {
    count: segment.count + records.length,
    lines: joined(segment.lines, lines),
    named: joined(segment.named, [...names.keys()].slice(before)),
    heard: segment.heard + heard.join(''),
  };
}

const joined = (before: string, more: readonly string[]): string => [...(before === '' ? [] : [before]), ...more].join(',');

/** The first place of a line says what follows. */
const FORM = { written: 0, notShown: 1, checked: 2, block: 3 } as const;

/** Id, wall clock and counter of `made`, where it was made (a place in `named`), `atMs`, `day`. */
type Envelope = readonly [id: string, wallMs: number, counter: number, origin: number, atMs: number, day: string];

type Line =
  | readonly [form: typeof FORM.written, record: DiaryRecord]
  | readonly [form: typeof FORM.notShown, ...envelope: Envelope, v: number, kind: string]
  | readonly [form: typeof FORM.checked, ...envelope: Envelope, kind: string, body: object]
  | readonly [form: typeof FORM.block, ...envelope: Envelope, ...block: BlockLine];

/** Session, exercise, next tempo and reason by their places in `named`. */
type BlockLine = readonly [
  session: number,
  position: number,
  exercise: number,
  tempoBpm: number,
  durationSec: number,
  /** 0 for none. */
  takeIds: readonly string[] | 0,
  playerSays: BlockBody['playerSays'],
  nextTempo: number,
  reason: number,
  /** Clean runs and runs; null where nothing was heard. */
  clean: number | null,
  runs: number,
  /** Length of its text in `heard`. */
  heardLength: number,
  /** Fields that are not always there. */
  more: Partial<BlockBody> | 0,
];

interface Packing {
  readonly place: (value: unknown) => number;
  readonly heard: string[];
}

function lineOf(record: DiaryRecord, packing: Packing): Line {
  const known = upgrade(record);
  if (!isPlain(record)) return [FORM.written, record];
  if (!known) return [FORM.notShown, ...envelopeOf(record, packing), record.v, record.kind];
  // Edits of an older version are made on the way to this one.
  if (record.v !== known.v) return [FORM.written, record];
  if (known.kind === 'block') return [FORM.block, ...envelopeOf(record, packing), ...blockLine(known, packing)];
  return [FORM.checked, ...envelopeOf(record, packing), record.kind, shortBody(known)];
}

const ENVELOPE = ['atMs', 'body', 'day', 'id', 'kind', 'made', 'ownerId', 'v', 'zone'].join();
const MADE = ['counter', 'deviceId', 'wallMs'].join();

/** Whether a record has the fields of every record and no others. */
const isPlain = (record: DiaryRecord): boolean => Object.keys(record).sort().join() === ENVELOPE && Object.keys(record.made).sort().join() === MADE;

const envelopeOf = ({ id, made, ownerId, zone, atMs, day }: DiaryRecord, { place }: Packing): Envelope => [
  ...([id, made.wallMs, made.counter, place([made.deviceId, ownerId, zone])] as const),
  ...([atMs, day] as const),
];

/** What the view needs of a body: strokes of takes are in their records alone, plans that do not stand only name each other. */
function shortBody({ kind, body }: KnownRecord): object {
  if (kind === 'take') {
    const { strokes: _, clicksSec: _clicks, problems: _problems, ...rest } = body;
    return rest;
  }
  return kind === 'plan' ? { stickingPointId: body.stickingPointId, replaces: body.replaces } : body;
}

function blockLine({ body }: KnownRecord<'block'>, { place, heard: texts }: Packing): BlockLine {
  const { sessionId, position, exercise, tempoBpm, durationSec, takeIds, heard, playerSays, nextTempo, reason, ...rest } = body;
  const isUsual = heard !== null && hasOnly(heard, HEARD);
  const text = isUsual ? JSON.stringify(heardText(heard)) : '';
  texts.push(text);
  const more = heard && !isUsual ? { ...rest, heard } : rest;
  const [clean, runs] = isUsual ? [heard.cleanRunCount, heard.runCount] : [null, 0];
  return [
    ...([place(sessionId), position, place(exercise), tempoBpm, durationSec, takeIds.length > 0 ? takeIds : 0, playerSays] as const),
    ...([place(nextTempo), place(reason), clean, runs, text.length, Object.keys(more).length > 0 ? more : 0] as const),
  ];
}

const HEARD = ['cleanRunCount', 'runCount', 'trackedBpm', 'offsetMs', 'places', 'pairs', 'findings', 'problems'];
const PLACE = ['index', 'limb', 'count', 'unsure', 'biasMs', 'biasLowMs', 'biasHighMs', 'spreadMs', 'levelDb', 'missed', 'notAudible'];
const PAIR = ['first', 'second', 'limb', 'gapMs', 'gapShare', 'gapLow', 'gapHigh', 'levelStepDb', 'extraBounces', 'unsure'];

const hasOnly = (value: object, names: readonly string[]): boolean =>
  Object.keys(value).length === names.length && names.every((name) => Object.hasOwn(value, name));

type HeardText = readonly [
  ...rest: readonly [SavedHeard['trackedBpm'], SavedHeard['offsetMs'], SavedHeard['findings'], SavedHeard['problems']],
  places: readonly unknown[],
  pairs: readonly unknown[],
];

const heardText = ({ trackedBpm, offsetMs, findings, problems, places, pairs }: SavedHeard): HeardText => [
  ...([trackedBpm, offsetMs, findings, problems] as const),
  ...([places.map((one) => withoutNames(one, PLACE)), pairs.map((one) => withoutNames(one, PAIR))] as const),
];

/** An object with exactly these fields as the list of their values; any other as it is. */
const withoutNames = (value: object, names: readonly string[]): unknown =>
  hasOnly(value, names) ? names.map((name) => (value as Readonly<Record<string, unknown>>)[name]) : value;

const withNames = <Value>(value: unknown, names: readonly string[]): Value =>
  (Array.isArray(value) ? Object.fromEntries(names.map((name, k) => [name, value[k]])) : value) as Value;

/** The records of a segment as far as they stand in it, to be folded. */
export function readSegment({ lines, named, heard }: OutlineSegment): readonly ToFold[] {
  const names = JSON.parse(`[${named}]`) as readonly unknown[];
  let heardAt = 0;
  return (JSON.parse(`[${lines}]`) as readonly Line[]).map((line): ToFold => {
    if (line[0] === FORM.written) return { record: line[1], as: 'written' };
    if (line[0] === FORM.block) {
      const from = heardAt;
      heardAt += line[18];
      return { record: blockOf(line, names, () => heard.slice(from, from + line[18])), as: 'checked' };
    }
    return line[0] === FORM.notShown ? notShownOf(line, names) : checkedOf(line, names);
  });
}

type LineOf<Form> = Extract<Line, readonly [Form, ...unknown[]]>;

// Places are named one by one: taking a list apart takes many times as long, and there are tens of thousands.
const envelopeFrom = (line: Exclude<Line, LineOf<typeof FORM.written>>, names: readonly unknown[]): Omit<DiaryRecord, 'v' | 'kind' | 'body'> => {
  const origin = names[line[4]] as readonly [string, string, string];
  const made = { wallMs: line[2], counter: line[3], deviceId: origin[0] };
  return { id: line[1], ownerId: origin[1], made, atMs: line[5], zone: origin[2], day: line[6] };
};

const notShownOf = (line: LineOf<typeof FORM.notShown>, names: readonly unknown[]): ToFold => ({
  record: { ...envelopeFrom(line, names), v: line[7], kind: line[8], body: null },
  as: 'notShown',
});

const checkedOf = (line: LineOf<typeof FORM.checked>, names: readonly unknown[]): ToFold => ({
  record: { ...envelopeFrom(line, names), v: BODIES[line[7] as KnownRecord['kind']].v, kind: line[7], body: line[8] },
  as: 'checked',
});

const NO_TAKES: readonly string[] = [];

function blockOf(line: LineOf<typeof FORM.block>, names: readonly unknown[], text: () => string): DiaryRecord {
  const origin = names[line[4]] as readonly [string, string, string];
  let heard: SavedHeard | null = null;
  const body: BlockBody = {
    sessionId: names[line[7]] as string,
    position: line[8],
    exercise: names[line[9]] as SavedExercise,
    tempoBpm: line[10],
    durationSec: line[11],
    takeIds: line[12] === 0 ? NO_TAKES : line[12],
    get heard() {
      if (line[16] !== null) heard ??= heardFrom([line[16], line[17]], text);
      return heard;
    },
    playerSays: line[13],
    nextTempo: names[line[14]] as BlockBody['nextTempo'],
    reason: names[line[15]] as BlockBody['reason'],
  };
  return {
    v: BODIES.block.v,
    id: line[1],
    kind: 'block',
    ownerId: origin[1],
    made: { wallMs: line[2], counter: line[3], deviceId: origin[0] },
    atMs: line[5],
    zone: origin[2],
    day: line[6],
    body: line[19] === 0 ? body : { ...body, ...line[19] },
  };
}

/** What was heard: the runs at once, the rest from its text as soon as it is asked for. */
function heardFrom([cleanRunCount, runCount]: readonly [number, number], text: () => string): SavedHeard {
  let read: HeardText | null = null;
  const whole = (): HeardText => {
    read ??= JSON.parse(text()) as HeardText;
    return read;
  };
  return {
    cleanRunCount,
    runCount,
    get trackedBpm() {
      return whole()[0];
    },
    get offsetMs() {
      return whole()[1];
    },
    get findings() {
      return whole()[2];
    },
    get problems() {
      return whole()[3];
    },
    get places() {
      return whole()[4].map((one) => withNames<SavedHeard['places'][number]>(one, PLACE));
    },
    get pairs() {
      return whole()[5].map((one) => withNames<SavedHeard['pairs'][number]>(one, PAIR));
    },
  };
}

/**
 * The outlines in order of making, ready to be folded to the view that `fold` makes of their records.
 * @param outlines of each record once, in any order.
 * @param wholePlan the record of a plan that stands (`plansOf`), which the outline only names.
 */
export const toFold = (outlines: readonly ToFold[], wholePlan: (id: string) => DiaryRecord | undefined): readonly ToFold[] =>
  inOrder(outlines).map((one) => {
    const whole = one.record.kind === 'plan' ? wholePlan(one.record.id) : undefined;
    return whole ? { record: whole, as: 'written' } : one;
  });

/** The plans that the view of outlines needs whole. */
export const plansOf = (outlines: readonly ToFold[]): readonly string[] =>
  plansShown(inOrder(outlines.filter(({ record: { kind } }) => kind === 'plan' || kind === 'edit')));

const inOrder = (outlines: readonly ToFold[]): readonly ToFold[] => [...outlines].sort((a, b) => compareRecords(a.record, b.record));
