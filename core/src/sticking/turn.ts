/** The same sticking otherwise: begun on another stroke, with the hands swapped, or only some of its strokes. */
import { ParameterError } from '../errors.ts';
import { treeOf } from './read.ts';
import type { Limb, Sticking } from './sticking.ts';
import { type Core, type Event, type Part, strokeCountIn, type Tree } from './tree.ts';
import { stickingOf } from './write.ts';

/**
 * Main strokes on which an inversion can begin: the first stroke of every event that sounds. The second stroke of a diddle,
 * strokes inside a group and the further strokes of several together are no beginnings.
 * @returns indices, ascending; never empty.
 */
export function startsOf(sticking: Sticking): readonly number[] {
  return placed(treeOf(sticking))
    .filter(({ part }) => part.events[0]!.strokes.length > 0)
    .map(({ first }) => first);
}

/**
 * The inversion that begins on stroke `start`: the same cycle, later begun, so slots and rests turn with it and main stroke
 * `i` becomes `(i - start) mod n`.
 * @param start one of `startsOf(sticking)`.
 * @throws ParameterError when no inversion can begin there.
 */
export function rotate(sticking: Sticking, start: number): Sticking {
  const parts = placed(treeOf(sticking));
  const at = parts.findIndex(({ part, first }) => first === start && part.events[0]!.strokes.length > 0);
  if (at < 0) throw new ParameterError('start', start, `one of ${startsOf(sticking).join(' ')}`);
  return stickingOf([...parts.slice(at), ...parts.slice(0, at)].map(({ part }) => part));
}

/**
 * The sticking with the other hand leading; indices stay.
 * @param options `feet`: 'kept' (default) or 'swapped' (K and H change too).
 */
export function mirror(sticking: Sticking, { feet = 'kept' }: { readonly feet?: 'kept' | 'swapped' } = {}): Sticking {
  const other = (limb: Limb): Limb => ({ R: 'L', L: 'R', K: feet === 'kept' ? 'K' : 'H', H: feet === 'kept' ? 'H' : 'K' })[limb] as Limb;
  const turn = (core: Core): Core => ({ ...core, limb: other(core.limb), graces: core.graces.map((hand) => (hand === 'R' ? 'L' : 'R')) });
  const turnEvent = (event: Event): Event => ({ ...event, strokes: event.strokes.map(turn) });
  return stickingOf(treeOf(sticking).map((part) => ({ ...part, events: part.events.map(turnEvent) })));
}

/** Some neighbouring strokes as a sticking of their own. */
export interface Cell {
  readonly sticking: Sticking;
  /** Index, in the whole sticking, of the cell's stroke 0; stroke i of the cell is `(first + i) mod n` of the whole. */
  readonly first: number;
}

/**
 * The strokes from `first` to `last`, with the rests between them. Diddles, groups and strokes together are never cut: the cell grows to hold them.
 * @param range main strokes from 0, both held; `last < first` wraps around the end of the cycle.
 * @throws ParameterError when a bound is no main stroke.
 */
export function cellOf(sticking: Sticking, range: { readonly first: number; readonly last: number }): Cell {
  const parts = placed(treeOf(sticking));
  const from = holding(parts, range.first);
  const to = holding(parts, range.last);
  const wraps = to < from || (to === from && range.last < range.first);
  const taken = wraps ? [...parts.slice(from), ...parts.slice(0, to === from ? to : to + 1)] : parts.slice(from, to + 1);
  return { sticking: stickingOf(taken.map(({ part }) => part)), first: parts[from]!.first };
}

interface Placed {
  readonly part: Part;
  /** Index of the part's first main stroke; of the next one for a rest. */
  readonly first: number;
  readonly strokeCount: number;
}

function placed(tree: Tree): readonly Placed[] {
  let first = 0;
  return tree.map((part) => {
    const strokeCount = strokeCountIn(part);
    const place = { part, first, strokeCount };
    first += strokeCount;
    return place;
  });
}

function holding(parts: readonly Placed[], index: number): number {
  const at = parts.findIndex(({ first, strokeCount }) => index >= first && index < first + strokeCount);
  if (at < 0) throw new ParameterError('index', index, 'a main stroke of the sticking');
  return at;
}
