/** Whose sound was let go, and when: it goes, the strokes and results stay. */
import { BODIES } from './bodies.ts';
import { isDeleted, standingEdits } from './edit.ts';
import type { DiaryView } from './fold.ts';
import { mergeRecords } from './merge.ts';
import type { DiaryRecord, EditBody, KnownRecord } from './record.ts';
import { upgrade } from './upgrade.ts';

/** Takes whose sound was let go, with the practice day on which it was. */
export const letGoOf = ({ thinnings }: Pick<DiaryView, 'thinnings'>): ReadonlyMap<string, string> =>
  new Map(thinnings.flatMap(({ day, body }) => body.takeIds.map((takeId) => [takeId, day] as const)));

/** What edits of a thinning may set. */
const SET_BY_EDITS: readonly string[] = ['deleted', ...Object.keys(BODIES.thinning.fields).map((name) => `body.${name}`)];

/** Whether a record can matter to `letGoIn`: of ten years these are few. */
export const tellsOfLettingGo = ({ kind, body }: DiaryRecord): boolean =>
  kind === 'thinning' || (kind === 'edit' && SET_BY_EDITS.includes((body as Partial<EditBody> | null)?.field ?? ''));

/** The same of records, for who has no view of them: a backup is written and brought in without the sound that was let go. */
export function letGoIn(records: readonly DiaryRecord[]): ReadonlyMap<string, string> {
  if (!records.some(({ kind }) => kind === 'thinning')) return new Map();
  const merged = mergeRecords(records.filter(tellsOfLettingGo), []);
  const edits = standingEdits(merged);
  const thinnings = merged.flatMap((record): readonly KnownRecord<'thinning'>[] => {
    const known = record.kind === 'thinning' ? upgrade(record, edits.get(record.id) ?? []) : null;
    return known?.kind === 'thinning' && !isDeleted(edits.get(record.id) ?? []) ? [known] : [];
  });
  return letGoOf({ thinnings });
}
