/** Tells the service worker which files the built app consists of, each with the hash of its bytes. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import type { Plugin } from 'vite';

/** Name under which the service worker is built, beside index.html. */
export const SERVICE_WORKER = 'service-worker.js';

/** What stands for the list in the source of the service worker. */
const PLACEHOLDER = '__EVENHAND_FILES__';

/** Built files as `[path, sha256 in hexadecimal]`, in order of path; the service worker itself is not among them. */
export function listFiles(folder: string): readonly (readonly [string, string])[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .map((file) => [relative(folder, file).split(sep).join('/'), sha256(readFileSync(file))] as const)
    .filter(([path]) => path !== SERVICE_WORKER)
    .sort(([a], [b]) => (a < b ? -1 : 1));
}

const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** After everything is written, files of `public` included, the list is put in place of its name. */
export function offlinePlugin(): Plugin {
  let folder = '';
  return {
    name: 'evenhand-offline',
    apply: 'build',
    configResolved(config) {
      folder = join(config.root, config.build.outDir);
    },
    closeBundle: {
      order: 'post',
      sequential: true,
      handler() {
        const place = join(folder, SERVICE_WORKER);
        const source = readFileSync(place, 'utf8');
        if (!source.includes(PLACEHOLDER)) this.error(`${SERVICE_WORKER} does not speak of ${PLACEHOLDER}`);
        writeFileSync(
          place,
          source.replaceAll(PLACEHOLDER, () => JSON.stringify(listFiles(folder))),
        );
      },
    },
  };
}
