/** The shelf: exercises for a cell, best first, each saying why it is there. */
import { add, compare, lcm, type Rational, rational, toNumber, ZERO } from '../rational.ts';
import { type Cell, cellOf, longestCyclicRun, rotate, type Sticking, startsOf, withRests } from '../sticking/index.ts';
import { barsUntilMet, contentId, stickingOfContent } from './content.ts';
import type { CellPlace, Exercise, ExerciseContent, ExerciseReason, ExerciseTitle, Family, Focus, Shelf } from './exercise.ts';

/** What may narrow the shelf. */
export interface ShelfOptions {
  /** Only these families; default all there are. */
  readonly families?: readonly Family[];
  /** At most so many; default all. `total` counts before the limit. */
  readonly limit?: number;
}

/**
 * Exercises for a phrase and what to work on in it: the cell alone, the cell with space, the phrase begun on every stroke.
 * Relevance orders them: first those in which the cell fills the time, then inversions, the strokes that need most work opening them.
 * No content is there twice.
 * @param content the phrase as it stands.
 * @param focus of `readFocus` or `defaultFocus`, or made from findings.
 */
export function exercisesFor(content: ExerciseContent, focus: Focus, options: ShelfOptions = {}): Shelf {
  const phrase: Phrase = { content, sticking: stickingOfContent(content), focus, cell: cellOf(stickingOfContent(content), focus.cell) };
  const found = withoutDoubles([...cellExercises(phrase), ...inversions(phrase)]);
  const asked = found.filter(({ family }) => !options.families || options.families.includes(family));
  return { total: asked.length, exercises: asked.slice(0, options.limit) };
}

interface Phrase {
  readonly content: ExerciseContent;
  readonly sticking: Sticking;
  readonly focus: Focus;
  readonly cell: Cell;
}

interface Idea {
  readonly family: Family;
  readonly sticking: Sticking;
  /** Index in the phrase of the idea's stroke 0; the others follow around the cycle. */
  readonly first: number;
  readonly title: ExerciseTitle;
  readonly reason: ExerciseReason;
}

/** An exercise on the drums of the phrase: stroke i is played where stroke (first + i) of the phrase is. */
function exerciseOf(phrase: Phrase, idea: Idea): Exercise {
  const { surfaces, perBeat, meter } = phrase.content;
  const content: ExerciseContent = {
    sticking: idea.sticking.text,
    surfaces: idea.sticking.strokes.map(({ index }) => surfaces[(idea.first + index) % surfaces.length]!),
    perBeat,
    meter,
  };
  const bars = barsUntilMet(idea.sticking.slotCount, perBeat, meter);
  return { ...content, id: contentId(content), family: idea.family, bars, title: idea.title, reason: idea.reason };
}

function cellExercises(phrase: Phrase): readonly Exercise[] {
  const { sticking, first } = phrase.cell;
  const cell = sticking.text;
  if (sticking.slotCount >= phrase.sticking.slotCount) return [];
  const { perBeat, meter } = phrase.content;
  const idea = (text: Sticking, title: ExerciseTitle, reason: ExerciseReason) =>
    exerciseOf(phrase, { family: 'pad', sticking: text, first, title, reason });
  const spaced = withRests(sticking, sticking.slotCount);
  const beats = Math.ceil(sticking.slotCount / perBeat);
  const onBeat = withRests(sticking, beats * perBeat - sticking.slotCount);
  const bars = Math.ceil(beats / meter.beats);
  const oncePerBar = withRests(sticking, bars * meter.beats * perBeat - sticking.slotCount);
  return [
    idea(spaced, { code: 'title-cell-space', params: { sticking: spaced.text } }, { code: 'reason-cell-space', params: { cell } }),
    idea(sticking, { code: 'title-cell-alone', params: { sticking: cell } }, aloneReason(cell, sticking.strokes.length)),
    idea(onBeat, { code: 'title-cell-beat', params: { sticking: onBeat.text } }, { code: 'reason-cell-beat', params: { cell, beats } }),
    idea(oncePerBar, { code: 'title-cell-bar', params: { cell, bars } }, { code: 'reason-cell-bar', params: { cell, bars } }),
  ];
}

const aloneReason = (cell: string, strokeCount: number): ExerciseReason => ({ code: 'reason-cell-alone', params: { cell, strokeCount } });

/** The phrase as it stands, then begun on every other stroke: those first whose opening stroke needs most work. */
function inversions(phrase: Phrase): readonly Exercise[] {
  const { sticking, focus, cell } = phrase;
  const starts = startsOf(sticking).filter((start) => start > 0);
  const ordered = [...starts].sort((a, b) => weightOf(focus, b) - weightOf(focus, a) || a - b);
  const whole: Idea = {
    family: 'inversion',
    sticking,
    first: 0,
    title: { code: 'title-whole', params: { sticking: sticking.text } },
    reason: isWhole(phrase) ? { code: 'reason-phrase', params: {} } : { code: 'reason-whole', params: { cell: cell.sticking.text } },
  };
  return [...ordered.map((start) => inversion(phrase, start)), exerciseOf(phrase, whole)];
}

const weightOf = (focus: Focus, index: number): number => focus.weights[index] ?? 0;

function inversion(phrase: Phrase, start: number): Exercise {
  const turned = rotate(phrase.sticking, start);
  const join = joinOf(phrase.sticking, turned);
  const cell = phrase.cell.sticking.text;
  const [beganOn, beginsOn] = [beatPlaces(phrase, 0), beatPlaces(phrase, start)];
  const { perBeat } = phrase.content;
  const params = { cell, place: placeOf(phrase, start), perBeat, beginsOn, beganOn, from: phrase.sticking.text, ...join };
  return exerciseOf(phrase, {
    family: 'inversion',
    sticking: turned,
    first: start,
    title: { code: 'title-inversion', params: { sticking: turned.text, stroke: start + 1 } },
    reason: { code: 'reason-inversion', params },
  });
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

const isWhole = ({ sticking, cell }: Phrase): boolean => cell.sticking.strokes.length === sticking.strokes.length;

function placeOf(phrase: Phrase, start: number): CellPlace {
  const count = phrase.sticking.strokes.length;
  const first = (phrase.cell.first - start + count) % count;
  const end = first + phrase.cell.sticking.strokes.length;
  if (isWhole(phrase)) return 'inside';
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

/** Each content once, where it first stands. */
function withoutDoubles(exercises: readonly Exercise[]): readonly Exercise[] {
  const seen = new Set<string>();
  return exercises.filter(({ id }) => !seen.has(id) && seen.add(id));
}
