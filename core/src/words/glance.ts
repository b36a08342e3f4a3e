/** A statement in a word or two, for whoever is too far away to read its sentence. */
import type { Problem, Statement } from '../problem.ts';
import { glances, notHeard } from './en/glance.ts';
import type { SentenceTable } from './sayfrom.ts';

/**
 * What was heard, in the fewest words; the sentence says it whole.
 * @param said a finding, what a session says of a block, or the problem for which nothing was heard.
 * @returns null for a statement that has no short form: its sentence is to be read.
 */
export function glanceOf(said: Statement | Problem): string | null {
  const short = (glances as SentenceTable)[said.code];
  if (short) return short(said.params as never, 'american');
  return 'severity' in said ? notHeard : null;
}
