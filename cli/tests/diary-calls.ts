/** Calls of the diary verbs that several tests make. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { evenhandJson } from './evenhand.ts';

/** The backup that is kept for ever. */
export const fixture = join(import.meta.dirname, '../../adapters/fixtures/backup-version-1.zip');

export const add = (home: string, day: string, ...more: string[]) => evenhandJson('diary', 'add', '--in', home, '--day', day, ...more);
export const list = (home: string) => evenhandJson('diary', 'list', '--in', home);
export const exportTo = (home: string, file: string) => evenhandJson('diary', 'export', '--in', home, file);
export const importFrom = (home: string, file: string, ...more: string[]) => evenhandJson('diary', 'import', '--in', home, file, ...more);

/** What a folder holds, file by file. */
export const contents = (home: string): Record<string, string> =>
  Object.fromEntries(
    readdirSync(home, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => [join(entry.parentPath, entry.name).slice(home.length), readFileSync(join(entry.parentPath, entry.name), 'base64')]),
  );
