/** The shape that a player wants: steps of volume and shifts in time that are meant, and so are nobody's fault. */
import type { ExpectedCycle } from '../exercise/index.ts';
import type { CycleEvent, Measurement } from '../measurement/index.ts';
import { median } from '../quantiles.ts';
import type { Limb } from '../sticking/index.ts';
import { doublesOf } from './doubles.ts';
import type { Shape } from './finding.ts';
import { type Observed, type ObservedTake, observe } from './observed.ts';
import { GHOST_DB } from './parameters.ts';

/** Strokes that may differ from the others one way: `sign` 1 is later or louder. */
export interface Wanted {
  readonly measured: 'time' | 'volume';
  readonly weights: Float64Array;
  readonly sign: 1 | -1;
}

/**
 * What is meant in a take, in the order in which it is taken away. A second kick that leans into the beat is meant unless
 * the shape says otherwise. @source [Gillick2019] in 78 % of recorded kick pairs the second is louder
 * @param shapes none: even.
 */
export function wantedIn(take: ObservedTake, shapes: readonly Shape[]): Wanted[] {
  return [...doublesWanted(take, shapes), ...(shapes.includes('ghosted') ? ghostsIn(take) : []), ...timesWanted(take, shapes)];
}

const LIMBS: readonly Limb[] = ['R', 'L', 'K', 'H'];

const touching = (events: readonly CycleEvent[], touches: (event: CycleEvent, place: number) => boolean): Float64Array =>
  Float64Array.from(events, (event, place) => (touches(event, place) ? 1 : 0));

const someOf = (weights: Float64Array): boolean => weights.includes(1) && weights.includes(0);

function doublesWanted({ events, lengthBeats }: ObservedTake, shapes: readonly Shape[]): Wanted[] {
  const doubles = doublesOf(events, lengthBeats);
  const first = shapes.includes('first-accented');
  const limbs: readonly Limb[] = first || shapes.includes('leaning') ? LIMBS : ['K'];
  return limbs.flatMap((limb) => {
    const seconds = new Set(doubles.filter((double) => double.limb === limb).map(({ second }) => second));
    const weights = touching(events, ({ strokes }) => strokes.some(({ index }) => seconds.has(index)));
    return seconds.size === 0 ? [] : [{ measured: 'volume' as const, weights, sign: first ? (-1 as const) : (1 as const) }];
  });
}

/** Hand strokes without an accent that are far softer than the loudest of their drum: held against each other, not against it. */
function ghostsIn({ events, volume }: ObservedTake): Wanted[] {
  const plain = (event: CycleEvent) => event.hand && !event.kick && !event.accent && !event.ghost;
  const drums = [...new Set(events.filter(plain).map(({ strokes }) => strokes[0]!.surface))];
  return drums.flatMap((surface) => {
    const here = (event: CycleEvent) => plain(event) && event.strokes[0]!.surface === surface;
    const loudestDb = loudest(events.map(here), volume);
    const weights = touching(events, (event, place) => here(event) && volume.counts[place]! > 0 && volume.means[place]! <= loudestDb - GHOST_DB);
    return someOf(weights) ? [{ measured: 'volume' as const, weights, sign: -1 as const }] : [];
  });
}

const loudest = (here: readonly boolean[], { means, counts }: Observed): number =>
  Math.max(...here.map((is, place) => (is && counts[place]! > 0 ? means[place]! : Number.NEGATIVE_INFINITY)));

/** Swing: the second of two in the half, quarter or eighth of a beat comes late. Laid back: a limb or the accents come late as a whole. */
function timesWanted({ events }: ObservedTake, shapes: readonly Shape[]): Wanted[] {
  const late = (touches: (event: CycleEvent) => boolean): Wanted[] => {
    const weights = touching(events, touches);
    return someOf(weights) ? [{ measured: 'time', weights, sign: 1 }] : [];
  };
  const swung = shapes.includes('swing') ? [2, 4, 8].flatMap((parts) => late(({ beat }) => isOddPart(beat, parts))) : [];
  if (!shapes.includes('laid-back')) return swung;
  const limbs = LIMBS.flatMap((limb) => late(({ strokes }) => strokes.some((stroke) => stroke.limb === limb)));
  return [...swung, ...late(({ accent }) => accent), ...limbs];
}

const NEAR = 1e-6;

/** 1/4 and 3/4 of a beat of 4 parts, not 0 or 2/4. */
function isOddPart(beat: number, parts: number): boolean {
  const part = (beat - Math.floor(beat + NEAR)) * parts;
  return Math.abs(part - Math.round(part)) < NEAR * parts && Math.round(part) % 2 === 1;
}

/** How far each main stroke is meant to be off, by index: as far as it went the way that is wanted. */
export interface Meant {
  readonly timeMs: readonly number[];
  readonly volumeDb: readonly number[];
}

/**
 * The shape as it was played, to judge single strokes against: of strokes that are meant late or soft, how late and soft they came on the whole.
 * @param shapes none: only kicks that lean into the second.
 */
export function meantShape(measurement: Measurement, cycle: ExpectedCycle, shapes: readonly Shape[]): Meant {
  const take = observe(measurement, cycle);
  const meant = { time: new Float64Array(take.events.length), volume: new Float64Array(take.events.length) };
  for (const { measured, weights, sign } of wantedIn(take, shapes)) {
    const { means, precisions } = take[measured];
    const left = means.map((mean, place) => mean - meant[measured][place]!);
    const step = meanOver(left, precisions, weights, 1) - meanOver(left, precisions, weights, 0);
    if (step * sign > 0) for (let place = 0; place < weights.length; place++) meant[measured][place]! += weights[place]! * step;
  }
  const byIndex = (values: Float64Array) => {
    const known: number[] = [];
    take.events.forEach(({ strokes }, place) => {
      for (const { index } of strokes) known[index] = values[place]!;
    });
    return known;
  };
  // Errors are told about the middle place, wherever the late ones have drawn it.
  const middle = median(Array.from(meant.time));
  return { timeMs: byIndex(meant.time.map((ms) => ms - middle)), volumeDb: byIndex(meant.volume) };
}

/** Mean of the places that weigh `is`, each counting for what it is worth. */
function meanOver(values: Float64Array, precisions: Float64Array, weights: Float64Array, is: 0 | 1): number {
  let [sum, all] = [0, 0];
  values.forEach((value, place) => {
    if (weights[place] !== is) return;
    sum += precisions[place]! * value;
    all += precisions[place]!;
  });
  return sum / all;
}
