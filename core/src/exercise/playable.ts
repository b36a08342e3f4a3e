/** Whether a drummer's four limbs can play a line. */
import { type BeyondReach, beyondReach, demandsOf, type KitSide, type LoopStroke, type Reach, usualReach, widerReach } from '../kit/index.ts';
import { toNumber } from '../rational.ts';
import type { Sticking } from '../sticking/index.ts';
import { slotSec } from '../units.ts';
import { stickingOfContent } from './content.ts';
import type { ExerciseContent } from './exercise.ts';
import { type Hit, type Line, onsetsOf, slotsOf } from './line.ts';
import { BURST_FROM_PER_BEAT, BURST_LEAST } from './parameters.ts';

/** At what tempo, on what and by whom a shelf is going to be played. */
export interface PlayedAt {
  /** Beats a minute, above 0. */
  readonly tempoBpm: number;
  /** Of `reachSoFar`; default the usual one. */
  readonly reach?: Reach;
}

/** A loop at a tempo. */
export interface LoopAt {
  readonly strokes: readonly LoopStroke[];
  readonly lengthSec: number;
}

/** A line as it is played at a tempo, the second strokes of diddles too. */
export function strokesAt(line: Line, perBeat: number, tempoBpm: number): LoopAt {
  const eachSec = slotSec(tempoBpm, perBeat);
  const strokes: LoopStroke[] = [];
  let slot = 0;
  for (const { slotCount, events } of line) {
    const length = slotCount / events.length;
    for (let i = 0; i < events.length; i++)
      for (const { limb, drums } of events[i]!)
        for (let half = 0; half < drums.length; half++)
          strokes.push({ limb, drum: drums[half]!, timeSec: (slot + (i + half / 2) * length) * eachSec });
    slot += slotCount;
  }
  return { strokes, lengthSec: slot * eachSec };
}

/** Whether a loop of strokes lies within reach. */
type Reaches = (strokes: readonly LoopStroke[], lengthSec: number) => boolean;

/**
 * What lies within reach at a tempo. What the phrase asks by itself counts as within: it is what is wanted.
 * @param own the phrase as it is played. @param side of the floor tom.
 */
export function reachFor(own: LoopAt, reach: Reach = usualReach(), side: KitSide = 'R'): Reaches {
  const wide = widerReach(reach, demandsOf(own.strokes, own.lengthSec));
  return (strokes, lengthSec) => beyondReach(strokes, lengthSec, { reach: wide, side }).length === 0;
}

/**
 * What a content asks at a tempo beyond the reach so far; nothing where it lies within. What the phrase asks by itself is within.
 * @param phrase the phrase that it is for. @param side of the floor tom.
 */
export function beyondSoFar(
  content: ExerciseContent,
  phrase: ExerciseContent,
  { tempoBpm, reach = usualReach(), side = 'R' }: PlayedAt & { readonly side?: KitSide },
): readonly BeyondReach[] {
  const own = loopOf(phrase, stickingOfContent(phrase), tempoBpm);
  const wide = widerReach(reach, demandsOf(own.strokes, own.lengthSec));
  const { strokes, lengthSec } = loopOf(content, stickingOfContent(content), tempoBpm);
  return beyondReach(strokes, lengthSec, { reach: wide, side });
}

/** A content as it is played at a tempo. @param sticking of the content, read. */
export function loopOf({ surfaces, perBeat }: ExerciseContent, { strokes, slotCount }: Sticking, tempoBpm: number): LoopAt {
  const eachSec = slotSec(tempoBpm, perBeat);
  return {
    strokes: strokes.map(({ limb, slot, index }) => ({ limb, drum: surfaces[index]!, timeSec: toNumber(slot) * eachSec })),
    lengthSec: slotCount * eachSec,
  };
}

/** The same for lines. @param phrase the phrase as it stands, with its slots per beat. */
export function reachAt(phrase: { readonly line: Line; readonly perBeat: number }, { tempoBpm, reach }: PlayedAt, side: KitSide) {
  const reaches = reachFor(strokesAt(phrase.line, phrase.perBeat, tempoBpm), reach, side);
  return (line: Line, perBeat: number): boolean => {
    const { strokes, lengthSec } = strokesAt(line, perBeat, tempoBpm);
    return reaches(strokes, lengthSec);
  };
}

/**
 * Whether a loop can be played: no limb twice at once, no grace by a hand that is busy, and no limb longer in a row in neighbouring slots than the
 * phrase asks and one more. Slots of eighths and slower are not bounded.
 * @param line the loop. @param perBeat its slots per beat. @param phraseRun longest run of one limb in the phrase, of `burstOf`.
 */
export function isPlayable(line: Line, perBeat: number, phraseRun: number): boolean {
  const free = line.every(({ events }) => events.every(isFree));
  return free && (perBeat < BURST_FROM_PER_BEAT || burstOf(line) <= Math.max(BURST_LEAST, phraseRun + 1));
}

function isFree(hits: readonly Hit[]): boolean {
  if (hits.length < 2) return true;
  const limbs = hits.map(({ limb }) => limb);
  const graces = hits.flatMap((each) => each.graces.map((hand) => ({ hand, of: each.limb })));
  return new Set(limbs).size === limbs.length && graces.every(({ hand, of }) => hand === of || !limbs.includes(hand));
}

/** Most strokes of one limb in a row, each a slot or less after the one before, as a loop; Infinity when a limb never rests. */
export function burstOf(line: Line): number {
  const slots = slotsOf(line);
  return Math.max(...LIMBS.map((limb) => burstIn(onsetsOf(line, limb), slots)));
}

const LIMBS = ['R', 'L', 'K', 'H'] as const;

function burstIn(onsets: readonly number[], slots: number): number {
  const count = onsets.length;
  if (count === 0) return 0;
  let [run, best] = [1, 1];
  for (let i = 0; i < 2 * count; i++) {
    const gap = (onsets[(i + 1) % count]! - onsets[i % count]! + slots) % slots || slots;
    run = gap <= 1 + 1e-9 ? run + 1 : 1;
    best = Math.max(best, run);
  }
  return best > 2 * count ? Number.POSITIVE_INFINITY : best;
}
