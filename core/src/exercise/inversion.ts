/** The phrase as it stands and begun on every other stroke, with the joins between them. */
import { add, compare, lcm, type Rational, rational, toNumber, ZERO } from '../rational.ts';
import { longestCyclicRun, rotate, type Sticking, startsOf } from '../sticking/index.ts';
import type { Family } from './exercise.ts';
import type { Idea } from './idea.ts';
import { hit, hitsIn, isFoot, type Line, place, repeated, rest, slotsOf, windowOf } from './line.ts';
import { barSlotsOf, drumOf, otherHand, type Phrase } from './phrase.ts';
import type { CellPlace } from './reason.ts';

const family: Family = 'inversion';

/** The phrase as it stands, then begun on every other stroke: those first whose opening stroke needs most work, a split cell before the others. */
export function inversionIdeas(phrase: Phrase): readonly Idea[] {
  const starts = startsOf(phrase.sticking).filter((start) => start > 0);
  const ordered = [...starts].sort(
    (a, b) => weightOf(phrase, b) - weightOf(phrase, a) || across(phrase, b) - across(phrase, a) || onFoot(phrase, b) - onFoot(phrase, a) || a - b,
  );
  const turns = phrase.shape.whole ? [14, 31, 45, 63] : [14, 45, 57, 63];
  const turned = ordered.map((start, i) => inversion(phrase, start, turns[i] ?? 69 + i));
  return [...turned, ...linkedIdeas(phrase, ordered), wholeIdea(phrase)];
}

/** Most exercises that link two inversions. Assumption: the worst joins are enough. */
const LINKED = 3;

/** The first few joins that need a link. */
function linkedIdeas(phrase: Phrase, starts: readonly number[]): readonly Idea[] {
  const ideas: Idea[] = [];
  for (const start of starts) {
    if (ideas.length >= LINKED) break;
    ideas.push(...linked(phrase, start));
  }
  return ideas;
}

const weightOf = ({ focus }: Phrase, index: number): number => focus.weights[index] ?? 0;
const across = (phrase: Phrase, start: number): number => Number(placeOf(phrase, start) === 'across');

/** Of a phrase that is all cell, the inversion that puts a foot on 1 comes first. */
const onFoot = ({ shape, sticking }: Phrase, index: number): number => Number(shape.whole && isFoot(sticking.strokes[index]!.limb));

function wholeIdea(phrase: Phrase): Idea {
  const { sticking, cell, shape, line } = phrase;
  return {
    family,
    line,
    turn: 65,
    title: { code: 'title-whole', params: { sticking: sticking.text } },
    reason: shape.whole ? { code: 'reason-phrase', params: {} } : { code: 'reason-whole', params: { cell: cell.sticking.text } },
  };
}

/** The phrase turned so that a stroke begins it. */
function turnedLine({ sticking, line }: Phrase, start: number): Line {
  return windowOf(line, toNumber(sticking.strokes[start]!.slot), slotsOf(line));
}

function inversion(phrase: Phrase, start: number, turn: number): Idea {
  const turned = rotate(phrase.sticking, start);
  const [beganOn, beginsOn] = [beatPlaces(phrase, 0), beatPlaces(phrase, start)];
  const params = {
    cell: phrase.cell.sticking.text,
    place: placeOf(phrase, start),
    perBeat: phrase.content.perBeat,
    beginsOn,
    beganOn,
    from: phrase.sticking.text,
    ...joinOf(phrase.sticking, turned),
  };
  return {
    family,
    line: turnedLine(phrase, start),
    turn,
    title: { code: 'title-inversion', params: { sticking: turned.text, stroke: start + 1 } },
    reason: { code: 'reason-inversion', params },
  };
}

/** Where the join makes a longer run than is in the phrase: a bar or more of the phrase, a linking note or a breath up to the bar line, then of the inversion and back. */
function linked(phrase: Phrase, start: number): readonly Idea[] {
  const turned = rotate(phrase.sticking, start);
  const { joinRun, joinLimb } = joinOf(phrase.sticking, turned);
  if (joinRun === 0) return [];
  const to = turnedLine(phrase, start);
  const parts = [
    { line: phrase.line, next: to },
    { line: to, next: phrase.line },
  ].map(({ line, next }) => linkedBars(phrase, line, next));
  const params = { from: phrase.sticking.text, to: turned.text, joinRun, joinLimb, link: parts[0]!.link, linkBack: parts[1]!.link };
  const line = parts.flatMap((part) => part.line);
  return [{ family, line, turn: 33, title: { code: 'title-linked', params }, reason: { code: 'reason-linked', params } }];
}

/** As many cycles as fit before the last beat of a bar, then the linking note, a hand that neither side plays, and silence; the link is '' for a breath alone. */
function linkedBars(phrase: Phrase, line: Line, next: Line): { readonly line: Line; readonly link: string } {
  const bar = barSlotsOf(phrase.content);
  const bars = Math.ceil((slotsOf(line) + 1) / bar);
  const cycles = Math.floor((bars * bar - 1) / slotsOf(line));
  const room = bars * bar - cycles * slotsOf(line);
  const [before, after] = [hitsIn(line).at(-1)!.limb, hitsIn(next)[0]!.limb];
  const link = [otherHand(before), 'R' as const, 'L' as const].find((hand) => hand !== before && hand !== after);
  if (room < 2 || !link || !isFoot(before)) return { line: [...repeated(line, cycles), ...rest(room)], link: '' };
  return { line: [...repeated(line, cycles), place(hit(link, drumOf(phrase, link))), ...rest(room - 1)], link };
}

/** Where in the beat the cell begins when the cycle begins on stroke `start`, over all the bars until the cycle meets the bar line. */
function beatPlaces({ sticking, cell, content }: Phrase, start: number): readonly number[] {
  const [cellSlot, startSlot] = [cell.first, start].map((index) => toNumber(sticking.strokes[index]!.slot));
  const cycles = lcm(sticking.slotCount, content.perBeat) / sticking.slotCount;
  const places = Array.from({ length: cycles }, (_, cycle) => {
    const slot = (cellSlot! - startSlot! + sticking.slotCount) % sticking.slotCount;
    return (slot + cycle * sticking.slotCount) % content.perBeat;
  });
  return [...new Set(places)].sort((a, b) => a - b);
}

function placeOf({ sticking, cell, shape }: Phrase, start: number): CellPlace {
  const count = sticking.strokes.length;
  const first = (cell.first - start + count) % count;
  const end = first + cell.sticking.strokes.length;
  if (shape.whole) return 'inside';
  if (first === 0) return 'first';
  if (end > count) return 'across';
  return end === count ? 'last' : 'inside';
}

/** The run of one limb where `from` is followed at once by `to`, when it is longer than any run in `from` itself. */
function joinOf(from: Sticking, to: Sticking): { readonly joinRun: number; readonly joinLimb: string } {
  const [before, after] = [lettersOf(from), lettersOf(to)];
  const limb = before.at(-1)!;
  const joined = runAt([...before].reverse().join(''), limb) + runAt(after, limb);
  if (limb === REST || joined <= longestCyclicRun(before)) return { joinRun: 0, joinLimb: '' };
  return { joinRun: joined, joinLimb: limb };
}

/** How often the letter stands at the start of the word. */
const runAt = (word: string, letter: string): number => Array.from(`${word} `).findIndex((other) => other !== letter);

const REST = ' ';

/** Letters of the main strokes in order of time, a space where there is a rest so that it breaks a run. */
function lettersOf({ strokes, slotCount }: Sticking): string {
  let end: Rational = ZERO;
  const letters = strokes.map(({ limb, slot, lengthSlots }) => {
    const gap = compare(slot, end) > 0;
    end = add(slot, lengthSlots);
    return gap ? REST + limb : limb;
  });
  return letters.join('') + (compare(end, rational(slotCount)) < 0 ? REST : '');
}
