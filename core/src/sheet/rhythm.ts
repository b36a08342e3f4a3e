/** From the content of an exercise to written bars: note values, rests, tuplets and beams, exact in fractions of a beat. */
import { barsUntilMet, type ExerciseContent, type Meter, stickingOfContent } from '../exercise/index.ts';
import { add, compare, type Rational, rational, toNumber, ZERO } from '../rational.ts';
import { cutAtBars } from './cuts.ts';
import { type Item, isSilent, itemsUntil, type Span, shift } from './items.ts';
import { BAR_LIMIT } from './parameters.ts';
import { type Draft, type WrittenNote, type WrittenTuplet, writeSpan } from './values.ts';
import { voicesOf } from './voices.ts';

/** One voice of a bar. */
export interface WrittenVoice {
  readonly stem: 'up' | 'down';
  readonly notes: readonly WrittenNote[];
  readonly tuplets: readonly WrittenTuplet[];
}

/** A bar as written: one voice, or where hands and feet play together two, hands first. */
export interface WrittenBar {
  readonly voices: readonly WrittenVoice[];
  /** It is as the one before and stands as a sign. */
  readonly repeats?: boolean;
}

/** The bars of an exercise as written out. */
export interface Written {
  readonly bars: readonly WrittenBar[];
  /** Bars until the cycle meets the bar line, when more than are written out. */
  readonly barsInAll: number;
}

/**
 * Writes out an exercise until its cycle meets the bar line, at most `barLimit` bars.
 * A group that a bar line cuts stands in both bars, each part under its own bracket; a note over the line is tied.
 */
export function writeOut(content: ExerciseContent, barLimit: number = BAR_LIMIT): Written {
  const sticking = stickingOfContent(content);
  const { slotCount } = sticking;
  const barsInAll = barsUntilMet(slotCount, content.perBeat, content.meter);
  const count = Math.min(barsInAll, barLimit);
  const barSlots = content.meter.beats * content.perBeat;
  const items = cutAtBars(itemsUntil(content, sticking, count * barSlots), barSlots);
  const voices = voicesOf(items, sticking);
  const bars = Array.from({ length: count }, (_, bar) => ({
    voices: voices.map(({ stem, items: own }) => ({ stem, ...writeVoice(inBar(own, bar, barSlots), content) })),
  }));
  return { bars, barsInAll };
}

/** The same with bars that are as the one before marked so, but for those that a tie leads into or out of. */
export function withRepeats(written: Written): Written {
  const looks = written.bars.map(lookOf);
  const tied = written.bars.map(({ voices }) => voices.some(({ notes }) => notes.some((note) => note.tied || note.continued)));
  return { ...written, bars: written.bars.map((bar, i) => ({ ...bar, repeats: i > 0 && looks[i] === looks[i - 1] && !tied[i] && !tied[i - 1] })) };
}

/** What is seen of a bar: which time through it is, and where its letters stand in the text, is not. */
const lookOf = ({ voices }: WrittenBar): string => JSON.stringify(voices, (key, value) => (UNSEEN.includes(key) ? undefined : value));
const UNSEEN: readonly string[] = ['cycle', 'index', 'at', 'slot'];

/** Items that begin in a bar, in slots from its start. */
const inBar = (items: readonly Item[], bar: number, barSlots: number): readonly Item[] =>
  items
    .filter(({ slot }) => compare(slot, rational(bar * barSlots)) >= 0 && compare(slot, rational((bar + 1) * barSlots)) < 0)
    .map((item) => shift(item, -bar * barSlots));

function writeVoice(items: readonly Item[], content: ExerciseContent): Omit<WrittenVoice, 'stem'> {
  const notes: Draft[] = [];
  const tuplets: WrittenTuplet[] = [];
  for (const span of joinRests(spansOf(items, content), content)) {
    const written = writeSpan(span, content);
    tuplets.push(...written.tuplets.map((tuplet) => ({ ...tuplet, first: tuplet.first + notes.length, last: tuplet.last + notes.length })));
    notes.push(...written.notes);
  }
  return { notes: withBeams(notes, content), tuplets };
}

function spansOf(items: readonly Item[], { meter, perBeat }: ExerciseContent): readonly Span[] {
  const spans: { firstBeat: number; beats: number; items: Item[] }[] = [];
  for (let beat = 0; beat < meter.beats; beat++) {
    const start = beat * perBeat;
    const inside = items.filter(({ slot }) => Math.floor(toNumber(slot) / perBeat) === beat);
    const crossed = items.some(({ group }) => group && group.startSlot < start && group.startSlot + group.slotCount > start);
    const before = spans.at(-1);
    if (before && crossed) {
      before.beats += 1;
      before.items.push(...inside);
    } else {
      spans.push({ firstBeat: beat, beats: 1, items: inside });
    }
  }
  return spans;
}

/** Silent beats become one rest where notation has one: the whole bar, or a half of four. */
function joinRests(spans: readonly Span[], { meter }: ExerciseContent): readonly Span[] {
  if (spans.every(isSilent)) return [{ firstBeat: 0, beats: meter.beats, items: [] }];
  if (meter.beats !== 4 || meter.unit !== 4) return spans;
  return spans.flatMap((span, i) => {
    const [before, after] = [spans[i - 1], spans[i + 1]];
    const silent = span.beats === 1 && isSilent(span);
    if (silent && span.firstBeat % 2 === 0 && after?.beats === 1 && isSilent(after)) return [{ ...span, beats: 2, items: [] }];
    if (silent && span.firstBeat % 2 === 1 && before?.beats === 1 && isSilent(before)) return [];
    return [span];
  });
}

/** Beams within a beat, broken at rests and at values without flags. */
function withBeams(notes: readonly Draft[], { meter }: ExerciseContent): readonly WrittenNote[] {
  let beam = 0;
  let before: Draft | undefined;
  const numbered = notes.map(({ crossing, ...plain }): WrittenNote => {
    const note = { ...plain, crossing };
    if (note.value < 8 || note.strokes.length === 0) {
      before = undefined;
      return plain;
    }
    if (!before || beamKey(before, meter) !== beamKey(note, meter)) beam += 1;
    before = note;
    return { ...plain, beam };
  });
  const sizes = new Map<number | null, number>();
  for (const note of numbered) sizes.set(note.beam, (sizes.get(note.beam) ?? 0) + 1);
  return numbered.map((note) => (sizes.get(note.beam) === 1 ? { ...note, beam: null } : note));
}

/** What notes of one beam share. */
const beamKey = (note: Draft, meter: Meter): string => (note.crossing === null ? `beat ${beamBeat(note, meter)}` : `group ${note.crossing}`);

/** The beat a note is beamed in; in eighths three make one where the bar is of threes. */
function beamBeat({ beat }: WrittenNote, meter: Meter): number {
  const beatsTogether = meter.unit === 8 && meter.beats % 3 === 0 ? 3 : 1;
  return Math.floor(toNumber(beat) / beatsTogether);
}

/** Sum of the lengths of a voice's notes in a bar, in beats. */
export const lengthOf = (voice: WrittenVoice): Rational => voice.notes.reduce((sum, { lengthBeats }) => add(sum, lengthBeats), ZERO);
