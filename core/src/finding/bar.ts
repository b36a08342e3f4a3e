/** Places in the beat and in the bar, which a cycle may meet anew each time round; and the fill among them. */
import { DRUMS } from '../kit/index.ts';
import type { CycleEvent } from '../measurement/index.ts';

/** What is needed of a cycle. */
interface InBars {
  readonly events: readonly CycleEvent[];
  readonly lengthBeats: number;
  readonly barBeats: number;
}

/** Strokes at a place in the beat or bar. */
export interface BarColumn {
  readonly key: string;
  readonly indices: readonly number[];
  readonly weights: Float64Array;
  /** Null when the place in the bar is the same in every cycle. */
  readonly at: ((place: number, cycle: number, gone: number) => number) | null;
}

const NEAR = 1e-6;
const modulo = (a: number, b: number): number => {
  const rest = ((a % b) + b) % b;
  return b - rest < NEAR ? 0 : rest;
};

/** Every place in the beat, every beat of the bar and the first stroke of the bar, as far as they part the strokes of the take. */
export function barColumns(view: InBars): BarColumn[] {
  const { events, lengthBeats, barBeats } = view;
  const fractions = [...new Set(events.map(({ beat }) => round(modulo(beat, 1))))].sort((a, b) => a - b);
  const inBeat = Number.isInteger(round(lengthBeats)) && fractions.length > 1 ? fractions : [];
  const beats = Array.from({ length: Math.ceil(barBeats) }, (_, beat) => beat);
  return [
    ...inBeat.flatMap((fraction) => column(view, `in-beat:${fraction}`, (beat) => Math.abs(modulo(beat, 1) - fraction) < NEAR)),
    ...(barBeats > 1 ? beats.flatMap((n) => column(view, `beat:${n + 1}`, (beat) => Math.floor(modulo(beat, barBeats) + NEAR) === n)) : []),
    ...column(view, 'bar:1', (beat) => modulo(beat, barBeats) < NEAR),
  ];
}

const round = (value: number): number => Math.round(value / NEAR) * NEAR;

function column({ events, lengthBeats, barBeats }: InBars, key: string, holds: (beat: number) => boolean): BarColumn[] {
  const inCycle = (place: number, cycle: number) => (holds(cycle * lengthBeats + events[place]!.beat) ? 1 : 0);
  const turns = turnsOf(lengthBeats, barBeats);
  const weights = Float64Array.from(events, (_, place) => {
    let sum = 0;
    for (let cycle = 0; cycle < turns; cycle++) sum += inCycle(place, cycle);
    return sum / turns;
  });
  const same = weights.every((weight) => weight === 0 || weight === 1);
  const touched = weights.reduce((sum, weight) => sum + weight, 0);
  if (touched === 0 || touched === events.length) return [];
  const indices = events.flatMap(({ strokes }, place) => (weights[place]! > 0 ? strokes.map(({ index }) => index) : [])).sort((a, b) => a - b);
  return [{ key: `bar-place:${key}`, indices, weights, at: same ? null : inCycle }];
}

/** After how many cycles the cycle meets the bar line again; 48 when it hardly ever does. */
function turnsOf(lengthBeats: number, barBeats: number): number {
  for (let turns = 1; turns < 48; turns++) if (modulo(turns * lengthBeats, barBeats) < NEAR) return turns;
  return 48;
}

/** Drums that a fill goes to. */
const FILL_DRUMS = new Set(DRUMS.map(({ name }) => name).filter((name) => name.endsWith('-tom')));

/**
 * The strokes of the fill and how far into it each lies, on average 1, so that who runs ahead is further off with each stroke.
 * @param told main strokes of the fill; when empty, a row of three strokes or more that holds all the tom strokes of the cycle.
 */
export function fillOf(events: readonly CycleEvent[], told: readonly number[]): { indices: readonly number[]; weights: Float64Array } {
  const places =
    told.length > 0 ? events.flatMap(({ strokes }, place) => (strokes.some(({ index }) => told.includes(index)) ? [place] : [])) : tomRow(events);
  const weights = new Float64Array(events.length);
  if (places.length < 3 || places.length > events.length - 2) return { indices: [], weights };
  places.forEach((place, i) => {
    weights[place] = (2 * i) / (places.length - 1);
  });
  return { indices: places.flatMap((place) => events[place]!.strokes.map(({ index }) => index)), weights };
}

function tomRow(events: readonly CycleEvent[]): number[] {
  const toms = events.flatMap(({ strokes }, place) => (strokes.some(({ surface }) => FILL_DRUMS.has(surface)) ? [place] : []));
  if (toms.length < 3) return [];
  const [first, last] = [toms[0]!, toms.at(-1)!];
  return Array.from({ length: last - first + 1 }, (_, i) => first + i);
}
