/** The phrase an exercise is made for, with the shape of what is worked on in it. */
import { DEFAULT_DRUMS } from '../kit/index.ts';
import { lcm } from '../rational.ts';
import { type Cell, cellOf, type Limb, type Sticking, startsOf } from '../sticking/index.ts';
import { barsUntilMet, COMMON_TIME, stickingOfContent } from './content.ts';
import type { ExerciseContent, Focus, Meter } from './exercise.ts';
import { type Hit, hitsIn, isFoot, type Line, lineOfSticking, repeated, rest, slotsOf, startSlotsOf, windowOf } from './line.ts';
import { HOME_BARS, HOME_BEATS } from './parameters.ts';

/** What families are made from. */
export interface Phrase {
  readonly content: ExerciseContent;
  readonly sticking: Sticking;
  readonly focus: Focus;
  readonly cell: Cell;
  /** The phrase with its drums, the cell marked. */
  readonly line: Line;
  /** The cell alone with its drums. */
  readonly cellLine: Line;
  /** First slot of the cell in the phrase. */
  readonly cellSlot: number;
  readonly shape: Shape;
  /** Slots in which an inversion can begin, ascending; its own beginning where there is none. */
  readonly starts: readonly number[];
  /** Hand on the cymbal where time is played around the phrase; the other has the backbeat. */
  readonly cymbalHand: 'R' | 'L';
  /** Side of the floor tom: the hand of that side goes down to it. */
  readonly kitSide: 'R' | 'L';
}

/** Which way round a player sits. */
export interface Sides {
  /** Default the right, crossed over the left on a kit for right-handers. */
  readonly cymbalHand?: 'R' | 'L';
  /** Default the right. */
  readonly kitSide?: 'R' | 'L';
}

/** What kind of cell it is: ideas are chosen by this. */
export interface Shape {
  /** The cell is the whole phrase. */
  readonly whole: boolean;
  readonly hands: boolean;
  readonly feet: boolean;
  /** Two strokes of one limb and nothing else: whose. */
  readonly pair: Limb | null;
  readonly graces: boolean;
  /** Every place of the phrase is one slot, with one stroke or none. */
  readonly plain: boolean;
  /** The same for the cell. */
  readonly cellPlain: boolean;
}

/** A phrase with what is worked on in it. */
export function phraseOf(content: ExerciseContent, focus: Focus, { cymbalHand = 'R', kitSide = 'R' }: Sides = {}): Phrase {
  const sticking = stickingOfContent(content);
  const cell = cellOf(sticking, focus.cell);
  const { length } = sticking.strokes;
  const inCell = (index: number) => (index - cell.first + length) % length < cell.sticking.strokes.length;
  const line = lineOfSticking(sticking, content.surfaces, inCell);
  const cellSlot = cellSlotOf(line, cell.first);
  const cellLine = windowOf(line, cellSlot, cell.sticking.slotCount);
  return {
    content,
    sticking,
    focus,
    cell,
    line,
    cellLine,
    cellSlot,
    shape: shapeOf(line, cellLine),
    starts: startSlotsIn(sticking),
    cymbalHand,
    kitSide,
  };
}

/** First slot of the place that holds a main stroke. */
function cellSlotOf(line: Line, first: number): number {
  let count = 0;
  const at = line.findIndex((each) => {
    count += strokesIn([each]);
    return count > first;
  });
  return startSlotsOf(line)[at]!;
}

/** Main strokes in a line: a diddle is two. */
export const strokesIn = (line: Line): number => hitsIn(line).reduce((sum, { drums }) => sum + drums.length, 0);

function shapeOf(line: Line, cellLine: Line): Shape {
  const hits = hitsIn(cellLine);
  const [first, second] = hits;
  const cellPlain = isPlain(cellLine);
  const pair = cellPlain && hits.length === 2 && slotsOf(cellLine) === 2 && first!.limb === second!.limb;
  return {
    whole: hits.length === hitsIn(line).length,
    hands: hits.some(({ limb }) => !isFoot(limb)),
    feet: hits.some(({ limb }) => isFoot(limb)),
    pair: pair ? first!.limb : null,
    graces: hits.some(({ graces }) => graces.length > 0),
    plain: isPlain(line),
    cellPlain,
  };
}

/** Whether every place is one slot with one stroke or none, no roll. */
export const isPlain = (line: Line): boolean =>
  line.every(({ events, grouped }) => !grouped && events[0]!.length <= 1 && events[0]!.every(({ roll }) => roll === 'none'));

/** The drum a limb plays in the phrase, or its usual one. */
export const drumOf = ({ line }: Phrase, limb: Limb): string => hitsIn(line).find((each) => each.limb === limb)?.drums[0] ?? DEFAULT_DRUMS[limb];

/** Whether a limb plays in the phrase, a grace included. */
export const plays = ({ line }: Phrase, limb: Limb): boolean =>
  hitsIn(line).some((each) => each.limb === limb || (!isFoot(limb) && each.graces.some((hand) => hand === limb)));

function startSlotsIn(sticking: Sticking): readonly number[] {
  const slots = startsOf(sticking).map((index) => sticking.strokes[index]!.slot.num);
  return slots.length > 0 ? slots : [0];
}

/** Slots of a bar. */
export const barSlotsOf = ({ perBeat, meter }: ExerciseContent): number => perBeat * meter.beats;

/** A phrase repeated until it fills bars. */
export interface Home {
  readonly meter: Meter;
  readonly block: Line;
}

/**
 * Whole cycles in whole bars, for exercises that set one thing beside another: in the phrase's own meter when one or two bars hold them,
 * else in a meter that a few beats make (RLRLKK in sixteenths: 3/4), else one cycle and a rest up to the bar line.
 * @param line as long as the phrase.
 */
export function homeOf({ content }: Phrase, line: Line): Home {
  const { perBeat, meter } = content;
  const slots = slotsOf(line);
  if (barsUntilMet(slots, perBeat, meter) <= HOME_BARS) return { meter, block: repeated(line, lcm(slots, perBeat * meter.beats) / slots) };
  const beats = lcm(slots, perBeat) / perBeat;
  if (beats <= HOME_BEATS) return { meter: { beats, unit: meter.unit }, block: repeated(line, (beats * perBeat) / slots) };
  return { meter, block: toBarLine(line, content) };
}

/** The line with silence up to the next bar line. */
export function toBarLine(line: Line, content: ExerciseContent): Line {
  const bar = barSlotsOf(content);
  return [...line, ...rest(Math.ceil(slotsOf(line) / bar) * bar - slotsOf(line))];
}

/** The meter in which so many slots are whole bars, or fill one evenly: the phrase's own, else 4/4, else one of a few beats, else the phrase's own all the same. */
export function meterFor({ content }: Phrase, slots: number): Meter {
  const { perBeat, meter } = content;
  const fits = ({ beats }: Meter) => Number.isInteger(beats) && (slots % (beats * perBeat) === 0 || (beats * perBeat) % slots === 0);
  const own = [meter, COMMON_TIME, { beats: 3, unit: 4 }, { beats: slots / perBeat, unit: 4 }].find(fits);
  return own && own.beats <= HOME_BEATS ? own : meter;
}

/** The hand that a limb is not; the right for a foot. */
export const otherHand = (limb: Limb): 'R' | 'L' => (limb === 'R' ? 'L' : 'R');

/** The strokes of a line, first limb first, handed from hand to hand without graces, on the drums of the hands. */
export function handToHand(phrase: Phrase, line: Line): Line {
  const lead = hitsIn(line).find(({ limb }) => !isFoot(limb))?.limb ?? 'R';
  return line.map((each, i) => {
    const before = hitsIn(line.slice(0, i)).length;
    const limb = before % 2 === 0 ? lead : otherHand(lead);
    return { ...each, events: each.events.map((hits) => hits.map((one): Hit => ({ ...one, limb, graces: [], drums: [drumOf(phrase, limb)] }))) };
  });
}

/** The cell as text. */
export const cellText = ({ cell }: Phrase): string => cell.sticking.text;

/** The cell with silence up to a whole number of beats, at least `least` slots of it. */
export function onBeats({ cellLine, content }: Phrase, least = 0): Line {
  const slots = slotsOf(cellLine) + least;
  return [...cellLine, ...rest(Math.ceil(slots / content.perBeat) * content.perBeat - slotsOf(cellLine))];
}
