/** "Find my tempo" on the command line: from a table of what was tried, the tempo to try next, or that it is enough. */
import { findStep } from '@evenhand/core/tempo';
import { noteValue } from '@evenhand/core/words';
import type { ResultRow } from './results-file.ts';
import type { OptionSpec } from './verb.ts';

export const findOptions: readonly OptionSpec[] = [
  {
    name: 'find',
    kind: 'switch',
    example: '',
    about: 'Tell the tempo to try next so that most is learnt about where it is clean: a bar or two at each, one line of the table for each.',
  },
  {
    name: 'expected',
    kind: 'number',
    placeholder: 'BPM',
    example: '84',
    about: 'With --find: where you think it is; a table may then be empty but for its heading.',
  },
];

/** What to try next; both null when it is known well enough. */
export interface FindNext {
  readonly tempoBpm: number | null;
  readonly runs: number | null;
  readonly text: string;
}

/** @param results in order; none only where a tempo is expected. */
export function findNext(
  results: readonly ResultRow[],
  { perBeat = 4, expectedBpm }: { readonly perBeat?: number | undefined; readonly expectedBpm?: number | undefined },
): FindNext {
  const tempoBpm = expectedBpm ?? results[0]!.tempoBpm;
  // Whoever types lines into a table has no two minutes: it goes on until it is known.
  const step = findStep(results, { expected: { tempoBpm }, perBeat, beatsPerBar: 4, elapsedSec: 0 });
  if (step.done) return { tempoBpm: null, runs: null, text: 'It is known well enough; nothing more has to be tried.' };
  const runs = `${step.runs} ${step.runs === 1 ? 'run' : 'runs'} of eight strokes`;
  return { tempoBpm: step.tempoBpm, runs: step.runs, text: `Try ${noteValue(perBeat)} at ${step.tempoBpm} next, ${runs}: it tells most.` };
}
