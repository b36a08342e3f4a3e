/** Fills: the phrase at the end of bars of time, from one beat to two bars, resolved over the bar line and landed on 1. */
import type { Limb } from '../sticking/index.ts';
import type { Family } from './exercise.ts';
import { lengthsOf } from './groove.ts';
import type { Idea } from './idea.ts';
import { type Hit, hitsIn, isFoot, type Line, mapHits, onsetsOf, repeated, slotsOf, startSlotsOf, textOf, windowOf } from './line.ts';
import { ROUND } from './parameters.ts';
import { barSlotsOf, type Phrase } from './phrase.ts';
import { backbeatsOf, timeBar } from './timebar.ts';

const family: Family = 'fill';

/** Fills for a phrase. */
export function fillIdeas(phrase: Phrase): readonly Idea[] {
  const { meter, perBeat } = phrase.content;
  if (backbeatsOf(meter).length === 0 || perBeat < 2) return [];
  const bar = barSlotsOf(phrase.content);
  const fill = fillOf(phrase, bar);
  const short = Array.from({ length: meter.beats - 1 }, (_, i) => i + 1).filter((beats) => beats <= 3);
  return [
    ...afterTime(phrase, fill, 3),
    ...afterTime(phrase, fill, 7),
    ...resolved(phrase, fill),
    ...short.flatMap((beats) => shortFill(phrase, beats)),
    ...twoBars(phrase, fillOf(phrase, 2 * bar)),
  ];
}

/** Some slots of the phrase as a fill. */
export interface Fill {
  readonly line: Line;
  /** Stroke of the phrase it begins on, from 1. */
  readonly stroke: number;
  /** What lands on 1 after it: the kick joins the crash unless the foot has just played. */
  readonly landing: 'both' | 'crash';
}

/**
 * The phrase begun where, cut to so many slots, it holds the whole cell and ends on a hand that leaves the other for the crash and the foot
 * for the kick; of equals the earliest start. Null where nothing sounds in those slots or the cell has no room.
 */
export function fillOf(phrase: Phrase, slots: number): Fill | null {
  const { sticking, line } = phrase;
  const cellCount = hitsIn(phrase.cellLine).length;
  const options = phrase.starts.map((slot) => {
    const taken = windowOf(line, slot, slots);
    const endsWith = (limb: Limb) => onsetsOf(taken, limb).some((onset) => onset >= slots - 1);
    const splits = hitsIn(phrase.cellLine).length < hitsIn(line).length && slot !== phrase.cellSlot && hitsIn(taken)[0]?.inCell === true;
    const cost =
      (wholeCells(taken, cellCount) === 0 ? NO_CELL : 0) +
      (endsWith('K') || endsWith('H') ? 4 : 0) +
      (endsWith(phrase.cymbalHand) ? 2 : 0) +
      (splits ? 1 : 0);
    const stroke = sticking.strokes.findIndex((each) => each.slot.num === slot && each.slot.den === 1) + 1;
    const landing = endsWith('K') ? ('crash' as const) : ('both' as const);
    return { line: taken, stroke, landing, cost };
  });
  const best = options.reduce((least, each) => (each.cost < least.cost ? each : least));
  return best.cost < NO_CELL ? best : null;
}

/** What a fill without the whole cell costs: more than everything else together. */
const NO_CELL = 16;

/** How often the whole cell stands in a line, its strokes following each other. */
function wholeCells(line: Line, cellCount: number): number {
  const marks = hitsIn(line).map(({ inCell }) => inCell);
  let run = 0;
  let found = 0;
  for (const mark of marks) {
    run = mark ? run + 1 : 0;
    if (run === cellCount) {
      found += 1;
      run = 0;
    }
  }
  return found;
}

/** Hands on the next drum down with every cycle, or every beat where there are too few cycles, when the phrase keeps its hands on the snare. */
function downTheDrums(phrase: Phrase, line: Line): Line {
  const onSnare = hitsIn(phrase.line).every(({ limb, drums }) => isFoot(limb) || drums.every((drum) => drum === 'snare'));
  if (!onSnare) return line;
  const cycle = slotsOf(phrase.line) * (ROUND.length - 1) > slotsOf(line) ? phrase.content.perBeat : slotsOf(phrase.line);
  const starts = startSlotsOf(line);
  const drumAt = (slot: number) => ROUND[Math.min(ROUND.length - 1, Math.floor(slot / cycle))]!;
  return line.flatMap((each, i) =>
    mapHits([each], (one): Hit => (isFoot(one.limb) ? one : { ...one, drums: one.drums.map(() => drumAt(starts[i]!)) })),
  );
}

/** So many bars of time, the next one the phrase. */
function afterTime(phrase: Phrase, fill: Fill | null, timeBars: number): readonly Idea[] {
  if (!fill) return [];
  const plain = repeated(timeBar(phrase), timeBars - 1);
  const line = [...timeBar(phrase, { landing: fill.landing }), ...plain, ...downTheDrums(phrase, fill.line)];
  const params = { ...saidOf(phrase, fill), timeBars };
  const turn = timeBars === 3 ? 16 : 74;
  return [{ family, line, turn, title: { code: 'title-fill-bar', params }, reason: { code: 'reason-fill-bar', params } }];
}

/** A bar of the phrase, cut where the next bar begins, then a bar of time that begins with the landing. */
function resolved(phrase: Phrase, fill: Fill | null): readonly Idea[] {
  if (!fill || barSlotsOf(phrase.content) % slotsOf(phrase.line) === 0) return [];
  const line = [...fill.line, ...timeBar(phrase, { landing: fill.landing })];
  const params = saidOf(phrase, fill);
  return [{ family, line, turn: 24, title: { code: 'title-resolved', params }, reason: { code: 'reason-resolved', params } }];
}

/** A bar of time, and one whose last beats are the fill. */
function shortFill(phrase: Phrase, beats: number): readonly Idea[] {
  const { content } = phrase;
  const slots = beats * content.perBeat;
  const fill = fillOf(phrase, slots);
  if (!fill) return [];
  const before = windowOf(timeBar(phrase), 0, barSlotsOf(content) - slots);
  const line = [...timeBar(phrase, { landing: fill.landing }), ...before, ...fill.line];
  const params = { sticking: textOf(fill.line), stroke: fill.stroke, beats, landing: fill.landing };
  return [{ family, line, turn: 40 + 12 * beats, title: { code: 'title-fill-short', params }, reason: { code: 'reason-fill-short', params } }];
}

function twoBars(phrase: Phrase, fill: Fill | null): readonly Idea[] {
  if (!fill) return [];
  const line = [...timeBar(phrase, { landing: fill.landing }), ...timeBar(phrase), ...downTheDrums(phrase, fill.line)];
  const params = { ...saidOf(phrase, fill, 2), timeBars: 2 };
  return [{ family, line, turn: 72, title: { code: 'title-fill-two-bars', params }, reason: { code: 'reason-fill-two-bars', params } }];
}

const saidOf = (phrase: Phrase, fill: Fill, bars = 1) => ({
  sticking: textOf(windowOf(fill.line, 0, Math.min(slotsOf(fill.line), slotsOf(phrase.line)))),
  stroke: fill.stroke,
  lengths: lengthsOf(phrase, bars * barSlotsOf(phrase.content)),
  landing: fill.landing,
});
