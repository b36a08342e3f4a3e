/** One writer at a time for a folder: a lock that outlives no crash. */
import { linkSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import type { Tried } from '../files.ts';
import { refuse } from '../problems.ts';
import { newId } from './ids.ts';

/** How long another writer is waited for. Longer than an entry takes; a large import may take longer, and then it is said. */
const PATIENCE_MS = 10_000;
const PAUSE_MS = 5;

/** What the lock's file says of who holds it. */
interface Holder {
  readonly pid: number;
  readonly host: string;
  readonly token: string;
}

/**
 * Runs a piece of work as the only writer of a folder.
 * @param patienceMs how long another writer is waited for.
 * @returns what the work gives, or the problem that another program does not let go of the folder.
 */
export async function asOnlyWriter<Value>(
  folder: string,
  work: () => Tried<Value> | Promise<Tried<Value>>,
  patienceMs = PATIENCE_MS,
): Promise<Tried<Value>> {
  const lock = join(folder, 'lock');
  const until = Date.now() + patienceMs;
  while (!take(lock, { pid: process.pid, host: hostname(), token: newId() })) {
    if (Date.now() > until) return { problem: refuse('diary-busy', { folder, lock }) };
    clearIfAbandoned(lock);
    await sleep(PAUSE_MS * (1 + Math.random()));
  }
  try {
    return await work();
  } finally {
    rmSync(lock, { force: true });
  }
}

/** Makes the lock, complete from its first moment on: written beside it and linked to its name, which fails when the name is taken. */
function take(lock: string, holder: Holder): boolean {
  const draft = `${lock}.${holder.token}`;
  writeFileSync(draft, JSON.stringify(holder));
  try {
    linkSync(draft, lock);
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw error;
  } finally {
    rmSync(draft, { force: true });
  }
}

/**
 * Removes a lock whose holder, a program on this machine, is not running any more. Only who holds `lock.clearing` may remove one, so that no one
 * removes the lock that somebody else has just taken.
 */
function clearIfAbandoned(lock: string): void {
  const seen = holderOf(lock);
  if (seen === null || isRunning(seen)) return;
  const clearing = `${lock}.clearing`;
  if (!take(clearing, { ...seen, pid: process.pid, token: `${seen.token}.${process.pid}` })) return;
  try {
    if (holderOf(lock)?.token === seen.token) rmSync(lock, { force: true });
  } finally {
    rmSync(clearing, { force: true });
  }
}

function holderOf(lock: string): Holder | null {
  try {
    return JSON.parse(readFileSync(lock, 'utf8')) as Holder;
  } catch {
    return null;
  }
}

function isRunning({ pid, host }: Holder): boolean {
  if (host !== hostname()) return true;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}
