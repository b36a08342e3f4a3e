/** Around the kit: the same strokes on other drums, by limb, by stroke, cycle by cycle, a drum doubling the kick, over the feet. */
import type { Limb } from '../sticking/index.ts';
import type { Family } from './exercise.ts';
import type { Idea } from './idea.ts';
import { accented, type Hit, hit, hitsIn, isFoot, type Line, mapHits, place, slotsOf, textOf, windowOf, withHits } from './line.ts';
import { ORCHESTRATED_LIMIT, ROUND } from './parameters.ts';
import { homeOf, meterFor, otherHand, type Phrase, plays } from './phrase.ts';
import { backbeatsOf, kicksOf } from './timebar.ts';

const family: Family = 'kit';

/** Orchestrations of a phrase. */
export function kitIdeas(phrase: Phrase): readonly Idea[] {
  const feet = [...doubledKick(phrase), ...footOstinato(phrase)];
  if (!hitsIn(phrase.line).some(({ limb }) => !isFoot(limb))) return feet;
  return [
    ...feet,
    ...split(phrase),
    ...byLimb(phrase),
    ...oneHandAround(phrase),
    ...lower(phrase),
    ...around(phrase),
    ...crashOnOne(phrase),
    ...accentsOut(phrase),
    ...onTwoDrums(phrase),
  ];
}

const on = (each: Hit, drum: string): Hit => ({ ...each, drums: each.drums.map(() => drum) });

/** Hands on drums by a rule, feet where they are. */
const handsOn = (line: Line, drumFor: (hit: Hit, handAt: number) => string): Line => {
  let handAt = 0;
  return mapHits(line, (each) => (isFoot(each.limb) ? each : on(each, drumFor(each, handAt++))));
};

/** A hand plays the floor tom with each kick that has its slot to itself: the hands take turns. */
function doubledKick(phrase: Phrase): readonly Idea[] {
  const { line, shape, sticking } = phrase;
  const kicks = hitsIn(line).filter(({ limb }) => limb === 'K').length;
  if (!shape.plain || kicks === 0 || kicks === line.length) return [];
  let hand: 'R' | 'L' =
    (hitsIn(line)
      .filter(({ limb }) => !isFoot(limb))
      .at(-1)?.limb as 'R' | 'L') ?? 'L';
  const made = line.map((each): Line[number] => {
    const only = each.events[0]![0];
    if (!only) return each;
    if (only.limb !== 'K') {
      if (!isFoot(only.limb)) hand = only.limb as 'R' | 'L';
      return each;
    }
    hand = otherHand(hand);
    return place(hit(hand, 'floor-tom'), only);
  });
  const params = { sticking: sticking.text, made: textOf(made), kickCount: kicks };
  return [{ family, line: made, turn: 10, title: { code: 'title-doubled-kick', params }, reason: { code: 'reason-doubled-kick', params } }];
}

/** The feet that are free keep time under the hands. */
function footOstinato(phrase: Phrase): readonly Idea[] {
  const { content, line, sticking } = phrase;
  const { meter, block } = homeOf(phrase, line);
  const free = (['K', 'H'] as const).filter((foot) => !plays(phrase, foot));
  if (free.length === 0) return [];
  const { perBeat } = content;
  const both = free.length === 2 && backbeatsOf(meter).length > 0;
  const slots = (beats: readonly number[]) => beats.map((beat) => beat * perBeat);
  const bar = meter.beats * perBeat;
  const [kicks, hats] = [slots(kicksOf(meter)), slots(backbeatsOf(meter))];
  const made = withHits(block, (slot) => {
    if (!both) return slot % perBeat === 0 ? [hit(free[0]!, free[0] === 'K' ? 'kick' : 'hi-hat-foot')] : [];
    if (kicks.includes(slot % bar)) return [hit('K', 'kick')];
    return hats.includes(slot % bar) ? [hit('H', 'hi-hat-foot')] : [];
  });
  if (!made) return [];
  const params = { sticking: sticking.text, feet: both ? 'both' : free[0]! };
  return [{ family, line: made, meter, turn: 32, title: { code: 'title-over-feet', params }, reason: { code: 'reason-over-feet', params } }];
}

/** A hand's pair over two drums: its second stroke lands on the floor tom or the high tom, whichever is that hand's side. */
function split(phrase: Phrase): readonly Idea[] {
  const { pair, whole } = phrase.shape;
  if (pair === null || isFoot(pair) || whole) return [];
  const cellHits = hitsIn(phrase.cellLine);
  const drum = sideDrum(phrase, pair);
  const inCell = hitsIn(phrase.line).flatMap((each, at) => (each.inCell ? [at] : []));
  const second = inCell[1]! - inCell[0]! > 1 ? inCell[0]! : inCell[1]!;
  const made = mapHits(phrase.line, (each, at) => (at === second ? on(each, drum) : each));
  const params = { cell: phrase.cell.sticking.text, first: cellHits[0]!.drums[0]!, second: drum };
  return [{ family, line: made, turn: 14, title: { code: 'title-split', params }, reason: { code: 'reason-split', params } }];
}

/** The tom on a hand's side: the floor tom for the hand of its side, the high tom for the other. */
const sideDrum = ({ kitSide }: Phrase, hand: Limb): string => (hand === kitSide ? 'floor-tom' : 'high-tom');

function byLimb(phrase: Phrase): readonly Idea[] {
  if (!plays(phrase, 'R') || !plays(phrase, 'L')) return [];
  const pairs = [
    { hand: phrase.kitSide, drum: 'floor-tom', turn: 28 },
    { hand: phrase.cymbalHand, drum: 'ride', turn: 62 },
  ];
  return pairs.map(({ hand, drum, turn }): Idea => {
    const [right, left] = hand === 'R' ? [drum, 'snare'] : ['snare', drum];
    const line = handsOn(phrase.line, ({ limb }) => (limb === 'R' ? right! : left!));
    const params = { sticking: phrase.sticking.text, right: right!, left: left! };
    return { family, line, turn, title: { code: 'title-by-limb', params }, reason: { code: 'reason-by-limb', params } };
  });
}

/** The hand on the side of the floor tom goes down the toms cycle by cycle; the other stays on the snare. */
function oneHandAround(phrase: Phrase): readonly Idea[] {
  if (!plays(phrase, 'R') || !plays(phrase, 'L')) return [];
  const toms = ROUND.slice(1);
  const line = [...toms, ROUND[0]!].flatMap((drum) => handsOn(phrase.line, ({ limb }) => (limb === phrase.kitSide ? drum : 'snare')));
  const params = { sticking: phrase.sticking.text, hand: phrase.kitSide, drums: [...toms, ROUND[0]!] };
  const meter = meterFor(phrase, slotsOf(line));
  return [{ family, line, meter, turn: 38, title: { code: 'title-one-hand-around', params }, reason: { code: 'reason-one-hand-around', params } }];
}

/** Each cycle on the next drum down. */
function lower(phrase: Phrase): readonly Idea[] {
  const line = ROUND.flatMap((drum) => handsOn(phrase.line, () => drum));
  const params = { sticking: phrase.sticking.text, drums: ROUND };
  const meter = meterFor(phrase, slotsOf(line));
  return [{ family, line, meter, turn: 50, title: { code: 'title-cycle-lower', params }, reason: { code: 'reason-cycle-lower', params } }];
}

/** Each hand stroke on the next drum down. */
function around(phrase: Phrase): readonly Idea[] {
  const { meter, block } = homeOf(phrase, phrase.line);
  const line = handsOn(block, (_, handAt) => ROUND[handAt % ROUND.length]!);
  const params = { sticking: phrase.sticking.text, drums: ROUND };
  return [{ family, line, meter, turn: 58, title: { code: 'title-around', params }, reason: { code: 'reason-around', params } }];
}

/** The first stroke of the phrase on a crash with the kick beneath, where that foot is free and stays free. */
function crashOnOne(phrase: Phrase): readonly Idea[] {
  const [first] = phrase.line;
  const one = first!.events[0]!;
  if (!phrase.shape.plain || one.length !== 1 || isFoot(one[0]!.limb) || plays(phrase, 'K') || one[0]!.graces.length > 0) return [];
  const { meter, block } = homeOf(phrase, phrase.line);
  const line = [place(accented(on(one[0]!, 'crash'), true), hit('K', 'kick')), ...windowOf(block, 1, slotsOf(block) - 1)];
  const params = { sticking: phrase.sticking.text };
  return [{ family, line, meter, turn: 64, title: { code: 'title-crash-on-one', params }, reason: { code: 'reason-crash-on-one', params } }];
}

/** Accents of the phrase move out to the toms, each to that on the side of its hand. */
function accentsOut(phrase: Phrase): readonly Idea[] {
  const out = hitsIn(phrase.line).filter(({ accent, limb }) => accent && !isFoot(limb));
  if (out.length === 0) return [];
  const line = handsOn(phrase.line, ({ accent, limb, drums }) => (accent ? sideDrum(phrase, limb) : drums[0]!));
  const params = { sticking: phrase.sticking.text, accentCount: out.length, right: sideDrum(phrase, 'R'), left: sideDrum(phrase, 'L') };
  return [{ family, line, turn: 22, title: { code: 'title-accents-out', params }, reason: { code: 'reason-accents-out', params } }];
}

/** Every way to lay the hand strokes of the cell, or of the phrase when the cell has none, over two drums: there on asking. */
function onTwoDrums(phrase: Phrase): readonly Idea[] {
  const ofCell = hitsIn(phrase.line).some(({ inCell, limb }) => inCell && !isFoot(limb));
  const moves = ({ inCell, limb }: Hit) => !isFoot(limb) && (inCell || !ofCell);
  const count = hitsIn(phrase.line).filter(moves).length;
  if (count > ORCHESTRATED_LIMIT) return [];
  return orchestrations(['snare', 'floor-tom'], count).map((drums): Idea => {
    let at = 0;
    const line = mapHits(phrase.line, (each) => (moves(each) ? on(each, drums[at++]!) : each));
    const params = { sticking: phrase.sticking.text, drums };
    return {
      family,
      line,
      turn: 90,
      title: { code: 'title-drums', params },
      reason: { code: 'reason-drums', params: { ...params, ways: 2 ** count } },
    };
  });
}

/**
 * Every way to lay so many strokes over some drums, in order: drums^strokes of them.
 * @example orchestrations(['a', 'b'], 2) // aa ab ba bb
 */
export function orchestrations(drums: readonly string[], strokeCount: number): readonly (readonly string[])[] {
  if (strokeCount === 0) return [[]];
  return orchestrations(drums, strokeCount - 1).flatMap((laid) => drums.map((drum) => [...laid, drum]));
}
