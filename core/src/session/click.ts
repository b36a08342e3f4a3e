/** How a block is clicked, as plain properties: where in the bar, how finely, which bars are silent. */
import type { ClickSound } from '../sound/index.ts';
import { beatFrame, beatsUntil } from './beats.ts';
import type { BlockLayout, ClickPlace, ClickWay } from './layout.ts';

/** A click to sound at a frame. */
export interface SessionClick {
  readonly frame: number;
  readonly accent: boolean;
  /** A part of a beat, not a beat. */
  readonly part?: true;
  readonly gainDb?: number;
  /** Unless said, as the player has set it. */
  readonly sound?: ClickSound;
}

interface Place {
  /** In beats from the bar line. */
  readonly beat: number;
  readonly accent: boolean;
  readonly part?: true;
}

/** All clicks of a layout, in order, from the first of the count-in to the last of the last bar. A count-in clicks every beat, so that it says where 1 is. */
export function clicksOf(layout: BlockLayout): readonly SessionClick[] {
  const { click = {}, beatsPerBar, countInBars, firstBar, barCount } = layout;
  const { gainDb, sound } = click;
  const voice = { ...(gainDb === undefined ? {} : { gainDb }), ...(sound === undefined ? {} : { sound }) };
  const bars = Array.from({ length: countInBars + barCount - firstBar }, (_, k) => k);
  return bars.flatMap((k) => {
    const places = k < countInBars ? beatsOf({}, beatsPerBar) : placesIn(click, firstBar + k - countInBars, beatsPerBar);
    return places.map(({ beat, ...how }) => ({ frame: beatFrame(layout, k * beatsPerBar + beat), ...how, ...voice }));
  });
}

/** Every beat of a layout, clicked or not: what is measured is held against the beats. */
export function beatFramesOf(layout: BlockLayout, untilFrame: number = Number.POSITIVE_INFINITY): readonly number[] {
  const last = Math.min((layout.countInBars + layout.barCount - layout.firstBar) * layout.beatsPerBar, Math.ceil(beatsUntil(layout, untilFrame)));
  return Array.from({ length: Math.max(0, last) }, (_, beat) => beatFrame(layout, beat)).filter((frame) => frame < untilFrame);
}

/** With fewer clicks, as it goes well: the next place of this row; the last stays. */
const FEWER: readonly ClickPlace[] = ['beats', 'twoAndFour', 'one', 'everySecondBar'];

export function withFewerClicks(click: ClickWay): ClickWay {
  const place = click.place ?? 'beats';
  return FEWER.includes(place) ? { ...click, place: FEWER[Math.min(FEWER.indexOf(place) + 1, FEWER.length - 1)]! } : click;
}

function placesIn(click: ClickWay, bar: number, beats: number): readonly Place[] {
  const { sounding, silent } = click.bars ?? { sounding: 1, silent: 0 };
  if (bar % (sounding + silent) >= sounding) return [];
  switch (click.place ?? 'beats') {
    case 'beats':
      return beatsOf(click, beats);
    case 'offBeats':
      return Array.from({ length: beats }, (_, beat) => ({ beat: beat + (click.swing ?? 0.5), accent: false }));
    case 'twoAndFour':
      return beatsOf({ ...click, perBeat: 1 }, beats).filter(({ beat }) => beat % 2 === 1);
    case 'one':
      return [{ beat: 0, accent: true }];
    case 'everySecondBar':
      return bar % 2 === 0 ? [{ beat: 0, accent: true }] : [];
    case 'none':
      return [];
  }
}

function beatsOf({ perBeat = 1, swing = 0.5, accents = [0] }: ClickWay, beats: number): readonly Place[] {
  return Array.from({ length: beats }, (_, beat) => [
    { beat, accent: accents.includes(beat) },
    ...Array.from({ length: perBeat - 1 }, (_, k): Place => ({ beat: beat + partOf(k + 1, perBeat, swing), accent: false, part: true })),
  ]).flat();
}

/** Where in its beat a part begins; of each pair the second is moved by swing, where parts come in pairs. */
const partOf = (part: number, perBeat: number, swing: number): number =>
  (perBeat % 2 === 0 && part % 2 === 1 ? part - 1 + 2 * swing : part) / perBeat;
