/** Runs the built command line as a drummer would, in a process of its own. */
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';

/** What `evenhand` on the PATH would start. */
export const launcher = join(import.meta.dirname, '../bin/evenhand.mjs');
if (!existsSync(join(import.meta.dirname, '../dist/evenhand.mjs'))) throw new Error('The command line is not built: run `npm run build` first.');

export interface Ran {
  readonly exit: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs one call to its end. */
export function evenhand(...given: string[]): Ran {
  const { status, stdout, stderr } = spawnSync(process.execPath, [launcher, ...given], { encoding: 'utf8', maxBuffer: 2 ** 28 });
  return { exit: status, stdout, stderr };
}

/** Runs one call with `--json` and reads its object. */
// biome-ignore lint/suspicious/noExplicitAny: what the JSON holds is what these tests find out
export function evenhandJson(...given: string[]): Ran & { readonly json: any } {
  const ran = evenhand(...given, '--json');
  return { ...ran, json: JSON.parse(ran.stdout) };
}

/** Starts a call that goes on until the test is over; gives its first line. */
export async function evenhandServing(...given: string[]): Promise<string> {
  const child = spawn(process.execPath, [launcher, ...given], { stdio: ['ignore', 'pipe', 'inherit'] });
  onTestFinished(() => void child.kill());
  for await (const chunk of child.stdout) return String(chunk).split('\n')[0]!;
  throw new Error('it said nothing');
}

/** A folder that is gone when the test is over. */
export function folder(): string {
  const path = mkdtempSync(join(tmpdir(), 'evenhand-'));
  onTestFinished(() => rmSync(path, { recursive: true, force: true }));
  return path;
}

/** A file in a folder of its own, gone when the test is over. */
export function fileOf(name: string, content: string | Uint8Array): string {
  const path = join(folder(), name);
  writeFileSync(path, content);
  return path;
}
