/** From a tree to its one canonical text, and to the strokes it means. */
import { add, divide, multiply, ONE, type Rational, rational } from '../rational.ts';
import type { Sticking, WrittenStroke } from './sticking.ts';
import { type Core, type Event, type Part, slotCountOf, type Tree } from './tree.ts';

/** The canonical text: no spaces, accent next to the letter after the graces. */
const writeTree = (tree: Tree): string => tree.map(writePart).join('');

/** The sticking a tree means. */
export const stickingOf = (tree: Tree): Sticking => ({ text: writeTree(tree), slotCount: slotCountOf(tree), strokes: strokesOf(tree) });

function writePart(part: Part): string {
  const inside = part.events.map(writeEvent).join('');
  return part.kind === 'group' ? `{${part.slotCount}:${inside}}` : inside;
}

const writeEvent = (event: Event): string => (event.strokes.length === 0 ? '-' : event.strokes.map(writeCore).join('+'));

function writeCore(core: Core): string {
  const graces = core.graces.join('').toLowerCase();
  const limb = core.ghost ? `(${core.limb})` : core.limb;
  return `${graces}${core.accent ? '>' : ''}${limb}${ROLL_SIGNS[core.roll]}`;
}

const ROLL_SIGNS = { none: '', diddle: '/', buzz: 'z' } as const;

type Unnumbered = Omit<WrittenStroke, 'index'>;

/** Strokes in order of time; those together in order of writing (sorting is stable). */
function strokesOf(tree: Tree): readonly WrittenStroke[] {
  let start = 0;
  const all = tree.flatMap((part) => {
    const strokes = partStrokes(part, start);
    start += part.slotCount;
    return strokes;
  });
  return all.map((stroke, index) => ({ index, ...stroke }));
}

function partStrokes(part: Part, start: number): readonly Unnumbered[] {
  const [only, ...others] = part.events;
  if (others.length === 0 && part.slotCount === 1 && only) return eventStrokes(only, rational(start), ONE);
  const length = rational(part.slotCount, part.events.length);
  return part.events.flatMap((event, i) => eventStrokes(event, add(rational(start), multiply(length, rational(i))), length));
}

function eventStrokes(event: Event, slot: Rational, length: Rational): readonly Unnumbered[] {
  if (event.strokes.every(({ roll }) => roll !== 'diddle')) return event.strokes.map((core) => stroke(core, { slot, length, half: 'first' }));
  const half = divide(length, rational(2));
  const firsts = event.strokes.map((core) => stroke(core, { slot, length: core.roll === 'diddle' ? half : length, half: 'first' }));
  const seconds = event.strokes
    .filter((core) => core.roll === 'diddle')
    .map((core) => stroke(core, { slot: add(slot, half), length: half, half: 'second' }));
  return [...firsts, ...seconds];
}

function stroke(core: Core, place: { slot: Rational; length: Rational; half: 'first' | 'second' }): Unnumbered {
  const first = place.half === 'first';
  return {
    limb: core.limb,
    slot: place.slot,
    lengthSlots: place.length,
    accent: core.accent && first,
    ghost: core.ghost,
    buzz: core.roll === 'buzz',
    diddle: core.roll === 'diddle' ? place.half : null,
    graces: first ? core.graces : [],
    at: core.at,
  };
}
