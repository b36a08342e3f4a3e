/** Pad work: the cell with space, one stroke of it at a time, a run-up that grows, too much and back, across the beat. */
import type { Family } from './exercise.ts';
import type { Idea } from './idea.ts';
import { type Hit, hit, hitsIn, type Line, mapHits, place, rest, slotsOf, textOf, windowOf, withHits } from './line.ts';
import { modelIdeas } from './model.ts';
import { BUILT_UP_LIMIT } from './parameters.ts';
import { barSlotsOf, cellText, drumOf, homeOf, meterFor, onBeats, otherHand, type Phrase, toBarLine } from './phrase.ts';
import { staminaIdeas } from './stamina.ts';

const family: Family = 'pad';

/** Pad work for a phrase. */
export function padIdeas(phrase: Phrase): readonly Idea[] {
  const alone = phrase.shape.whole
    ? buildUp(phrase)
    : [...cellWithTime(phrase), breath(phrase), ...oneAtATime(phrase), ...approach(phrase), ...acrossTheBeat(phrase)];
  return [...underHats(phrase), ...alone, ...overload(phrase), ...modelIdeas(phrase), ...staminaIdeas(phrase)];
}

/** Kicks under quarters of the hi-hat: a hand tells the foot where the beat is. */
function underHats(phrase: Phrase): readonly Idea[] {
  const { perBeat } = phrase.content;
  const { shape } = phrase;
  if (shape.hands || shape.whole || perBeat < 2) return [];
  const line = withHits(onBeats(phrase, 1), (slot) => (slot % perBeat === 0 ? [hit(phrase.cymbalHand, 'hi-hat')] : []));
  if (!line) return [];
  const params = { cell: cellText(phrase), sticking: textOf(onBeats(phrase, 1)) };
  return [{ family, line, turn: 2, title: { code: 'title-under-hats', params }, reason: { code: 'reason-under-hats', params } }];
}

function cellWithTime(phrase: Phrase): readonly Idea[] {
  const { cellLine, content, cell } = phrase;
  const text = cellText(phrase);
  const spaced = onBeats(phrase, slotsOf(cellLine));
  const beats = Math.ceil(slotsOf(cellLine) / content.perBeat);
  const onBeat = onBeats(phrase);
  const bar = toBarLine(cellLine, content);
  const bars = slotsOf(bar) / barSlotsOf(content);
  const strokeCount = cell.sticking.strokes.length;
  return [
    {
      family,
      line: spaced,
      turn: phrase.shape.hands ? 4 : 24,
      title: { code: 'title-cell-space', params: { sticking: textOf(spaced) } },
      reason: { code: 'reason-cell-space', params: { cell: text } },
    },
    {
      family,
      line: cellLine,
      turn: 40,
      title: { code: 'title-cell-alone', params: { sticking: text } },
      reason: { code: 'reason-cell-alone', params: { cell: text, strokeCount } },
    },
    {
      family,
      line: onBeat,
      turn: 52,
      title: { code: 'title-cell-beat', params: { sticking: textOf(onBeat) } },
      reason: { code: 'reason-cell-beat', params: { cell: text, beats } },
    },
    {
      family,
      line: bar,
      turn: 54,
      title: { code: 'title-cell-bar', params: { cell: text, bars } },
      reason: { code: 'reason-cell-bar', params: { cell: text, bars } },
    },
  ];
}

/** Rests in place of the strokes before the cell, but never of the stroke on 1. */
function breath({ line, cellLine, cellSlot, cell, content, shape }: Phrase): Idea {
  const others = slotsOf(line) - slotsOf(cellLine);
  const most = cellSlot > 1 ? cellSlot - 1 : others;
  const count = Math.max(1, Math.min(slotsOf(cellLine), most, Math.floor(others / 2)));
  const from = (cellSlot - count + slotsOf(line)) % slotsOf(line);
  let slot = 0;
  const made = line.flatMap((each): Line => {
    const silent = (slot - from + slotsOf(line)) % slotsOf(line) < count;
    slot += each.slotCount;
    return silent ? rest(each.slotCount) : [each];
  });
  const params = { cell: cell.sticking.text, sticking: textOf(made), restSlots: restsBefore(made, cellSlot), perBeat: content.perBeat };
  return { family, line: made, turn: shape.feet ? 12 : 25, title: { code: 'title-breath', params }, reason: { code: 'reason-breath', params } };
}

/** Slots of silence straight before a slot of a loop. */
function restsBefore(line: Line, slot: number): number {
  const backwards = [...windowOf(line, slot, slotsOf(line))].reverse();
  const sounding = backwards.findIndex(({ events }) => events.some((hits) => hits.length > 0));
  return slotsOf(backwards.slice(0, sounding));
}

/** Each stroke of the cell by itself in its place, then all of them. */
function oneAtATime(phrase: Phrase): readonly Idea[] {
  const strokes = hitsIn(phrase.cellLine);
  if (!phrase.shape.cellPlain || strokes.length < 2 || strokes.length > 3) return [];
  const inCell = hitsIn(phrase.line).flatMap((each, at) => (each.inCell ? [at] : []));
  const only = (kept: number) => mapHits(phrase.line, (each, at) => (each.inCell && at !== kept ? null : each));
  const order = [...inCell].sort((a, b) => cellPlaceOf(phrase, a) - cellPlaceOf(phrase, b));
  const parts = [...order.map(only), phrase.line];
  const { meter } = homeOf(phrase, phrase.line);
  const line = parts.flatMap((part) => homeOf(phrase, part).block);
  const params = { cell: cellText(phrase), stickings: parts.map(textOf) };
  return [{ family, line, meter, turn: 6, title: { code: 'title-one-at-a-time', params }, reason: { code: 'reason-one-at-a-time', params } }];
}

/** How far into the cell a stroke of the phrase stands; the cell may wrap around. */
function cellPlaceOf({ line, cellSlot }: Phrase, at: number): number {
  const before = hitsIn(windowOf(line, 0, cellSlot)).length;
  return (at - before + hitsIn(line).length) % hitsIn(line).length;
}

/** The cell with two strokes before it, four, six, and back to four, each from a standing start. */
function approach(phrase: Phrase): readonly Idea[] {
  const { line, cellLine, cellSlot, content, shape } = phrase;
  if (!shape.plain) return [];
  const others = windowOf(line, cellSlot + slotsOf(cellLine), slotsOf(line) - slotsOf(cellLine));
  const lengths = [2, 4, 6, 4];
  const run = runUp(phrase, others, Math.max(...lengths));
  if (hitsIn(run).length < run.length) return [];
  const block = Math.ceil((slotsOf(cellLine) + Math.max(...lengths)) / content.perBeat) * content.perBeat;
  const parts = lengths.map((length) => [...run.slice(run.length - length), ...cellLine]);
  const made = parts.flatMap((part) => [...part, ...rest(block - slotsOf(part))]);
  const params = { cell: cellText(phrase), stickings: parts.slice(0, 3).map(textOf) };
  return [
    {
      family,
      line: made,
      meter: meterFor(phrase, slotsOf(made)),
      turn: shape.feet ? 16 : 29,
      title: { code: 'title-approach', params },
      reason: { code: 'reason-approach', params },
    },
  ];
}

/** When the cell is the whole phrase: it once, then silence up to the bar line; and built up from its first two strokes. */
function buildUp(phrase: Phrase): readonly Idea[] {
  const { line, content, shape, sticking } = phrase;
  const bar = toBarLine([...line, ...rest(1)], content);
  const params = { cell: sticking.text, bars: slotsOf(bar) / barSlotsOf(content) };
  const once: Idea = { family, line: bar, turn: 8, title: { code: 'title-cell-bar', params }, reason: { code: 'reason-cell-bar', params } };
  const count = hitsIn(line).length;
  if (!shape.plain || line.length !== count || count < 3 || count > BUILT_UP_LIMIT) return [once];
  const lengths = [...new Set([2, Math.ceil((count + 2) / 2), count])];
  const block = Math.ceil((count + 1) / content.perBeat) * content.perBeat;
  const parts = lengths.map((length) => line.slice(0, length));
  const built = parts.flatMap((part) => [...part, ...rest(block - part.length)]);
  const said = { cell: sticking.text, stickings: parts.map(textOf) };
  const meter = meterFor(phrase, slotsOf(built));
  return [
    once,
    { family, line: built, meter, turn: 6, title: { code: 'title-built-up', params: said }, reason: { code: 'reason-built-up', params: said } },
  ];
}

/** So many strokes that lead to the cell: those of the phrase, and before them hand to hand. */
function runUp(phrase: Phrase, others: Line, length: number): Line {
  const taken = others.slice(Math.max(0, others.length - length));
  const first = taken[0]?.events[0]?.[0]?.limb ?? hitsIn(phrase.cellLine)[0]!.limb;
  const missing = Array.from({ length: length - taken.length }, (_, i) => {
    const limb = (length - taken.length - i) % 2 === 1 ? otherHand(first) : otherHand(otherHand(first));
    return place(hit(limb, drumOf(phrase, limb)));
  });
  return [...missing, ...taken];
}

/** The cell begun one slot before the beat. */
function acrossTheBeat(phrase: Phrase): readonly Idea[] {
  const { content, cellLine } = phrase;
  const strokes = cellLine.length;
  if (!phrase.shape.cellPlain || strokes < 2 || cellLine[1]!.events[0]!.length === 0 || content.perBeat < 2 || strokes > content.perBeat) return [];
  const onBeat = onBeats(phrase, strokes < content.perBeat ? 1 : content.perBeat);
  const line = windowOf(onBeat, 1, slotsOf(onBeat));
  const params = { cell: cellText(phrase), sticking: textOf(line), perBeat: content.perBeat };
  return [{ family, line, turn: 44, title: { code: 'title-across-beat', params }, reason: { code: 'reason-across-beat', params } }];
}

/** One more than the pair, then back to two: in the phrase when the stroke before or after can be given away, else by itself. */
function overload(phrase: Phrase): readonly Idea[] {
  const { shape, cellLine } = phrase;
  if (shape.pair === null) return [];
  const stroke = hitsIn(cellLine)[1]!;
  const inPhrase = shape.plain && !shape.whole && longestRun(phrase.line) === 2 ? overloaded(phrase, stroke) : null;
  const cell = cellText(phrase);
  if (inPhrase) {
    const { meter } = homeOf(phrase, phrase.line);
    const line = [...homeOf(phrase, inPhrase).block, ...homeOf(phrase, phrase.line).block];
    const params = { cell, threes: textOf(inPhrase), back: phrase.sticking.text };
    return [{ family, line, meter, turn: 16, title: { code: 'title-overload', params }, reason: { code: 'reason-overload', params } }];
  }
  const three = [...cellLine, place(stroke)];
  const gap = phrase.content.perBeat === 3 ? 3 : 1;
  const line = [...three, ...rest(gap), ...cellLine, ...rest(gap + 1)];
  const params = { cell, threes: textOf(three), back: cell };
  return [
    {
      family,
      line,
      meter: meterFor(phrase, slotsOf(line)),
      turn: shape.hands ? 15 : 34,
      title: { code: 'title-overload', params },
      reason: { code: 'reason-overload', params },
    },
  ];
}

/** The phrase with a third stroke beside the pair and no longer run than three, or null. */
function overloaded({ line, cellSlot }: Phrase, stroke: Hit): Line | null {
  const length = line.length;
  const options = [(cellSlot - 1 + length) % length, (cellSlot + 2) % length].map((slot) =>
    line.map((each, at) => (at === slot ? place(stroke) : each)),
  );
  return options.find((option) => longestRun(option) === 3) ?? null;
}

/** The longest run of one limb in neighbouring slots of a loop of plain places. */
export function longestRun(line: Line): number {
  const letters = line.map(({ events }) => events[0]![0]?.limb ?? ' ');
  let best = 0;
  let run = 0;
  for (let i = 0; i < 2 * letters.length; i++) {
    const [letter, before] = [letters[i % letters.length], letters[(i - 1 + letters.length) % letters.length]];
    run = letter === ' ' ? 0 : letter === before ? run + 1 : 1;
    best = Math.max(best, run);
  }
  return best;
}
