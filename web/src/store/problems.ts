/** What a browser's store throws becomes what can be said to a drummer. */
import type { KeepingProblem } from '@evenhand/core/diary';
import { EvenhandError } from '@evenhand/core/errors';
import type { Reading } from '@evenhand/core/problem';

const CODES: Readonly<Record<string, 'store-full' | 'store-newer' | 'store-closed'>> = {
  QuotaExceededError: 'store-full',
  VersionError: 'store-newer',
  // A closed connection refuses new transactions with this.
  InvalidStateError: 'store-closed',
};

/** The problem behind an error of IndexedDB. */
export function failed(error: unknown): KeepingProblem {
  const { name, message } = error instanceof Error || error instanceof DOMException ? error : { name: 'Error', message: String(error) };
  const code = CODES[name];
  return code ? { code, severity: 'refused', params: {} } : { code: 'store-failed', severity: 'refused', params: { reason: message || name } };
}

/** Runs something against the store; what it throws comes back as a refused problem, a programming error of ours goes on as it is. */
export async function attempt<Value>(work: () => Promise<Value>): Promise<Reading<Value, KeepingProblem>> {
  try {
    return { value: await work(), problems: [] };
  } catch (error) {
    if (error instanceof EvenhandError) throw error;
    return { value: null, problems: [failed(error)] };
  }
}
