/** Bodies of older versions become bodies of the present one, with the edits made on the way. */
import { BODIES, isKnownKind } from './bodies.ts';
import { isDay } from './day.ts';
import type { DiaryRecord, EditBody, KnownKind, KnownRecord } from './record.ts';
import { type Fields, fits, isObject } from './shape.ts';

type Body = Readonly<Record<string, unknown>>;

/** How one version of a body becomes the next. */
export type UpgradeStep = (body: Body) => Body;

/** What a reader must know of a kind: its present version, its shape, and a step from each version before. */
export interface KindReader {
  readonly v: number;
  readonly fields: Fields;
  /** `steps[0]` leads from version 1 to 2. One fewer than `v`. */
  readonly steps: readonly UpgradeStep[];
}

/** Steps so far: none, every kind is at version 1. */
const STEPS: Readonly<Partial<Record<KnownKind, readonly UpgradeStep[]>>> = {};

/**
 * A record as this version understands it, edited.
 * @param record as it was written, by whatever version.
 * @param edits those that count for it, at most one per field and version, in order of making.
 * @returns null for a kind that is not known, a newer version, or a body that does not fit: the record is still kept and passed on.
 */
export function upgrade(record: DiaryRecord, edits: readonly EditBody[] = []): KnownRecord | null {
  if (!isKnownKind(record.kind)) return null;
  return upgradeBy({ ...BODIES[record.kind], steps: STEPS[record.kind] ?? [] }, record, edits) as KnownRecord | null;
}

/** A record of the present version that is known to fit, edited. */
export const editedAsItIs = (record: KnownRecord, edits: readonly EditBody[]): KnownRecord =>
  editedRecord(record, edits, { ...BODIES[record.kind], steps: [] }) as KnownRecord;

/** The same for any reader: what `upgrade` does once versions beyond the first exist. */
export function upgradeBy(reader: KindReader, record: DiaryRecord, edits: readonly EditBody[]): DiaryRecord | null {
  if (!Number.isInteger(record.v) || record.v < 1 || record.v > reader.v || !isObject(record.body)) return null;
  let body: Body = record.body;
  for (let v = record.v; v < reader.v; v++) {
    body = edited(body, edits, v);
    body = reader.steps[v - 1]!(body);
  }
  const upgraded: DiaryRecord = { ...record, v: reader.v, body };
  return fits(body, { fields: reader.fields }) ? editedRecord(upgraded, edits, reader) : null;
}

/** The record with the edits of its envelope and of the present version's body. */
function editedRecord(record: DiaryRecord, edits: readonly EditBody[], reader: KindReader): DiaryRecord {
  const day = lastValue(edits, 'day');
  const atMs = lastValue(edits, 'atMs');
  const body = edited(record.body as Body, edits, reader.v, reader.fields);
  return { ...record, ...(typeof day === 'string' && isDay(day) && { day }), ...(Number.isFinite(atMs) && { atMs: atMs as number }), body };
}

const lastValue = (edits: readonly EditBody[], field: string): unknown => edits.filter((edit) => edit.field === field).at(-1)?.value;

const BODY = 'body.';

/** The body with the edits that speak of version `v`; with `fields`, only those whose value fits its field. */
function edited(body: Body, edits: readonly EditBody[], v: number, fields: Fields = {}): Body {
  const changes = edits
    .filter((edit) => edit.targetV === v && edit.field.startsWith(BODY))
    .map((edit) => [edit.field.slice(BODY.length), edit.value] as const)
    .filter(([name, value]) => !Object.hasOwn(fields, name) || fits(value, fields[name]!));
  return changes.length === 0 ? body : { ...body, ...Object.fromEntries(changes) };
}
