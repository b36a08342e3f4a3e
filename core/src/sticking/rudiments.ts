/**
 * The 40 international drum rudiments in our own sticking language, right lead.
 *
 * Origin: names and numbers from the list the Percussive Arts Society adopted in 1984 (@source [PAS40]), confirmed on published copies.
 * Stickings: `confirmed` rows stand in published descriptions (of number 14 the length); the others, and most accents, are from memory of the
 * standard list, and editions differ. Note values (what is a diddle, where a long note stands as rests) are ours, after the usual subdivision.
 */
import { readSticking } from './read.ts';
import type { Sticking } from './sticking.ts';
import { mirror } from './turn.ts';

/** One rudiment. */
export interface Rudiment {
  /** 1 to 40. */
  readonly number: number;
  readonly name: string;
  /** Led by the right hand: one cycle, both leads where it alternates. */
  readonly text: string;
  /** Slots per beat it is usually written in. */
  readonly perBeat: number;
  /** The hands change places from one time to the next; null where it runs hand to hand without an end. */
  readonly alternates: boolean | null;
  /** Where the sticking comes from. */
  readonly says: 'confirmed' | 'memory';
}

type Row = readonly [name: string, text: string, perBeat: number, alternates: boolean | null, says: 'confirmed' | 'memory'];

const ROWS: readonly Row[] = [
  ['Single Stroke Roll', 'RLRLRLRL', 4, null, 'confirmed'],
  ['Single Stroke Four', 'RLRL--', 6, false, 'memory'],
  ['Single Stroke Seven', 'RLRLRLR-----LRLRLRL-----', 6, true, 'memory'],
  ['Multiple Bounce Roll', 'RzLzRzLz', 4, null, 'memory'],
  ['Triple Stroke Roll', 'RRRLLL', 3, true, 'memory'],
  ['Double Stroke Open Roll', 'RRLL', 4, true, 'memory'],
  ['Five Stroke Roll', 'R/L/>R-L/R/>L-', 4, true, 'confirmed'],
  ['Six Stroke Roll', '>RLLRR>L', 6, false, 'memory'],
  ['Seven Stroke Roll', 'R/L/R/>L', 4, false, 'memory'],
  ['Nine Stroke Roll', 'R/L/R/L/>R---L/R/L/R/>L---', 4, true, 'memory'],
  ['Ten Stroke Roll', 'R/L/R/L/>R->L-', 4, false, 'memory'],
  ['Eleven Stroke Roll', 'R/L/R/L/R/>L--', 4, false, 'memory'],
  ['Thirteen Stroke Roll', 'R/L/R/L/R/L/>R-L/R/L/R/L/R/>L-', 4, true, 'memory'],
  ['Fifteen Stroke Roll', 'R/L/R/L/R/L/R/>L', 4, false, 'confirmed'],
  ['Seventeen Stroke Roll', 'R/L/R/L/R/L/R/L/>R---L/R/L/R/L/R/L/R/>L---', 4, true, 'memory'],
  ['Single Paradiddle', '>RLRR>LRLL', 4, true, 'confirmed'],
  ['Double Paradiddle', '>RLRLRR>LRLRLL', 6, true, 'memory'],
  ['Triple Paradiddle', '>RLRLRLRR>LRLRLRLL', 4, true, 'memory'],
  ['Single Paradiddle-Diddle', '>RLRRLL', 6, false, 'memory'],
  ['Flam', 'lRrL', 2, true, 'confirmed'],
  ['Flam Accent', 'l>RLRr>LRL', 3, true, 'memory'],
  ['Flam Tap', 'l>RRr>LL', 4, true, 'memory'],
  ['Flamacue', 'lR>LRLlR---rL>RLRrL---', 4, true, 'memory'],
  ['Flam Paradiddle', 'l>RLRRr>LRLL', 4, true, 'confirmed'],
  ['Single Flammed Mill', 'l>RRLRr>LLRL', 4, true, 'memory'],
  ['Flam Paradiddle-Diddle', 'l>RLRRLLr>LRLLRR', 6, true, 'memory'],
  ['Pataflafla', 'l>RLRr>L', 4, false, 'confirmed'],
  ['Swiss Army Triplet', 'l>RRL', 3, false, 'memory'],
  ['Inverted Flam Tap', 'lRLrLR', 4, true, 'confirmed'],
  ['Flam Drag', 'l>RL/Rr>LR/L', 3, true, 'memory'],
  ['Drag', 'llRrrL', 2, true, 'memory'],
  ['Single Drag Tap', 'llR>LrrL>R', 2, true, 'memory'],
  ['Double Drag Tap', 'llRllR>LrrLrrL>R', 3, true, 'memory'],
  ['Lesson 25', 'llRL>R-', 4, false, 'memory'],
  ['Single Dragadiddle', 'R/LRRL/RLL', 4, true, 'confirmed'],
  ['Drag Paradiddle #1', '>R-llRLRR>L-rrLRLL', 4, true, 'confirmed'],
  ['Drag Paradiddle #2', '>R-llR-llRLRR>L-rrL-rrLRLL', 4, true, 'confirmed'],
  ['Single Ratamacue', '{2:llRLR}>L-{2:rrLRL}>R-', 4, true, 'confirmed'],
  ['Double Ratamacue', 'llR-{2:llRLR}>L-rrL-{2:rrLRL}>R-', 4, true, 'memory'],
  ['Triple Ratamacue', 'llR-llR-{2:llRLR}>L-rrL-rrL-{2:rrLRL}>R-', 4, true, 'memory'],
];

/** The 40, in their order. */
export const RUDIMENTS: readonly Rudiment[] = ROWS.map(([name, text, perBeat, alternates, says], i) => ({
  number: i + 1,
  name,
  text,
  perBeat,
  alternates,
  says,
}));

/** Cycles read so far: the table never changes, and every shelf looks through all of it. */
const CYCLES = new Map<string, Sticking>();

/** One cycle of a rudiment on a lead. */
export function stickingOfRudiment({ text }: Rudiment, lead: 'R' | 'L' = 'R'): Sticking {
  const key = lead + text;
  const known = CYCLES.get(key);
  if (known) return known;
  const right = readSticking(text).value!;
  const cycle = lead === 'R' ? right : mirror(right);
  CYCLES.set(key, cycle);
  return cycle;
}

/** Strokes of a rudiment in order of time, as `soundingOf` gives them: looked through forty times over, so they are made from the text without reading it. */
export function soundingOfRudiment({ text }: Rudiment, lead: 'R' | 'L' = 'R'): string {
  const right = text.replaceAll(/([RL])\//g, '$1$1').replaceAll(/[^RLrl]/g, '');
  return lead === 'R' ? right : Array.from(right, (letter) => OTHER[letter]).join('');
}

const OTHER: Readonly<Record<string, string>> = { R: 'L', L: 'R', r: 'l', l: 'r' };

/**
 * How a rudiment holds a few strokes: with nothing between them, with grace strokes between some of them, or only when its grace strokes count
 * as strokes.
 */
export type RudimentHold = 'plain' | 'graces-between' | 'graces-counted';

/**
 * Whether a cycle holds strokes in a row, as a loop.
 * @param sounding the cycle, of `soundingOf` or `soundingOfRudiment`.
 * @param cell limbs in order, capitals for main strokes and small letters for graces: `LL`, `lR`. Graces written in the cell have to be there.
 * @returns the strictest class that holds it, or null.
 * @example holdOf(soundingOfRudiment(RUDIMENTS[15]), 'RR') // 'plain'
 */
export function holdOf(sounding: string, cell: string): RudimentHold | null {
  if (timesHeld(sounding, cell) > 0) return 'plain';
  if (/[rl]/.test(cell)) return null;
  if (timesHeld(sounding.replaceAll(/[rl]/g, ''), cell) > 0) return 'graces-between';
  return timesHeld(sounding.toUpperCase(), cell) > 0 ? 'graces-counted' : null;
}

/** Limbs of a cycle in order of time: capitals for main strokes, small letters for the graces before them. */
export const soundingOf = ({ strokes }: Sticking): string => strokes.map(({ limb, graces }) => graces.join('').toLowerCase() + limb).join('');

/** How often a word stands in another that is repeated for ever, within one time of it, not counting any stroke twice. */
export function timesHeld(word: string, cell: string): number {
  const loop = word.repeat(2 + Math.ceil(cell.length / word.length));
  const first = loop.indexOf(cell);
  if (first < 0) return 0;
  let count = 0;
  for (let at = first; at >= 0 && at + cell.length <= first + Math.max(word.length, cell.length); at = loop.indexOf(cell, at + cell.length))
    count += 1;
  return count;
}
