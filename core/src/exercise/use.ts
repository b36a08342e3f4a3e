/** Use: the phrase and its cell in music, beside plain time. */
import type { Family } from './exercise.ts';
import { type Fill, fillOf } from './fill.ts';
import type { Idea } from './idea.ts';
import { hit, hitsIn, isFoot, type Line, mapHits, place, slotsOf, withHits } from './line.ts';
import { MUSIC_BARS } from './parameters.ts';
import { barSlotsOf, otherHand, type Phrase, plays, strokesIn } from './phrase.ts';
import { backbeatsOf, isCymbalSlot, timeBar } from './timebar.ts';

const family: Family = 'use';

/** The phrase in music. */
export function useIdeas(phrase: Phrase): readonly Idea[] {
  const { meter, perBeat } = phrase.content;
  if (backbeatsOf(meter).length === 0 || perBeat < 2) return [];
  return [...MUSIC_BARS.flatMap((bars) => bothHalves(phrase, bars)), ...onceInTwoBars(phrase), ...underRide(phrase)];
}

/** So many bars of time and so many of the phrase. */
function bothHalves(phrase: Phrase, bars: number): readonly Idea[] {
  const { content, sticking } = phrase;
  const fill: Fill | null = fillOf(phrase, bars * barSlotsOf(content));
  if (!fill) return [];
  const time = Array.from({ length: bars - 1 }, () => timeBar(phrase)).flat();
  const line = [...timeBar(phrase, { landing: fill.landing }), ...time, ...overHalf(phrase, fill.line)];
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
