/** The simulated drummer: a written cycle becomes strokes as somebody might play them, with the faults that were asked for. */
import type { ExpectedCycle, ExpectedStroke } from '../exercise/index.ts';
import { normal, type Random } from '../random.ts';
import { toNumber } from '../rational.ts';
import { bouncesOf, type Companion, gracesOf, writtenLevelDb } from '../sound/index.ts';
import type { Limb } from '../sticking/index.ts';
import { beatSec, secOfMs } from '../units.ts';
import { BOUNCE, EASY_RATE_HZ, HURRY_GAIN, type Style } from './parameters.ts';
import { beatTimes } from './tempo.ts';

/** What one place of the sticking does wrong, each time round. */
export interface Fault {
  /** Main stroke, from 0. */
  readonly index: number;
  /** Milliseconds too early; below zero is late. */
  readonly earlyMs?: number;
  /** Decibels too soft; below zero is loud. */
  readonly softDb?: number;
  /** Share of the cycles in which it is missing, 0 to 1. */
  readonly missShare?: number;
  /** Share of the cycles in which one bounce too many follows it, 0 to 1. */
  readonly bounceShare?: number;
  /** How much of the fault there is in a cycle, 0 to 1 (a fault that grows, or only comes at one place in the bar); all of it unless said. */
  readonly amountIn?: (cycle: number) => number;
}

export interface PerformOptions {
  readonly tempoBpm: number;
  readonly cycles: number;
  readonly style: Style;
  readonly faults?: readonly Fault[];
  /** Time of the first beat in seconds. */
  readonly startSec?: number;
  readonly random: Random;
}

/** When something sounds, and how loud. */
export interface Onset {
  readonly timeSec: number;
  /** RMS over the 20 ms after the onset, dB of full scale. */
  readonly levelDb: number;
}

/** A stroke as played; of a missed one, when and how it would have been. */
export interface PerformedStroke extends Onset {
  readonly limb: Limb;
  readonly surface: string;
  readonly index: number;
  readonly cycle: number;
  readonly missed: boolean;
  /** Its graces, first to last. */
  readonly graces: readonly Onset[];
  /** The bounces after it when it buzzes, or when there is one too many. */
  readonly bounces: readonly Onset[];
}

/**
 * Plays a cycle over and over.
 *
 * Timing follows Wing and Kristofferson: each stroke comes at the time of an inner clock, whose intervals vary, plus a delay that varies, so that
 * a long interval tends to follow a short one. Where a limb plays faster than is easy, time and volume vary more.
 * @returns strokes by cycle and place; two written together keep their own delays.
 * @source [WingKristofferson1973]
 */
export function perform(cycle: ExpectedCycle, options: PerformOptions): PerformedStroke[] {
  const { tempoBpm, cycles, startSec = 0, style, random } = options;
  const lengthBeats = toNumber(cycle.lengthBeats);
  const timeOfBeat = beatTimes({ tempoBpm, beatCount: Math.ceil(cycles * lengthBeats) + 1, startSec, wanderShare: style.wanderShare, random });
  const hurry = hurryByIndex(cycle, { tempoBpm, gain: style.hurryGain ?? HURRY_GAIN });
  const clock = innerClock(style, random);
  const strokes: PerformedStroke[] = [];
  for (let round = 0; round < cycles; round++) {
    for (const written of cycle.strokes) {
      const beat = round * lengthBeats + toNumber(written.beat);
      const effort = hurry.get(written.index)!;
      const offMs = clock(beat, effort) + effort * style.motorSdMs * normal(random);
      const levelDb = writtenLevelDb(written) + effort * style.levelSdDb * normal(random);
      strokes.push(played(written, { timeSec: timeOfBeat(beat) + secOfMs(offMs), levelDb, cycle: round }, options));
    }
  }
  return strokes;
}

/** How far the inner clock is off at a beat, in ms; strokes on the same beat share it. */
function innerClock({ clockSdMs, correction }: Style, random: Random): (beat: number, effort: number) => number {
  let [lastBeat, offMs] = [Number.NEGATIVE_INFINITY, 0];
  return (beat, effort) => {
    if (beat > lastBeat) offMs = (1 - correction) * offMs + effort * clockSdMs * normal(random);
    lastBeat = beat;
    return offMs;
  };
}

/** By how much each stroke's errors grow, from how soon after its limb's last stroke it comes. */
function hurryByIndex(cycle: ExpectedCycle, { tempoBpm, gain }: { tempoBpm: number; gain: number }): Map<number, number> {
  const lengthBeats = toNumber(cycle.lengthBeats);
  return new Map(
    cycle.strokes.map((stroke) => {
      const gapsBeats = cycle.strokes
        .filter(({ limb }) => limb === stroke.limb)
        .map(({ beat }) => (toNumber(stroke.beat) - toNumber(beat) + lengthBeats) % lengthBeats || lengthBeats);
      const rateHz = 1 / (Math.min(...gapsBeats) * beatSec(tempoBpm));
      return [stroke.index, 1 + gain * Math.max(0, rateHz / EASY_RATE_HZ - 1)];
    }),
  );
}

/** Adds what was asked to go wrong at this place. */
function played(written: ExpectedStroke, meant: Onset & { readonly cycle: number }, { faults = [], random }: PerformOptions): PerformedStroke {
  const here = faults.filter(({ index }) => index === written.index);
  const sum = (of: (fault: Fault) => number) => here.reduce((all, fault) => all + of(fault) * (fault.amountIn?.(meant.cycle) ?? 1), 0);
  const timeSec = meant.timeSec - secOfMs(sum(({ earlyMs = 0 }) => earlyMs));
  const levelDb = meant.levelDb - sum(({ softDb = 0 }) => softDb);
  const beside = ({ offsetSec, addDb }: Companion): Onset => ({ timeSec: timeSec + offsetSec, levelDb: levelDb + addDb });
  return {
    timeSec,
    levelDb,
    limb: written.limb,
    surface: written.surface,
    index: written.index,
    cycle: meant.cycle,
    missed: random() < sum(({ missShare = 0 }) => missShare),
    graces: gracesOf(written.graceCount).map(beside),
    bounces: [
      ...bouncesOf(written.buzz),
      ...bounceTooMany(
        sum(({ bounceShare = 0 }) => bounceShare),
        random,
      ),
    ].map(beside),
  };
}

/** Chance is only asked where a fault asks for it, so that other takes stay as they are. */
const bounceTooMany = (share: number, random: Random): Companion[] =>
  share > 0 && random() < share ? [{ offsetSec: BOUNCE.gapSec, addDb: -BOUNCE.lossDb }] : [];
