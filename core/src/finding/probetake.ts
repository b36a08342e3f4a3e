/** Takes of about twenty seconds that change one thing, written from a phrase. */
import { type ExerciseContent, readContent, stickingOfContent } from '../exercise/index.ts';
import { DEFAULT_DRUMS } from '../kit/index.ts';
import { toNumber } from '../rational.ts';
import { type Limb, mirror, readSticking, rotate, type Sticking, startsOf, type WrittenStroke } from '../sticking/index.ts';

export type ProbeKind =
  | 'pair-alone'
  | 'other-hand'
  | 'hands-for-feet'
  | 'threes'
  | 'accent-second'
  | 'begun-elsewhere'
  | 'slow'
  | 'other-surface'
  | 'heel'
  | 'click-off'
  | 'first-last';

/** What a probe asks to be played. */
export interface ProbeTake {
  readonly kind: ProbeKind;
  readonly content: ExerciseContent;
  /** Of each of its main strokes, which of the phrase's it stands for; null: of none. */
  readonly standsFor: readonly (number | null)[];
  /** Its tempo over that of the phrase. */
  readonly tempoShare: number;
  readonly withClick: boolean;
}

/** A stroke of a probe: how it is written, on which drum, and for whom it stands. */
interface Put {
  readonly stroke: Pick<WrittenStroke, 'limb' | 'accent' | 'ghost' | 'buzz' | 'graces'>;
  readonly surface: string;
  readonly standsFor: number | null;
}

type Slots = readonly (readonly Put[])[];

/**
 * Every probe that the phrase allows and that changes the sticking, without knowing what it is for.
 * @param cell neighbouring strokes of one limb to be played alone, from 0; null when there are none.
 */
export function stickingProbes(content: ExerciseContent, cell: { readonly first: number; readonly second: number } | null): ProbeTake[] {
  const sticking = stickingOfContent(content);
  const whole = sticking.strokes.map(({ index }) => index);
  const probes: (ProbeTake | null)[] = [turned(content, sticking)];
  if (sticking.strokes.some(({ limb }) => limb === 'R' || limb === 'L')) {
    const other = mirror(sticking);
    if (other.text !== sticking.text) probes.push({ kind: 'other-hand', content: { ...content, sticking: other.text }, standsFor: whole, ...USUAL });
  }
  const slots = slotsOf(content, sticking);
  if (slots) {
    probes.push(probeOf('hands-for-feet', content, handsForFeet(slots)));
    if (cell) {
      probes.push(probeOf('pair-alone', content, alone(slots, content, cell)));
      probes.push(probeOf('threes', content, threes(slots, cell)));
      probes.push(probeOf('accent-second', content, accentOn(slots, cell.second)));
    }
  }
  return probes.filter((probe) => probe !== null);
}

/** Probes that change no stroke but how it is played. */
export const mannerProbe = (kind: 'slow' | 'other-surface' | 'heel' | 'click-off' | 'first-last', content: ExerciseContent): ProbeTake => ({
  kind,
  content,
  standsFor: stickingOfContent(content).strokes.map(({ index }) => index),
  tempoShare: kind === 'slow' ? SLOW_SHARE : 1,
  withClick: kind !== 'click-off',
});

/** Very slow: at this share of the tempo rebound carries nobody. Assumption. */
const SLOW_SHARE = 0.6;
const USUAL = { tempoShare: 1, withClick: true } as const;

/** The phrase begun on a stroke that lies elsewhere in the beat. */
function turned(content: ExerciseContent, sticking: Sticking): ProbeTake | null {
  const slotOf = (index: number) => toNumber(sticking.strokes[index]!.slot);
  const first = slotOf(0);
  const start = startsOf(sticking).find((index) => (slotOf(index) - first) % content.perBeat !== 0);
  if (start === undefined) return null;
  const count = sticking.strokes.length;
  const from = (index: number) => (index + start) % count;
  const surfaces = content.surfaces.map((_, index) => content.surfaces[from(index)]!);
  const standsFor = surfaces.map((_, index) => from(index));
  return { kind: 'begun-elsewhere', content: { ...content, sticking: rotate(sticking, start).text, surfaces }, standsFor, ...USUAL };
}

/** The phrase slot by slot; null when strokes lie between slots. */
function slotsOf({ surfaces }: ExerciseContent, { strokes, slotCount }: Sticking): Slots | null {
  const plain = strokes.every(({ slot, lengthSlots, diddle }) => Number.isInteger(toNumber(slot)) && toNumber(lengthSlots) === 1 && diddle === null);
  if (!plain) return null;
  const slots: Put[][] = Array.from({ length: slotCount }, () => []);
  for (const stroke of strokes) slots[toNumber(stroke.slot)]!.push({ stroke, surface: surfaces[stroke.index]!, standsFor: stroke.index });
  return slots;
}

const isFoot = (limb: Limb): boolean => limb === 'K' || limb === 'H';

/** Every foot's stroke by the hand that did not play last before its run. */
function handsForFeet(slots: Slots): Slots | null {
  if (slots.some((puts) => puts.length > 1) || !slots.some(([put]) => put && isFoot(put.stroke.limb))) return null;
  let hand: 'R' | 'L' | null = null;
  const hands = slots.flatMap(([put]) => (put && !isFoot(put.stroke.limb) ? [put.stroke.limb] : []));
  let last: Limb = hands.at(-1) ?? 'L';
  return slots.map((puts) =>
    puts.map((put) => {
      if (!isFoot(put.stroke.limb)) {
        hand = null;
        last = put.stroke.limb;
        return put;
      }
      hand ??= last === 'R' ? 'L' : 'R';
      return { ...put, stroke: { ...put.stroke, limb: hand, graces: [] }, surface: DEFAULT_DRUMS[hand] };
    }),
  );
}

interface Pair {
  readonly first: number;
  readonly second: number;
}

const slotOf = (slots: Slots, index: number): number => slots.findIndex((puts) => puts.some(({ standsFor }) => standsFor === index));
const only = (puts: readonly Put[], index: number): Put[] => puts.filter(({ standsFor }) => standsFor === index);

/** The pair on the beat, and the rest of two beats silent. Out of the phrase it stands for no place of it: what is left of a finding here is the pair's own. */
function alone(slots: Slots, { perBeat }: ExerciseContent, { first, second }: Pair): Slots {
  const pair = [only(slots[slotOf(slots, first)]!, first), only(slots[slotOf(slots, second)]!, second)];
  const rests = Array.from({ length: Math.max(2, perBeat) - 2 }, (): Put[] => []);
  const out = pair.map((puts) => puts.map((put) => ({ ...put, standsFor: null })));
  return [...out, ...rests, ...out, ...rests];
}

/** One more stroke of the limb after the pair. */
function threes(slots: Slots, { first, second }: Pair): Slots | null {
  const [from, at] = [slotOf(slots, first), slotOf(slots, second)];
  if (slots[at]!.length > 1 || slots[from]!.length > 1) return null;
  const third = slots[at]!.map((put) => ({ ...put, stroke: { ...put.stroke, accent: false, graces: [] }, standsFor: null }));
  return [...slots.slice(0, at + 1), third, ...slots.slice(at + 1)];
}

const accentOn = (slots: Slots, index: number): Slots =>
  slots.map((puts) => puts.map((put) => (put.standsFor === index ? { ...put, stroke: { ...put.stroke, accent: true, ghost: false } } : put)));

function probeOf(kind: ProbeKind, { perBeat, meter }: ExerciseContent, slots: Slots | null): ProbeTake | null {
  const read = slots && readSticking(slots.map(written).join(' ')).value;
  const surfaces = slots?.flat().map(({ surface }) => surface) ?? [];
  const content = read && readContent(read, { perBeat, meter, surfaces: surfaces.join(' ') }).value;
  return content ? { kind, content, standsFor: slots!.flat().map(({ standsFor }) => standsFor), ...USUAL } : null;
}

function written(puts: readonly Put[]): string {
  if (puts.length === 0) return '-';
  return puts
    .map(({ stroke: { limb, accent, ghost, buzz, graces } }) => {
      const core = ghost ? `(${limb})` : `${limb}${buzz ? 'z' : ''}`;
      return `${accent ? '>' : ''}${graces.join('').toLowerCase()}${core}`;
    })
    .join('+');
}
