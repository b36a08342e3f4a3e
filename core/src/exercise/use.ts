/** Use: the phrase and its cell in music, beside plain time. */
import type { Family, Piece } from './exercise.ts';
import { type Fill, fillOf } from './fill.ts';
import type { Idea } from './idea.ts';
import { hit, hitsIn, isFoot, type Line, mapHits, place, repeated, slotsOf, withHits } from './line.ts';
import { MUSIC_BARS, PIECE_BARS } from './parameters.ts';
import { barSlotsOf, otherHand, type Phrase, plays, strokesIn, toBarLine } from './phrase.ts';
import { backbeatsOf, isCymbalSlot, timeBar } from './timebar.ts';

const family: Family = 'use';

/** The phrase in music. @param piece what is being rehearsed, null where nothing was told. */
export function useIdeas(phrase: Phrase, piece: Piece | null): readonly Idea[] {
  const { meter, perBeat } = phrase.content;
  if (backbeatsOf(meter).length === 0 || perBeat < 2) return [];
  return [
    ...(piece ? inPiece(phrase, piece) : []),
    ...MUSIC_BARS.flatMap((bars) => bothHalves(phrase, bars)),
    ...free(phrase),
    ...onceInTwoBars(phrase),
    ...underRide(phrase),
  ];
}

interface TimeAndPhrase {
  readonly line: Line;
  readonly fill: Fill;
}

/** So many bars of time, then so many of the phrase; null where the cell has no room. */
function timeThenPhrase(phrase: Phrase, { timeBars, bars }: { readonly timeBars: number; readonly bars: number }): TimeAndPhrase | null {
  const fill = fillOf(phrase, bars * barSlotsOf(phrase.content));
  if (!fill) return null;
  const time = repeated(timeBar(phrase), timeBars - 1);
  return { line: [...timeBar(phrase, { landing: fill.landing }), ...time, ...overHalf(phrase, fill.line)], fill };
}

/** The bars of a piece: half of them time and half the phrase, then the phrase in the last one only. Contents that are on the shelf anyway come under the name of the piece. */
function inPiece(phrase: Phrase, { title, place, tempoBpm, bars: all = PIECE_BARS, recorded = false }: Piece): readonly Idea[] {
  const half = Math.floor(all / 2);
  const parts = [half, 1].filter((bars, i, each) => bars >= 1 && bars < all && each.indexOf(bars) === i);
  return parts.flatMap((bars, i): readonly Idea[] => {
    const made = timeThenPhrase(phrase, { timeBars: all - bars, bars });
    if (!made) return [];
    const landing = made.fill.landing;
    const params = { sticking: phrase.sticking.text, title, place, tempoBpm, recorded, timeBars: all - bars, bars, landing };
    const turn = PIECE_TURNS[i]!;
    return [{ family, line: made.line, turn, title: { code: 'title-in-piece', params }, reason: { code: 'reason-in-piece', params } }];
  });
}

/** When the piece of the week is come to: in the first dozen, and soon after. */
const PIECE_TURNS = [13, 26] as const;

/** Four bars of time and four free: the cell opens each of them, and what follows is the player's. */
function free(phrase: Phrase): readonly Idea[] {
  const { content, cellLine, shape } = phrase;
  const bars = MUSIC_BARS.at(-1)!;
  if (shape.whole || slotsOf(cellLine) >= barSlotsOf(content)) return [];
  const line = [...repeated(timeBar(phrase), bars), ...repeated(toBarLine(cellLine, content), bars)];
  const params = { cell: phrase.cell.sticking.text, bars };
  return [{ family, line, turn: 34, title: { code: 'title-free', params }, reason: { code: 'reason-free', params } }];
}

/** So many bars of time and so many of the phrase. */
function bothHalves(phrase: Phrase, bars: number): readonly Idea[] {
  const { sticking } = phrase;
  const made = timeThenPhrase(phrase, { timeBars: bars, bars });
  if (!made) return [];
  const { line, fill } = made;
  const params = { sticking: sticking.text, bars, stroke: fill.stroke, landing: fill.landing };
  const turn = bars === MUSIC_BARS[0] ? 15 : 60;
  return [{ family, line, turn, title: { code: 'title-time-and-phrase', params }, reason: { code: 'reason-time-and-phrase', params } }];
}

/** The hi-hat foot keeps the beat through the phrase, where it is free. */
function overHalf(phrase: Phrase, line: Line): Line {
  if (plays(phrase, 'H')) return line;
  return withHits(line, (slot) => (slot % phrase.content.perBeat === 0 ? [hit('H', 'hi-hat-foot')] : [])) ?? line;
}

/** A bar of time, and one that holds the cell just before its last backbeat. */
function onceInTwoBars(phrase: Phrase): readonly Idea[] {
  const { content, cellLine, shape } = phrase;
  const { perBeat, meter } = content;
  const backbeats = backbeatsOf(meter).map((beat) => beat * perBeat);
  const from = backbeats.at(-1)! - slotsOf(cellLine);
  const earliest = (backbeats.at(-2) ?? 0) + 1;
  if (!shape.cellPlain || shape.whole || from < earliest) return [];
  const inCell = (slot: number) => slot >= from && slot < from + cellLine.length;
  const second = timeBar(phrase).map((each, slot): Line[number] => {
    if (slot !== 0 && !backbeats.includes(slot) && inCell(slot) && shape.hands) return place();
    return slot === 0 ? each : place(...each.events[0]!.filter(({ limb }) => limb !== 'K'));
  });
  const bar = withHits(second, (slot) => (inCell(slot) ? (cellLine[slot - from]!.events[0] ?? []) : []));
  if (!bar) return [];
  const params = { cell: phrase.cell.sticking.text, beat: backbeats.at(-1)! / perBeat + 1 };
  const line = [...timeBar(phrase), ...bar];
  return [{ family, line, turn: 30, title: { code: 'title-in-time', params }, reason: { code: 'reason-in-time', params } }];
}

/** The foot's strokes of the phrase under a ride in eighths and the backbeat: what the feet do when the hands keep time. */
function underRide(phrase: Phrase): readonly Idea[] {
  const { content, line, sticking } = phrase;
  if (!hitsIn(line).some(({ limb }) => isFoot(limb)) || !hitsIn(line).some(({ limb }) => !isFoot(limb))) return [];
  const { perBeat, meter } = content;
  const bar = barSlotsOf(content);
  const slots = backbeatsOf(meter).map((beat) => beat * perBeat);
  const fill = fillOf(phrase, bar);
  if (!fill) return [];
  const inBar = mapHits(fill.line, (each) => (isFoot(each.limb) ? each : null));
  const made = withHits(inBar, (slot) => [
    ...(isCymbalSlot(slot, content) ? [hit(phrase.cymbalHand, 'ride')] : []),
    ...(slots.includes(slot) ? [hit(otherHand(phrase.cymbalHand), 'snare', { accent: true })] : []),
  ]);
  if (!made) return [];
  const params = { sticking: sticking.text, stroke: fill.stroke, kickCount: strokesIn(mapHits(line, (each) => (isFoot(each.limb) ? each : null))) };
  return [{ family, line: made, turn: 62, title: { code: 'title-feet-in-time', params }, reason: { code: 'reason-feet-in-time', params } }];
}
