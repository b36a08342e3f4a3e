/** What the processes of a browser hold in memory, by kind, as Linux counts it. */
import { readFileSync } from 'node:fs';

export interface Memory {
  /** Written to by this process alone. */
  readonly ownMb: number;
  /** With what it shares: files that are mapped, pictures, sound. */
  readonly residentMb: number;
}

/** Processes of one kind together; those that have ended are left out. */
export function memoryOf(processIds: readonly number[]): ReadonlyMap<string, Memory> {
  const found = new Map<string, Memory>();
  for (const id of processIds) {
    const status = textOf(id, 'status');
    if (status === '') continue;
    const kind = kindOf(textOf(id, 'cmdline'));
    const mb = (name: string) => Number(new RegExp(`${name}:\\s+(\\d+)`).exec(status)?.[1] ?? 0) / 1000;
    const before = found.get(kind) ?? { ownMb: 0, residentMb: 0 };
    found.set(kind, { ownMb: before.ownMb + mb('RssAnon'), residentMb: before.residentMb + mb('VmRSS') });
  }
  return found;
}

/** A utility says what it is for: audio, network, storage. The browser itself says nothing. */
function kindOf(commandLine: string): string {
  const said = (name: string) => new RegExp(`--${name}=([^\\0 ]+)`).exec(commandLine)?.[1];
  return said('utility-sub-type')?.split('.')[0] ?? said('type') ?? 'browser';
}

function textOf(processId: number, name: string): string {
  try {
    return readFileSync(`/proc/${processId}/${name}`, 'utf8');
  } catch {
    return '';
  }
}
