/** Pad work against a model: singles before doubles, hand to hand before the phrase, the other hand first, flat flams, other note values, the feet in the hands. */

import { feetToHands, readSticking } from '../sticking/index.ts';
import type { Family } from './exercise.ts';
import type { Idea } from './idea.ts';
import { accented, type Hit, hit, hitsIn, isFoot, type Line, lineOf, mapHits, place, repeated, rest, slotsOf, textOf } from './line.ts';
import { NOTE_VALUES } from './parameters.ts';
import { barSlotsOf, cellText, drumOf, handToHand, homeOf, meterFor, onBeats, otherHand, type Phrase, strokesIn } from './phrase.ts';

const family: Family = 'pad';

/** Pad work that sets the cell or the phrase beside something to copy. */
export const modelIdeas = (phrase: Phrase): readonly Idea[] => [
  ...check(phrase),
  ...models(phrase),
  ...flatFlams(phrase),
  ...togetherFirst(phrase),
  ...oneHand(phrase),
  ...otherValues(phrase),
  ...movedToHands(phrase),
];

/** Flams with both hands together, then as they are: the small stroke only has to come a little before. */
function flatFlams(phrase: Phrase): readonly Idea[] {
  const { line, sticking } = phrase;
  const flam = ({ graces, limb, roll }: Hit) => graces.length === 1 && graces[0] !== limb && roll === 'none';
  const flams = hitsIn(line).filter(flam);
  const alone = line.every(({ events }) => events.every((hits) => hits.length === 1 || !hits.some(flam)));
  const all = hitsIn(line).filter(({ graces }) => graces.length === 1).length;
  if (flams.length === 0 || flams.length < all || !alone) return [];
  const flat = line.map((each): Line[number] => ({
    ...each,
    events: each.events.map((hits) =>
      hits.flatMap((one) => (flam(one) ? [hit(one.graces[0]!, drumOf(phrase, one.graces[0]!)), { ...one, graces: [] }] : [one])),
    ),
  }));
  const { meter, block } = homeOf(phrase, flat);
  const params = { flat: textOf(flat), sticking: sticking.text, flamCount: flams.length };
  const made = [...block, ...homeOf(phrase, line).block];
  return [{ family, line: made, meter, turn: 5, title: { code: 'title-flat-flams', params }, reason: { code: 'reason-flat-flams', params } }];
}

/** Single strokes at half the speed, then each of the limb's strokes doubled in the same time. */
function check(phrase: Phrase): readonly Idea[] {
  const { pair } = phrase.shape;
  if (pair === null) return [];
  const { perBeat, meter } = phrase.content;
  const order: readonly Hit[] = isFoot(pair)
    ? (['R', pair, 'L', pair] as const).map((limb) => hit(limb, drumOf(phrase, limb)))
    : [pair, otherHand(pair)].map((limb) => hit(limb, drumOf(phrase, limb)));
  const once = order.flatMap((each) => [place(each), place()]);
  const doubled = order.flatMap((each) => [place(each), each.limb === pair || !isFoot(pair) ? place(each) : place()]);
  const bar = meter.beats * perBeat;
  if (bar % once.length !== 0) return [];
  const times = bar / once.length;
  const line = [...repeated(once, times), ...repeated(doubled, times)];
  const params = { cell: cellText(phrase), check: textOf(once), doubled: textOf(doubled), limb: pair };
  const idea: Idea = { family, line, turn: isFoot(pair) ? 36 : 11, title: { code: 'title-check', params }, reason: { code: 'reason-check', params } };
  if (isFoot(pair)) return [idea];
  const leaning = repeated(doubled, 1).map((each, i) => (i % 2 === 1 ? place(accented(each.events[0]![0]!, true)) : each));
  const second = { cell: cellText(phrase), sticking: textOf(leaning) };
  return [
    idea,
    {
      family,
      line: leaning,
      meter: meterFor(phrase, slotsOf(leaning)),
      turn: 16,
      title: { code: 'title-second-accented', params: second },
      reason: { code: 'reason-second-accented', params: second },
    },
  ];
}

/** Two bars to copy, two bars of what copies them. */
function models(phrase: Phrase): readonly Idea[] {
  const { line, shape, sticking } = phrase;
  const ideas: Idea[] = [];
  const { meter, block } = homeOf(phrase, line);
  const model = handToHand(phrase, block);
  const single = textOf(model.slice(0, hitsIn(line).length % 2 === 1 ? 2 * line.length : line.length));
  if (shape.plain && hitsIn(line).length > 1 && textOf(model) !== textOf(block) && hitsIn(line).some(({ limb }) => !isFoot(limb))) {
    const params = {
      model: single,
      sticking: sticking.text,
      feet: hitsIn(line).some(({ limb }) => isFoot(limb)),
      bars: (2 * slotsOf(block)) / (meter.beats * phrase.content.perBeat),
    };
    ideas.push({
      family,
      line: [...model, ...model, ...block, ...block],
      meter,
      turn: 4,
      title: { code: 'title-hand-to-hand', params },
      reason: { code: 'reason-hand-to-hand', params },
    });
  }
  if (!shape.feet) ideas.push(...otherHandFirst(phrase));
  return ideas;
}

/** A bar of the cell with the hands changed, a bar of the cell. */
function otherHandFirst(phrase: Phrase): readonly Idea[] {
  const { cellLine, content } = phrase;
  if (phrase.shape.whole) return [];
  const spaced = [...cellLine, ...rest(slotsOf(cellLine))];
  const once = slotsOf(spaced) <= content.perBeat && content.perBeat % slotsOf(spaced) === 0 ? spaced : onBeats(phrase, 1);
  const bar = barSlotsOf(content);
  if (bar % slotsOf(once) !== 0) return [];
  const own = repeated(once, bar / slotsOf(once));
  const other = handsChanged(phrase, own);
  const params = { cell: cellText(phrase), model: textOf(handsChanged(phrase, cellLine)) };
  return [
    {
      family,
      line: [...other, ...own],
      turn: 11,
      title: { code: 'title-other-hand', params },
      reason: { code: 'reason-other-hand', params },
    },
  ];
}

/** The line with right and left exchanged, each hand on its own drum. */
const handsChanged = (phrase: Phrase, line: Line): Line =>
  mapHits(line, (each) => {
    if (isFoot(each.limb)) return each;
    const limb = otherHand(each.limb);
    return { ...each, limb, drums: each.drums.map(() => drumOf(phrase, limb)), graces: each.graces.map(otherHand) };
  });

/** The phrase in other note values, the beat in other places of it. */
function otherValues(phrase: Phrase): readonly Idea[] {
  const { perBeat, meter } = phrase.content;
  const { whole, graces } = phrase.shape;
  return (NOTE_VALUES[perBeat] ?? []).map((other, i): Idea => {
    const params = { sticking: phrase.sticking.text, perBeat: other, wasPerBeat: perBeat };
    return {
      family,
      line: phrase.line,
      perBeat: other,
      meter,
      turn: (whole || graces ? 24 : 46) + 20 * i,
      title: { code: 'title-value', params },
      reason: { code: 'reason-value', params },
    };
  });
}

/** The strokes of the feet given to the hand that is free: for the days without a pedal. And the phrase led by the other hand. */
function movedToHands(phrase: Phrase): readonly Idea[] {
  const { line, shape, sticking } = phrase;
  if (!shape.plain) return [];
  const ideas: Idea[] = [];
  if (hitsIn(line).some(({ limb }) => isFoot(limb)) && hitsIn(line).some(({ limb }) => !isFoot(limb))) {
    const moved = inTheHands(phrase);
    const params = { sticking: sticking.text, moved: textOf(moved), strokeCount: hitsIn(line).filter(({ limb }) => isFoot(limb)).length };
    const meter = meterFor(phrase, slotsOf(moved));
    ideas.push({
      family,
      line: moved,
      meter,
      turn: 60,
      title: { code: 'title-moved-to-hands', params },
      reason: { code: 'reason-moved-to-hands', params },
    });
  }
  const other = handsChanged(phrase, line);
  if (textOf(other) !== textOf(line)) {
    const params = { sticking: textOf(other), from: sticking.text, strokeCount: strokesIn(other) };
    ideas.push({ family, line: other, turn: 48, title: { code: 'title-other-lead', params }, reason: { code: 'reason-other-lead', params } });
    const both = [...line, ...other];
    const meter = meterFor(phrase, slotsOf(both));
    ideas.push({
      family,
      line: both,
      meter,
      turn: shape.feet && !shape.whole ? 28 : 17,
      title: { code: 'title-both-leads', params },
      reason: { code: 'reason-both-leads', params },
    });
  }
  return ideas;
}

/** The phrase with its feet in the hands (`feetToHands`), once or, to meet its beginning, twice: each stroke on its drum, those of the feet on that of the hand. */
function inTheHands(phrase: Phrase): Line {
  const hits = hitsIn(phrase.line);
  const sticking = readSticking(feetToHands(textOf(phrase.line))).value!;
  const surfaces = sticking.strokes.map(({ index, limb }) => {
    const was = hits[index % hits.length]!;
    return isFoot(was.limb) ? drumOf(phrase, limb) : was.drums[0]!;
  });
  return lineOf({ ...phrase.content, sticking: sticking.text, surfaces });
}

/** A change from one limb to another: both strokes at once, the second's slot silent, then as it is. In a phrase that is all cell, the change from hand to foot. */
function togetherFirst(phrase: Phrase): readonly Idea[] {
  const { shape, line, sticking } = phrase;
  const slot = changeSlot(phrase);
  if (!shape.plain || slot < 0) return [];
  const next = (slot + 1) % line.length;
  const [[first], [second]] = [line[slot]!.events[0]!, line[next]!.events[0]!];
  if (!first || !second || first.limb === second.limb || second.graces.length > 0) return [];
  const hands = [first, second].sort((a, b) => Number(isFoot(a.limb)) - Number(isFoot(b.limb)));
  const both = line.map((each, at) => (at === slot ? place(...hands) : at === next ? place() : each));
  const params = { cell: textOf([line[slot]!, line[next]!]), together: textOf(both), sticking: sticking.text };
  const { meter, block } = homeOf(phrase, both);
  const made = [...block, ...homeOf(phrase, line).block];
  return [{ family, line: made, meter, turn: 5, title: { code: 'title-together', params }, reason: { code: 'reason-together', params } }];
}

/** First slot of the change that is worked on: that of a cell of two, or from a hand to a foot in a phrase that is all cell; -1 where there is none. */
function changeSlot({ shape, line, cellLine, cellSlot }: Phrase): number {
  if (!shape.whole) return slotsOf(cellLine) === 2 ? cellSlot : -1;
  const footAt = (slot: number): boolean | null => {
    const limb = line[slot]?.events[0]?.[0]?.limb;
    return limb === undefined ? null : isFoot(limb);
  };
  return shape.plain && line.length > 2 ? line.findIndex((_, slot) => footAt(slot) === false && footAt(slot + 1) === true) : -1;
}

/** Only the hand that plays the cell, the others silent, then everybody. */
function oneHand(phrase: Phrase): readonly Idea[] {
  const { line, shape, sticking } = phrase;
  const limbs = new Set(hitsIn(phrase.cellLine).map(({ limb }) => limb));
  const [limb] = limbs;
  if (limbs.size !== 1 || shape.feet || hitsIn(line).every((each) => each.limb === limb)) return [];
  const alone = mapHits(line, (each) => (each.limb === limb ? each : null));
  const params = { limb: limb!, alone: textOf(alone), sticking: sticking.text, strokeCount: strokesIn(alone) };
  const { meter, block } = homeOf(phrase, alone);
  const made = [...block, ...homeOf(phrase, line).block];
  return [{ family, line: made, meter, turn: 13, title: { code: 'title-one-hand', params }, reason: { code: 'reason-one-hand', params } }];
}
