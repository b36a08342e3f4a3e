/** Drafts become records, records become lines of text and back. */
import { ParameterError } from '../errors.ts';
import type { Problem, Reading } from '../problem.ts';
import { BODIES } from './bodies.ts';
import { canonicalJson } from './canonical.ts';
import { isDay } from './day.ts';
import { mergeRecords } from './merge.ts';
import type { DiaryRecord, KnownRecord, Made, RecordDraft } from './record.ts';
import { type Fields, fits } from './shape.ts';

/** What can be wrong with lines that should hold a diary. `at` is the line, from 1. */
export type LineProblem = Problem<'diary-line-not-json', { readonly line: number }> | Problem<'diary-line-not-record', { readonly line: number }>;

/** A record id of 128 random bits. Throws ParameterError unless there are 16 bytes. */
export function recordId(random: Uint8Array): string {
  if (random.length !== 16) throw new ParameterError('random', random.length, '16 bytes');
  return Array.from(random, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/**
 * The record of a draft.
 * @param draft what its maker says.
 * @param maker.id used unless the draft brings an id of its own. Throws ParameterError when the body is not of the draft's kind.
 */
export function writeRecord(draft: RecordDraft, maker: { readonly id: string; readonly ownerId: string; readonly made: Made }): KnownRecord {
  const { v, fields } = BODIES[draft.kind];
  if (!fits(draft.body, { fields }))
    throw new ParameterError(`body of ${draft.kind}`, JSON.stringify(draft.body), 'the fields of docs/formats/diary-records.md');
  const { kind, atMs, zone, day, body } = draft;
  return { v, id: draft.id ?? maker.id, kind, ownerId: maker.ownerId, made: maker.made, atMs, zone, day, body } as KnownRecord;
}

/** A record as its line of canonical JSON, the line's end included. */
export const writeLine = (record: DiaryRecord): string => `${canonicalJson(record)}\n`;

/** The diary as canonical JSON lines, one record each, by order of making; the same records give the same text. */
export const writeLines = (records: readonly DiaryRecord[]): string => mergeRecords(records, []).map(writeLine).join('');

/**
 * Reads JSON lines. Unknown kinds, versions and fields come through as they are; empty lines are passed over.
 * @returns the records that could be read, and a doubtful problem for each line that could not. Never refused.
 */
export function readLines(text: string): Reading<readonly DiaryRecord[], LineProblem> {
  const problems: LineProblem[] = [];
  const records = text.split('\n').flatMap((line, i) => {
    if (line.trim() === '') return [];
    const read = readLine(line);
    if (typeof read !== 'string') return [read];
    problems.push({ code: read, severity: 'doubtful', at: i + 1, params: { line: i + 1 } });
    return [];
  });
  return { value: records, problems };
}

function readLine(line: string): DiaryRecord | LineProblem['code'] {
  try {
    const value: unknown = JSON.parse(line);
    return isRecord(value) ? value : 'diary-line-not-record';
  } catch {
    return 'diary-line-not-json';
  }
}

const ENVELOPE: Fields = {
  v: 'number',
  id: 'text',
  kind: 'text',
  ownerId: 'text',
  made: { fields: { wallMs: 'number', counter: 'number', deviceId: 'text' } },
  atMs: 'number',
  zone: 'text',
  day: 'text',
  body: 'any',
};

/** Whether a value from outside has the envelope of a record, whatever its body. */
export const isRecord = (value: unknown): value is DiaryRecord =>
  fits(value, { fields: ENVELOPE }) && isDay((value as DiaryRecord).day) && (value as DiaryRecord).id !== '';
