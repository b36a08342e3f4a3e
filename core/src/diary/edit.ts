/** Corrections: records are never rewritten, an edit beside them says what changed. */
import { compareRecords } from './clock.ts';
import type { DiaryRecord, EditBody, KnownRecord } from './record.ts';
import { upgrade } from './upgrade.ts';

/** The body of an edit that sets a field of a record's body; it counts from the moment it is written. */
export const editOf = <R extends KnownRecord, Field extends keyof R['body'] & string>(
  target: R,
  field: Field,
  value: R['body'][Field],
): EditBody => ({
  targetId: target.id,
  targetV: target.v,
  field: `body.${field}`,
  value,
});

/** The body of an edit that takes a record out of the view, or back into it. */
export const deletionOf = (target: DiaryRecord, undo?: 'undo'): EditBody => ({
  targetId: target.id,
  targetV: target.v,
  field: 'deleted',
  value: undo === undefined,
});

/**
 * The edits that count, by the id of the record they change: per field and version the one made last.
 * @param records in order of making.
 */
export function standingEdits(records: readonly DiaryRecord[]): ReadonlyMap<string, readonly EditBody[]> {
  const byTarget = new Map<string, Map<string, EditBody>>();
  for (const record of records) {
    const edit = record.kind === 'edit' ? upgrade(record) : null;
    if (edit?.kind !== 'edit') continue;
    const fields = byTarget.get(edit.body.targetId) ?? new Map<string, EditBody>();
    const name = `${edit.body.targetV} ${edit.body.field}`;
    fields.delete(name);
    byTarget.set(edit.body.targetId, fields.set(name, edit.body));
  }
  return new Map([...byTarget].map(([id, fields]) => [id, [...fields.values()]]));
}

/** Whether a record stands deleted by its edits. */
export const isDeleted = (edits: readonly EditBody[]): boolean => edits.filter((edit) => edit.field === 'deleted').at(-1)?.value === true;

/** One correction, and what stood there before it. */
export interface Correction {
  readonly atMs: number;
  readonly field: string;
  readonly before: unknown;
  readonly after: unknown;
}

/** Everything that was ever changed in a record, in order of making; empty for one that nobody changed or that is not there. */
export function correctionsOf(records: readonly DiaryRecord[], targetId: string): readonly Correction[] {
  const target = records.find(({ id }) => id === targetId);
  if (!target) return [];
  const stands = new Map<string, unknown>(Object.entries(target.body as object).map(([name, value]) => [`body.${name}`, value]));
  stands.set('day', target.day).set('atMs', target.atMs).set('deleted', false);
  return [...records].sort(compareRecords).flatMap((record) => {
    const edit = record.kind === 'edit' ? upgrade(record) : null;
    if (edit?.kind !== 'edit' || edit.body.targetId !== targetId) return [];
    const { field, value } = edit.body;
    const before = stands.get(field) ?? null;
    stands.set(field, value);
    return [{ atMs: edit.atMs, field, before, after: value }];
  });
}
