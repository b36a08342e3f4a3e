/** Processor time of single threads of a process, as Linux counts it. */
import { readdirSync, readFileSync } from 'node:fs';

/** Steps in which the kernel tells it: 100 a second on every Linux that Node runs on. */
const TICKS_PER_SEC = 100;

/** Seconds of processor time by name of thread, threads of one name together; those that end meanwhile are left out. */
export function threadSecs(processId: number): ReadonlyMap<string, number> {
  const found = new Map<string, number>();
  for (const id of readdirSync(`/proc/${processId}/task`)) {
    const told = textOf(`/proc/${processId}/task/${id}/stat`);
    // The name stands in brackets and may hold blanks; user and system time are the 12th and 13th field after it.
    const [, name, rest] = /\((.*)\) (.*)/.exec(told) ?? [];
    if (name === undefined || rest === undefined) continue;
    const fields = rest.split(' ');
    found.set(name, (found.get(name) ?? 0) + (Number(fields[11]) + Number(fields[12])) / TICKS_PER_SEC);
  }
  return found;
}

function textOf(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return '';
  }
}
