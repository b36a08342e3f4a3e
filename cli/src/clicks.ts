/** Click times from a file: one time in seconds per line, or a JSON list. */
import type { SaidProblem } from '@evenhand/core/words';
import { readText } from './files.ts';
import { refuse } from './problems.ts';

export interface ReadClicks {
  /** Seconds from the start of the recording, rising; null when not given or not readable. */
  readonly clickTimesSec: readonly number[] | null;
  readonly problems: readonly SaidProblem[];
}

/** The clicks of a file; no file gives no clicks and no problem. */
export function readClicks(file: string | undefined): ReadClicks {
  if (file === undefined) return { clickTimesSec: null, problems: [] };
  const text = readText(file);
  return text.problem ? { clickTimesSec: null, problems: [text.problem] } : clicksOf(text.value);
}

/**
 * @param text one number per line, `#` begins a comment; or a JSON list of numbers.
 */
export function clicksOf(text: string): ReadClicks {
  const entries = listed(text) ?? lined(text);
  const odd = entries.find(({ word }) => !isTime(word));
  if (odd) return { clickTimesSec: null, problems: [refuse('clicks-not-a-time', { given: odd.word.slice(0, 40), line: odd.line })] };
  if (entries.length === 0) return { clickTimesSec: null, problems: [refuse('clicks-none', {})] };
  return { clickTimesSec: entries.map(({ word }) => Number(word)).sort((a, b) => a - b), problems: [] };
}

interface Entry {
  readonly word: string;
  readonly line: number;
}

const isTime = (word: string) => word !== '' && Number.isFinite(Number(word)) && Number(word) >= 0;

const lined = (text: string): Entry[] =>
  text
    .split(/\r?\n/)
    .map((line, i) => ({ word: line.replace(/#.*/, '').trim(), line: i + 1 }))
    .filter(({ word }) => word !== '');

function listed(text: string): Entry[] | null {
  if (!text.trimStart().startsWith('[')) return null;
  try {
    return (JSON.parse(text) as unknown[]).map((value) => ({ word: typeof value === 'number' ? String(value) : JSON.stringify(value), line: 1 }));
  } catch {
    return null;
  }
}
