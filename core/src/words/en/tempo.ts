/** English for why the tempo goes up, stays or goes down. */
import type { SearchReason, StandingReason } from '../../tempo/index.ts';
import type { Sentences } from '../sentences.ts';

interface Counted {
  readonly clean: number;
  readonly runs: number;
  /** Not in what was written before words were told apart. */
  readonly words?: number;
}

function cleanOf({ clean, runs, words = 0 }: Counted): string {
  if (words === runs) return hadOf({ clean, runs });
  if (words > 0) return `${clean === runs ? 'all' : `${clean} of`} ${runs} came out, heard or by your word`;
  if (runs === 1) return clean === 1 ? 'the one run was clean' : 'the one run was not clean';
  return clean === runs ? `all ${runs} runs were clean` : `${clean} of ${runs} runs were clean`;
}

function hadOf({ clean, runs }: Counted): string {
  if (runs === 1) return clean === 1 ? 'you had it in the one round' : 'you did not have it in the one round';
  return clean === runs ? `you had it in all ${runs} rounds` : `you had it in ${clean} of ${runs} rounds`;
}

/** What is still missing for going up. */
function moreOf({ more = 0, runs, words = 0 }: Counted & { readonly more?: number }): string {
  if (more === 0) return '';
  const round = words === runs;
  if (more === 1) return round ? '; one more and it goes up' : '; one more that is clean and it goes up';
  return round ? `; ${more} more in a row and it goes up` : `; ${more} more that are clean and it goes up`;
}

export const tempoSentences: Sentences<StandingReason | SearchReason> = {
  'tempo-searched': ({ lowBpm, highBpm }) => `Searched for: clean up to somewhere between ${lowBpm} and ${highBpm}, 9 times in 10.`,
  'tempo-no-runs': () => 'No full run was heard, so the tempo stays.',
  'tempo-up': (params) => `A little faster: ${cleanOf(params)}.`,
  'tempo-stay': (params) => `The same tempo again: ${cleanOf(params)}, about right to learn from.`,
  'tempo-stay-few': (params) => `The same tempo again: ${cleanOf(params)}, too few yet to be sure${moreOf(params)}.`,
  'tempo-capped': ({ capBpm }) => `No faster than ${capBpm} for now: so it was agreed.`,
  'tempo-kept': ({ standsBpm }) => `Slower today, and that takes nothing back: it stands at ${standsBpm}.`,
  'tempo-back': (params) => `Back to ${params.toBpm}, which held before: ${cleanOf(params)} here.`,
  'tempo-too-hard': ({ tempoBpm, fromBpm }) =>
    `Too hard now: it ${tempoBpm < fromBpm ? `came apart from ${fromBpm} down to ${tempoBpm}` : 'came apart'}, and goes no slower. Leave it for some weeks, and let easier exercises do their work.`,
  'tempo-down': (params) => `A little slower, where most runs come out: ${cleanOf(params)} here.`,
};
