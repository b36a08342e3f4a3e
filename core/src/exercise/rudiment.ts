/** Rudiments that hold the cell; for a cell with a foot, rudiments of its shape with one hand given to that foot. */
import { DEFAULT_DRUMS } from '../kit/index.ts';
import {
  holdOf,
  type Limb,
  RUDIMENTS,
  type Rudiment,
  type RudimentHold,
  soundingOfRudiment,
  stickingOfRudiment,
  timesHeld,
} from '../sticking/index.ts';
import { COMMON_TIME } from './content.ts';
import type { Family } from './exercise.ts';
import type { Idea } from './idea.ts';
import { type Hit, hitsIn, type Line, lineOfSticking, mapHits, slotsOf, startSlotsOf, textOf } from './line.ts';
import { drumOf, meterFor, otherHand, type Phrase } from './phrase.ts';

const family: Family = 'rudiment';

/** Rudiments for a phrase, those that hold most of the cell first. */
export function rudimentIdeas(phrase: Phrase): readonly Idea[] {
  for (const word of wordsOf(phrase)) {
    const held = rudimentsHolding(word);
    if (held.length > 0) return [...held, ...smaller(held, word)].map((each, i) => ideaOf(phrase, each, i));
  }
  return [];
}

/** For a word that begins with a flam and goes on: the first rudiments that hold its flam alone, which come before the phrase is whole again. */
function smaller(held: readonly HeldRudiment[], word: string): readonly HeldRudiment[] {
  const flam = /[rl][RL]/.exec(word)?.[0];
  if (!flam || flam === word) return [];
  return rudimentsHolding(flam).filter(({ rudiment, lead }) => !held.some((each) => each.rudiment === rudiment && each.lead === lead));
}

/** A rudiment that holds a few strokes. */
export interface HeldRudiment {
  readonly rudiment: Rudiment;
  readonly lead: 'R' | 'L';
  readonly hold: RudimentHold;
  /** Strokes it holds: `KK`. */
  readonly word: string;
  /** How often within one cycle; 0 when they are only there with the graces counted. */
  readonly times: number;
  /** The hand that is given to a foot, and the foot, or null. */
  readonly given: { readonly hand: 'R' | 'L'; readonly foot: Limb } | null;
}

/**
 * Rudiments on either lead that hold a word of limbs, the closest first: nothing between its strokes, then graces between, then graces counted;
 * then those
 * with small strokes only where the word has them, the right lead, the short ones. A word with a foot: rudiments without graces or buzzes, one hand given to that foot.
 * @param word capitals for main strokes, small letters for graces: `RR`, `lR`, `KK`, `LK`.
 */
export function rudimentsHolding(word: string): readonly HeldRudiment[] {
  const feet = [...new Set(word)].filter((letter) => letter === 'K' || letter === 'H') as Limb[];
  if (feet.length > 1) return [];
  const found = RUDIMENTS.flatMap((rudiment) => LEADS.flatMap((lead) => heldBy(rudiment, lead, { word, foot: feet[0] ?? null })));
  const strokes = ({ rudiment }: HeldRudiment) => periodOf(soundingOfRudiment(rudiment)) + (hasLonger(rudiment, word) ? LONG : 0);
  const small = /[rl]/.test(word);
  const graced = ({ rudiment }: HeldRudiment) => Number(/[rl]/.test(rudiment.text) !== small);
  const rank = (held: HeldRudiment) => 4 * HOLDS.indexOf(held.hold) + 2 * graced(held) + Number(held.lead === 'L');
  return found.sort((a, b) => rank(a) - rank(b) || strokes(a) - strokes(b) || a.rudiment.number - b.rudiment.number);
}

/** Letters after which a word begins again. */
const periodOf = (word: string): number => (word + word).indexOf(word, 1);

/** Strokes that a run longer than a pair counts for. Assumption: more than any rudiment has, so that RRRLLL comes after every true double. */
const LONG = 100;

/** Whether a rudiment has the pair only inside a longer run. */
const hasLonger = (rudiment: Rudiment, word: string): boolean =>
  new Set(word).size === 1 && word.length === 2 && rudiment.number === TRIPLE_STROKE_ROLL;
const TRIPLE_STROKE_ROLL = 5;

/** Most letters of a rudiment that is a flam from hand to hand and nothing else: lRrL. */
const ALONE_STROKES = 4;

const HOLDS: readonly RudimentHold[] = ['plain', 'graces-between', 'graces-counted'];
const LEADS = ['R', 'L'] as const;

interface Sought {
  readonly word: string;
  readonly foot: Limb | null;
}

function heldBy(rudiment: Rudiment, lead: 'R' | 'L', { word, foot }: Sought): readonly HeldRudiment[] {
  const sounding = soundingOfRudiment(rudiment, lead);
  if (foot === null) {
    if (onlyInADrag(sounding, word)) return [];
    const hold = holdOf(sounding, word);
    return hold ? [{ rudiment, lead, hold, word, times: timesIn(sounding, word, hold), given: null }] : [];
  }
  if (/[rlz]/.test(rudiment.text)) return [];
  const given = (['L', 'R'] as const).find((hand) => timesHeld(sounding.replaceAll(hand, foot), word) > 0);
  if (!given) return [];
  const times = timesHeld(sounding.replaceAll(given, foot), word);
  return [{ rudiment, lead, hold: 'plain', word, times, given: { hand: given, foot } }];
}

/** Whether a word that begins with one small stroke is only there with another before it: a flam is not looked for in drags. */
const onlyInADrag = (sounding: string, word: string): boolean => /^[rl]/.test(word) && !new RegExp(`(?<![rl])${word}`).test(sounding + sounding);

function timesIn(sounding: string, word: string, hold: RudimentHold): number {
  if (hold === 'graces-counted') return 0;
  return timesHeld(hold === 'plain' ? sounding : sounding.replaceAll(/[rl]/g, ''), word);
}

/** Words to look for, parts with a foot of a cell that has one before others, then the longest: nothing across a rest or strokes together. */
function wordsOf(phrase: Phrase): readonly string[] {
  const runs = soundingRuns(phrase.cellLine);
  const words = runs.flatMap((run) => run.flatMap((_, from) => Array.from({ length: run.length - from }, (__, i) => run.slice(from, from + i + 1))));
  const foot = (word: readonly string[]) => word.some((each) => /[KH]/.test(each));
  const useful = words.filter((word) => word.length > 1 || hitsIn(phrase.cellLine).length === 1);
  const sorted = useful.sort((a, b) => Number(foot(b)) - Number(foot(a)) || b.length - a.length);
  return [...new Set(sorted.map((word) => word.join('')))];
}

/** Strokes that follow each other without a rest, each with its graces; places of several strokes break the run. */
function soundingRuns(line: Line): readonly (readonly string[])[] {
  const runs: string[][] = [[]];
  for (const hits of line.flatMap(({ events }) => events)) {
    if (hits.length === 1) runs.at(-1)!.push(...soundingHit(hits[0]!));
    else runs.push([]);
  }
  return runs.filter((run) => run.length > 0);
}

const soundingHit = ({ limb, graces, roll }: Hit): readonly string[] => {
  const first = graces.join('').toLowerCase() + limb;
  return roll === 'diddle' ? [first, limb] : [first];
};

function ideaOf(phrase: Phrase, held: HeldRudiment, at: number): Idea {
  const { rudiment, lead, given, word, hold, times } = held;
  const drums = { R: drumOf(phrase, 'R'), L: drumOf(phrase, 'L'), K: drumOf(phrase, 'K'), H: drumOf(phrase, 'H') };
  const written = lineOfRudiment(rudiment, lead);
  const line = mapHits(written.line, (each) => {
    const limb = given && each.limb === given.hand ? given.foot : each.limb;
    return { ...each, limb, drums: each.drums.map(() => drums[limb]) };
  });
  // Their slots are parts of a quarter, so that a meter of eighths does not fit them.
  const ownMeter = phrase.content.meter.unit === 4 ? phrase.content.meter : COMMON_TIME;
  const meter = meterFor({ ...phrase, content: { ...phrase.content, meter: ownMeter, perBeat: rudiment.perBeat } }, slotsOf(line));
  const params = {
    name: rudiment.name,
    number: rudiment.number,
    sticking: given ? written.text.replaceAll(given.hand, given.foot) : written.text,
    lead,
    confirmed: rudiment.says === 'confirmed',
  };
  const why = { ...params, word, hold, times, hand: given?.hand ?? '', foot: given?.foot ?? '', cell: phrase.cell.sticking.text };
  const alone = periodOf(soundingOfRudiment(rudiment)) <= ALONE_STROKES && phrase.shape.graces && lead === 'R';
  const turn = at === 0 || alone ? 9 : lead === 'L' ? 84 : (phrase.shape.graces ? 22 : 43) + 6 * at;
  return {
    family,
    line,
    perBeat: rudiment.perBeat,
    meter,
    turn,
    title: { code: 'title-rudiment', params },
    reason: { code: 'reason-rudiment', params: why },
  };
}

interface RudimentLine {
  readonly line: Line;
  /** Text of the shortest part it repeats. */
  readonly text: string;
}

/** Lines written so far: the table never changes, and a shelf has most of it. */
const LINES = new Map<string, RudimentLine>();

function lineOfRudiment(rudiment: Rudiment, lead: 'R' | 'L'): RudimentLine {
  const key = lead + rudiment.text;
  const known = LINES.get(key);
  if (known) return known;
  const line = lead === 'R' ? rightLine(rudiment) : handsSwapped(lineOfRudiment(rudiment, 'R').line);
  const made = { line, text: shortest(line) };
  LINES.set(key, made);
  return made;
}

function rightLine(rudiment: Rudiment): Line {
  const sticking = stickingOfRudiment(rudiment);
  return lineOfSticking(
    sticking,
    sticking.strokes.map(({ limb }) => DEFAULT_DRUMS[limb]),
  );
}

/** A line of the hands with right and left exchanged. */
const handsSwapped = (line: Line): Line => mapHits(line, (each) => ({ ...each, limb: otherHand(each.limb), graces: each.graces.map(otherHand) }));

/** The text of a line's shortest part that it repeats. */
function shortest(line: Line): string {
  const total = slotsOf(line);
  const starts = startSlotsOf(line);
  const lengths = starts.filter((start) => start > 0 && total % start === 0);
  const texts = line.map((each) => textOf([each]));
  const repeats = (slots: number) => line.every((_, i) => texts[i] === texts[(i + starts.indexOf(slots)) % line.length]);
  const found = lengths.find((slots) => repeats(slots));
  return found === undefined ? textOf(line) : textOf(line.slice(0, starts.indexOf(found)));
}
