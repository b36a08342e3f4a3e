/** Volume work: the accent in each place, moving through the phrase, leaning into either stroke of the pair; all soft; the cell soft, the rest loud. */
import { SLOT_LIMIT } from '../sticking/index.ts';
import type { Family } from './exercise.ts';
import type { Idea } from './idea.ts';
import { accented, ghosted, type Hit, hitsIn, type Line, mapHits, repeated, slotsOf, startSlotsOf, textOf } from './line.ts';
import { ACCENTED_TOGETHER_LIMIT, CRESCENDO_BARS, GROUPS_LEAST } from './parameters.ts';
import { homeOf, type Phrase } from './phrase.ts';

const family: Family = 'dynamics';

/** Volume work for a phrase. */
export function dynamicsIdeas(phrase: Phrase): readonly Idea[] {
  if (hitsIn(phrase.line).length < 2) return [];
  return [
    ...leaning(phrase),
    ...softCell(phrase),
    ...moving(phrase),
    ...allSoft(phrase),
    ...crescendo(phrase),
    ...groups(phrase),
    ...onePlace(phrase),
    ...twoPlaces(phrase),
  ];
}

/** Rolls cannot be written as ghosts. */
const hasRolls = (line: Line): boolean => hitsIn(line).some(({ roll }) => roll !== 'none');

/** The line with accents on these hits and no others. */
const accentsOn = (line: Line, places: readonly number[]): Line => mapHits(line, (each, at) => accented(each, places.includes(at)));

/** Hits of the phrase that stand in the cell, in the order of the phrase. */
const cellHits = ({ line }: Phrase): readonly number[] => hitsIn(line).flatMap((each, at) => (each.inCell ? [at] : []));

/** The pair led by its first stroke, then leaning into its second; everything else is ghosted. */
function leaning(phrase: Phrase): readonly Idea[] {
  const { pair, whole } = phrase.shape;
  const [low, high] = cellHits(phrase);
  if (pair === null || whole || hasRolls(phrase.line)) return [];
  const wraps = high! - low! > 1;
  const [first, second] = wraps ? [high!, low!] : [low!, high!];
  const leansOn = (place: number) =>
    mapHits(phrase.line, (each, at) => (each.inCell ? { ...each, accent: at === place, ghost: false } : ghosted(each)));
  const [onSecond, onFirst] = [leansOn(second), leansOn(first)];
  const { meter } = homeOf(phrase, phrase.line);
  const line = [onSecond, onFirst].flatMap((part) => homeOf(phrase, part).block);
  const params = { cell: phrase.cell.sticking.text, second: textOf(onSecond), first: textOf(onFirst) };
  return [{ family, line, meter, turn: 8, title: { code: 'title-leaning', params }, reason: { code: 'reason-leaning', params } }];
}

function softCell(phrase: Phrase): readonly Idea[] {
  if (phrase.shape.whole || hasRolls(phrase.cellLine)) return [];
  const line = mapHits(phrase.line, (each) => (each.inCell ? ghosted(each) : accented(each, true)));
  const params = { cell: phrase.cell.sticking.text, sticking: textOf(line) };
  return [{ family, line, turn: 38, title: { code: 'title-soft-cell', params }, reason: { code: 'reason-soft-cell', params } }];
}

/** An accent that goes one stroke further with every cycle. */
function moving(phrase: Phrase): readonly Idea[] {
  const strokeCount = hitsIn(phrase.line).length;
  if (strokeCount * slotsOf(phrase.line) > SLOT_LIMIT) return [];
  const line = Array.from({ length: strokeCount }, (_, at) => accentsOn(phrase.line, [at])).flat();
  const { meter } = homeOf(phrase, phrase.line);
  const params = { sticking: phrase.sticking.text, strokeCount };
  return [
    {
      family,
      line,
      meter,
      turn: phrase.shape.whole ? 14 : 30,
      title: { code: 'title-moving-accent', params },
      reason: { code: 'reason-moving-accent', params },
    },
  ];
}

function allSoft(phrase: Phrase): readonly Idea[] {
  if (hasRolls(phrase.line)) return [];
  const line = mapHits(phrase.line, ghosted);
  const params = { sticking: phrase.sticking.text };
  const { feet, graces } = phrase.shape;
  const turn = graces ? 10 : feet ? 42 : 20;
  return [{ family, line, turn, title: { code: 'title-all-soft', params }, reason: { code: 'reason-all-soft', params } }];
}

/** Bar by bar louder: ghosts, the beats plain among them, all plain, all accented. */
function crescendo(phrase: Phrase): readonly Idea[] {
  const { perBeat } = phrase.content;
  const { meter, block } = homeOf(phrase, phrase.line);
  const bar = meter.beats * perBeat;
  const grouped = phrase.line.some((each) => each.grouped);
  if (grouped || hasRolls(phrase.line) || (CRESCENDO_BARS * bar) % slotsOf(block) !== 0) return [];
  const whole = repeated(block, (CRESCENDO_BARS * bar) / slotsOf(block));
  const starts = startSlotsOf(whole);
  const line = whole.flatMap((each, i) => {
    const [step, onBeat] = [Math.floor(starts[i]! / bar), starts[i]! % perBeat === 0];
    return mapHits([each], (one, at) => asLoudAs(one, step === 1 && onBeat && at < each.events[0]!.length ? 2 : step));
  });
  const params = { sticking: phrase.sticking.text, bars: CRESCENDO_BARS };
  return [{ family, line, meter, turn: 44, title: { code: 'title-crescendo', params }, reason: { code: 'reason-crescendo', params } }];
}

/** The stroke as a ghost, plain, or with an accent. @param step 0 and 1 soft, 2 plain, 3 loud. */
function asLoudAs(each: Hit, step: number): Hit {
  if (step < 2) return ghosted(each);
  return { ...each, ghost: false, accent: step > 2 };
}

/** An accent on the first stroke of each of three groups or more: RLL RLL KK. */
function groups(phrase: Phrase): readonly Idea[] {
  const lengths = groupsOf(phrase.line.map((each) => textOf([each])));
  if (!phrase.shape.plain || lengths.length < GROUPS_LEAST) return [];
  const heads = lengths.map((_, i) => lengths.slice(0, i).reduce((sum, length) => sum + length, 0));
  const line = phrase.line.map((each, slot) => mapHits([each], (one) => accented(one, heads.includes(slot)))[0]!);
  const params = { sticking: textOf(line), lengths };
  return [
    {
      family,
      line,
      turn: phrase.shape.feet && lengths[0]! > 2 ? 18 : 52,
      title: { code: 'title-groups', params },
      reason: { code: 'reason-groups', params },
    },
  ];
}

/**
 * Slots of the groups that are heard in a phrase: of its first word that is repeated, each time it comes, and of what is left.
 * @returns one group where no word of two slots or more is repeated from the start.
 * @example groupsOf(['R', 'L', 'L', 'R', 'L', 'L', 'K', 'K']) // [3, 3, 2]
 */
export function groupsOf(slots: readonly string[]): readonly number[] {
  for (let length = Math.floor(slots.length / 2); length >= 2; length--) {
    const times = timesFromStart(slots, length);
    const left = slots.length - times * length;
    if (times >= 2 && left !== 1) return [...Array.from({ length: times }, () => length), ...(left > 0 ? [left] : [])];
  }
  return [slots.length];
}

/** How often the first so many slots come in a row. */
function timesFromStart(slots: readonly string[], length: number): number {
  const different = slots.findIndex((slot, i) => slot !== slots[i % length]);
  return Math.floor((different < 0 ? slots.length : different) / length);
}

/** The accent in each place, those that need most work first. */
function onePlace(phrase: Phrase): readonly Idea[] {
  const inCell = cellHits(phrase);
  return choices(hitsIn(phrase.line).length, 1).map(([at]): Idea => {
    const line = accentsOn(phrase.line, [at!]);
    const params = { sticking: textOf(line), place: strokeNumber(line, at!), limb: hitsIn(line)[at!]!.limb, inCell: inCell.includes(at!) };
    return { family, line, turn: inCell.includes(at!) ? 56 : 76, title: { code: 'title-accent', params }, reason: { code: 'reason-accent', params } };
  });
}

/** Accents on two strokes at a time: there on asking. */
function twoPlaces(phrase: Phrase): readonly Idea[] {
  const strokeCount = hitsIn(phrase.line).length;
  if (strokeCount > ACCENTED_TOGETHER_LIMIT) return [];
  return choices(strokeCount, 2).map((places): Idea => {
    const line = accentsOn(phrase.line, places);
    const params = { sticking: textOf(line), places: places.map((at) => strokeNumber(line, at)) };
    return { family, line, turn: 95, title: { code: 'title-accents', params }, reason: { code: 'reason-accents', params } };
  });
}

/** Number of a hit's stroke from 1: a diddle before it counts twice. */
const strokeNumber = (line: Line, at: number): number =>
  1 +
  hitsIn(line)
    .slice(0, at)
    .reduce((sum, { drums }) => sum + drums.length, 0);

/**
 * Every choice of `count` from `total` places, in order.
 * There are total! / (count! (total − count)!) of them.
 * @example choices(3, 2) // [[0, 1], [0, 2], [1, 2]]
 */
export function choices(total: number, count: number): readonly (readonly number[])[] {
  if (count === 0) return [[]];
  return choices(total, count - 1).flatMap((chosen) =>
    Array.from({ length: total }, (_, at) => at)
      .filter((at) => at > (chosen.at(-1) ?? -1))
      .map((at) => [...chosen, at]),
  );
}
