/** Grooves: the phrase begun where its backbeats fall under a snare hand, and the cell moved through the beat of a plain groove. */
import type { Family } from './exercise.ts';
import type { Idea } from './idea.ts';
import {
  accented,
  ghosted,
  type Hit,
  hit,
  hitsAt,
  hitsIn,
  isFoot,
  type Line,
  mapHits,
  type Place,
  place,
  slotsOf,
  textOf,
  windowOf,
  withHits,
} from './line.ts';
import { GROOVE_STARTS, MOVED_PLACES, OTHER_METERS } from './parameters.ts';
import { barSlotsOf, otherHand, type Phrase, plays } from './phrase.ts';
import { backbeatsOf, isCymbalSlot, kicksOf } from './timebar.ts';

const family: Family = 'groove';

/** Grooves for a phrase. */
export const grooveIdeas = (phrase: Phrase): readonly Idea[] => [...moved(phrase), ...started(phrase), ...inOtherMeters(phrase)];

type SnareHand = 'L' | 'R';

/** A bar of the phrase begun somewhere. */
interface Start {
  /** Stroke it begins on, from 1. */
  readonly stroke: number;
  readonly bar: Line;
  readonly hand: SnareHand;
  readonly beats: readonly number[];
  /** Backbeats, from 0, that the hand does not play by itself. */
  readonly missing: readonly number[];
}

/** Starts whose backbeats fall under one hand: on 2 and 4, then on the middle of the bar at half time; where there is none, the nearest with a stroke replaced. */
function started(phrase: Phrase): readonly Idea[] {
  const { meter } = phrase.content;
  const best = usableStarts(phrase);
  const whole = ({ missing }: Start) => missing.length === 0;
  const half = best.length > 0 && meter.beats === 4 && meter.unit === 4 ? startsFor(phrase, [2]).filter(whole).slice(0, 1) : [];
  const quarters = best.slice(0, plays(phrase, 'H') ? 0 : 1).map((start) => grooveOf(phrase, start, { turn: 70, hats: 'quarters' }));
  return [
    ...best.map((start, i) => grooveOf(phrase, start, { turn: 12 + 20 * i })),
    ...half.map((start) => grooveOf(phrase, start, { turn: 66 })),
    ...quarters,
  ];
}

/** The same search in 3/4, 6/8 and 7/8, for a phrase in common time: one groove each. */
function inOtherMeters(phrase: Phrase): readonly Idea[] {
  const { perBeat, meter } = phrase.content;
  if (meter.beats !== 4 || meter.unit !== 4) return [];
  return OTHER_METERS.flatMap((other, i): readonly Idea[] => {
    const slots = (perBeat * 4) / other.unit;
    if (!Number.isInteger(slots)) return [];
    const there = { ...phrase, content: { ...phrase.content, perBeat: slots, meter: other } };
    const [first] = usableStarts(there);
    return first ? [grooveOf(there, first, { turn: 78 + i, meterNamed: `${other.beats}/${other.unit}` })] : [];
  });
}

/** The first starts that play every backbeat; where there is none, the one that lacks fewest. */
function usableStarts(phrase: Phrase): readonly Start[] {
  const { meter, perBeat } = phrase.content;
  const backbeats = backbeatsOf(meter);
  if (backbeats.length === 0 || perBeat < 2 || hitsIn(phrase.line).every(({ limb }) => isFoot(limb))) return [];
  const found = startsFor(phrase, backbeats);
  const whole = found.filter(({ missing }) => missing.length === 0);
  return whole.length > 0 ? whole.slice(0, GROOVE_STARTS) : found.slice(0, 1);
}

/** Every start by either hand, those with fewest missing first, the left before the right. */
function startsFor(phrase: Phrase, beats: readonly number[]): readonly Start[] {
  const { content, line, sticking } = phrase;
  const hands = (['L', 'R'] as const).filter((hand) => plays(phrase, hand));
  const starts = hands.flatMap((hand) =>
    phrase.starts.map((slot): Start => {
      const bar = windowOf(line, slot, barSlotsOf(content));
      const missing = beats.filter((beat) => !hitsAt(bar, beat * content.perBeat)?.some(({ limb }) => limb === hand));
      const stroke = sticking.strokes.findIndex((each) => each.slot.num === slot && each.slot.den === 1) + 1;
      return { stroke, bar, hand, beats, missing };
    }),
  );
  const usable = starts.filter(({ bar, missing }) => missing.every((beat) => canReplace(bar, beat * content.perBeat)));
  return usable.sort((a, b) => a.missing.length - b.missing.length);
}

const canReplace = (bar: Line, slot: number): boolean => (hitsAt(bar, slot)?.length ?? 2) <= 1 && hitsAt(bar, slot + 1) !== null;

interface GrooveOptions {
  readonly turn: number;
  /** Where a hi-hat foot that is free plays; default on the backbeat. */
  readonly hats?: 'backbeat' | 'quarters';
  /** The meter to be said; default none, since it is the phrase's own. */
  readonly meterNamed?: string;
}

function grooveOf(phrase: Phrase, start: Start, { turn, hats = 'backbeat', meterNamed = '' }: GrooveOptions): Idea {
  const { perBeat, meter } = phrase.content;
  const { hand, beats, missing, stroke } = start;
  const slots = beats.map((beat) => beat * perBeat);
  const replaced = missing.map((beat) => hitsAt(start.bar, beat * perBeat)![0]?.limb ?? '-');
  const filled = start.bar.map((each, i) => (missing.some((beat) => beat * perBeat === slotBefore(start.bar, i)) ? place(hit(hand, 'snare')) : each));
  const voiced = voicedFor(filled, { hand, slots });
  const feet = (['K', 'H'] as const).filter((foot) => !plays(phrase, foot));
  const kicks = kicksOf(meter).map((beat) => beat * perBeat);
  const added = withHits(voiced, (slot) => [
    ...(feet.includes('K') && kicks.includes(slot) ? [hit('K', 'kick')] : []),
    ...(feet.includes('H') && slot % perBeat === 0 && (hats === 'quarters' || backbeatsOf(meter).includes(slot / perBeat))
      ? [hit('H', 'hi-hat-foot')]
      : []),
  ]);
  const params = {
    sticking: textOf(start.bar.slice(0, phrase.line.length)),
    stroke,
    hand,
    beats: beats.map((beat) => beat + 1),
    lengths: lengthsOf(phrase),
    replacedOn: missing.map((beat) => beat + 1),
    replaced,
    feet: added ? feet.join('') : '',
    hats,
    meter: meterNamed,
    rolls: hitsIn(filled).some(({ limb, roll }) => limb === hand && roll !== 'none'),
  };
  return { family, line: added ?? voiced, perBeat, meter, turn, title: { code: 'title-groove', params }, reason: { code: 'reason-groove', params } };
}

const slotBefore = (line: Line, at: number): number => slotsOf(line.slice(0, at));

/** The snare hand on the snare, accented on the backbeat and a ghost elsewhere; the other hand on the hi-hat. */
function voicedFor(bar: Line, { hand, slots }: { readonly hand: SnareHand; readonly slots: readonly number[] }): Line {
  let slot = 0;
  return bar.flatMap((each) => {
    const backbeat = slots.includes(slot);
    slot += each.slotCount;
    return mapHits([each], (one, at) => {
      if (isFoot(one.limb)) return one;
      const drums = one.drums.map(() => (one.limb === hand ? 'snare' : 'hi-hat'));
      if (one.limb !== hand) return { ...one, drums };
      if (backbeat && at < each.events[0]!.length) return { ...accented(one, true), drums };
      return one.accent ? { ...one, drums } : { ...ghosted(one), graces: [], drums };
    });
  });
}

/** Slots of the cycles in a bar: whole ones and what is left, 6 + 6 + 4. */
export function lengthsOf({ content, line }: Phrase, slots = barSlotsOf(content)): readonly number[] {
  const cycle = slotsOf(line);
  const whole = Array.from({ length: Math.floor(slots / cycle) }, () => cycle);
  return slots % cycle === 0 ? whole : [...whole, slots % cycle];
}

/** The cell on each place of the beat in turn: kicks under cymbal and backbeat, hands over the feet. */
function moved(phrase: Phrase): readonly Idea[] {
  const { perBeat } = phrase.content;
  if (!canMove(phrase)) return [];
  const offsets = Array.from({ length: perBeat }, (_, at) => (at + slotsOf(phrase.cellLine) > perBeat && at > 0 ? at - perBeat : at));
  const over = overFor(phrase);
  const cell = phrase.cell.sticking.text;
  const single = offsets.flatMap((offset, at): readonly Idea[] => {
    const line = movedThrough(phrase, [offset]);
    const params = { cell, perBeat, places: placesIn(phrase, offset), over };
    return line ? [{ family, line, turn: 68 + at, title: { code: 'title-moved-one', params }, reason: { code: 'reason-moved-one', params } }] : [];
  });
  const line = perBeat > MOVED_PLACES ? null : movedThrough(phrase, offsets);
  if (!line) return single;
  const inBar = barSlotsOf(phrase.content) / (2 * perBeat);
  const params = { cell, perBeat, places: placesIn(phrase, 0), offsets, over, inBar };
  return [{ family, line, turn: 10, title: { code: 'title-moved', params }, reason: { code: 'reason-moved', params } }, ...single];
}

function canMove({ content, cellLine, shape }: Phrase): boolean {
  const { perBeat, meter } = content;
  const fits = slotsOf(cellLine) < 2 * perBeat && barSlotsOf(content) % (2 * perBeat) === 0;
  return !shape.whole && shape.cellPlain && fits && perBeat > 1 && backbeatsOf(meter).length > 0;
}

/** What the cell is set over: cymbal and backbeat when the hands are free, the feet when they are, the foot that is free when only one is. */
function overFor({ shape }: Phrase): 'hats' | 'feet' | 'foot' {
  if (!shape.hands) return 'hats';
  return shape.feet ? 'foot' : 'feet';
}

/** Slots of the cell's strokes from the beat, begun so many slots after it, or before it when negative. */
const placesIn = ({ cellLine }: Phrase, offset: number): readonly number[] =>
  cellLine.flatMap(({ events }, i) => (events[0]!.length > 0 ? [i + offset] : []));

/** A bar for each offset, with the cell once in every two beats so many slots after the beat; null where a limb would be needed twice. */
function movedThrough(phrase: Phrase, offsets: readonly number[]): Line | null {
  const { content, cellLine } = phrase;
  const bar = barSlotsOf(content);
  const total = bar * offsets.length;
  const places: Place[] = Array.from({ length: total }, () => place());
  const starts = offsets.flatMap((offset, at) =>
    Array.from({ length: bar / (2 * content.perBeat) }, (_, i) => at * bar + i * 2 * content.perBeat + offset),
  );
  for (const start of starts) {
    cellLine.forEach((each, i) => {
      places[(start + i + total) % total] = each;
    });
  }
  return withHits(places, (slot) => timeAround(phrase, slot % bar));
}

/** What goes on around a moved cell in a slot of the bar. */
function timeAround(phrase: Phrase, slot: number): readonly Hit[] {
  const { content, cellLine, cymbalHand } = phrase;
  const { perBeat, meter } = content;
  const on = (beats: readonly number[]) => slot % perBeat === 0 && beats.includes(slot / perBeat);
  const over = overFor(phrase);
  if (over === 'foot') {
    const hats = !hitsIn(cellLine).some(({ limb }) => limb === 'H');
    return slot % perBeat === 0 ? [hats ? hit('H', 'hi-hat-foot') : hit('K', 'kick')] : [];
  }
  if (over === 'feet') return [...(on(kicksOf(meter)) ? [hit('K', 'kick')] : []), ...(on(backbeatsOf(meter)) ? [hit('H', 'hi-hat-foot')] : [])];
  return [
    ...(isCymbalSlot(slot, content) ? [hit(cymbalHand, 'hi-hat')] : []),
    ...(on(backbeatsOf(meter)) ? [hit(otherHand(cymbalHand), 'snare', { accent: true })] : []),
  ];
}
