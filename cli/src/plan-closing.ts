/** Which kinds of exercise count for closing, as said on the command line. */
import type { Family } from '@evenhand/core/exercise';
import { closingFamilies } from '@evenhand/core/plan';
import type { SaidProblem } from '@evenhand/core/words';
import { refuseOption } from './problems.ts';
import type { Call, OptionSpec } from './verb.ts';

export const closingOption: OptionSpec = {
  name: 'closing',
  kind: 'text',
  placeholder: 'KIND,KIND',
  example: 'pad,groove',
  about:
    'The kinds of exercise that have to hold before the phrase is closed; the phrase in music (use) always counts. Unless said, all of the plan.',
};

/**
 * Reads what counts.
 * @param exercises of the plan; what they have none of cannot be chosen, because it could never hold.
 * @returns null when nothing was said.
 */
export function readClosing(
  { text }: Call,
  exercises: readonly unknown[],
): { readonly closing: readonly Family[] | null; readonly problems: readonly SaidProblem[] } {
  if (text.closing === undefined) return { closing: null, problems: [] };
  const there = closingFamilies(exercises.map((exercise) => (exercise as { readonly family?: unknown } | null)?.family));
  const given = text.closing.split(',').map((name) => name.trim());
  const wrong = given.filter((name) => !(there as readonly string[]).includes(name));
  const wanted = `kinds of exercise of this plan, parted by commas: ${there.join(', ')}`;
  const problems = wrong.map((name) => refuseOption('--closing', name, { wanted, example: there.slice(0, 2).join(',') }));
  return { closing: closingFamilies(given), problems };
}
