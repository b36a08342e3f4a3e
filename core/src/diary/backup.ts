/** What stands in a backup and what can be wrong with one: the manifest of `evenhand-backup/1` (docs/formats/backup.md). */
import type { Problem } from '../problem.ts';
import { canonicalJson } from './canonical.ts';
import { type Fields, fits } from './shape.ts';

/** The format this program writes. */
export const BACKUP_FORMAT = 'evenhand-backup/1';

/** The first entry: the records as canonical JSON lines. */
export const RECORDS_ENTRY = 'records.jsonl';
/** The last entry of every version, so that any version can tell which it has in hand. */
export const MANIFEST_ENTRY = 'manifest.json';

/** An entry as the manifest lists it. */
export interface BackupEntry {
  readonly name: string;
  readonly byteCount: number;
  /** 64 hexadecimal digits. */
  readonly sha256: string;
}

/** What a backup says of itself. No time and no device: the same diary gives the same bytes. */
export interface BackupManifest {
  readonly format: string;
  readonly counts: { readonly records: number; readonly takes: number };
  /** Every entry but the manifest, in the order of the archive. */
  readonly entries: readonly BackupEntry[];
}

/** What can be wrong with a file that should be a backup, or with writing one. */
export type BackupProblem =
  | Problem<'backup-not-one', Record<string, never>>
  | Problem<'backup-cut', { readonly byteCount: number }>
  | Problem<'backup-changed', { readonly part: 'records' | 'take' | 'manifest' | 'wrapping' }>
  | Problem<'backup-checksum', { readonly name: string }>
  | Problem<'backup-take-missing', { readonly takeId: string }>
  | Problem<'backup-newer', { readonly format: string }>
  | Problem<'backup-too-large', Record<string, never>>
  | Problem<'backup-unreadable', Record<string, never>>;

/** A refused problem of a backup. */
export const refuseBackup = <Code extends BackupProblem['code']>(
  code: Code,
  params: Extract<BackupProblem, { readonly code: Code }>['params'],
): BackupProblem => ({ code, severity: 'refused', params }) as unknown as BackupProblem;

const TAKE_ENTRY = /^takes\/([0-9a-f]{32})\.flac$/;

/** The entry that holds the sound of a take. Its id is 32 hexadecimal digits (`recordId`), nothing that could name another folder. */
export const takeEntry = (takeId: string): string => `takes/${takeId}.flac`;

/** The take whose sound an entry holds, or null. */
export const takeIdOf = (name: string): string | null => TAKE_ENTRY.exec(name)?.[1] ?? null;

/** Whether a take's id can name an entry. */
export const isTakeId = (id: string): boolean => takeIdOf(takeEntry(id)) !== null;

/**
 * The text of a manifest.
 * @param entries all but the manifest itself, in the order of the archive.
 */
export function manifestText(entries: readonly BackupEntry[], recordCount: number): string {
  const takes = entries.filter(({ name }) => takeIdOf(name) !== null).length;
  const manifest: BackupManifest = { format: BACKUP_FORMAT, counts: { records: recordCount, takes }, entries };
  return `${canonicalJson(manifest)}\n`;
}

const MANIFEST: Fields = {
  format: 'text',
  counts: { fields: { records: 'number', takes: 'number' } },
  entries: { list: { fields: { name: 'text', byteCount: 'number', sha256: 'text' } } },
};

/** The manifest a text holds, or null. Any version will do for its `format` (`formatOf`); this reads version 1. */
export function readManifest(text: string): BackupManifest | null {
  const value = parsed(text);
  return fits(value, { fields: MANIFEST }) ? (value as BackupManifest) : null;
}

/** The format that a manifest of whatever version names, or null. */
export function formatOf(text: string): string | null {
  const value = parsed(text);
  return fits(value, { fields: { format: 'text' } }) ? (value as BackupManifest).format : null;
}

/** Whether a format is one of a version after this one. */
export const isNewerFormat = (format: string): boolean => Number(/^evenhand-backup\/([1-9]\d{0,8})$/.exec(format)?.[1] ?? 0) > 1;

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
