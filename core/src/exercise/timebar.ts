/** Bars of time: the plain groove that grooves, fills and music are set in. */
import type { ExerciseContent, Meter } from './exercise.ts';
import { type Hit, hit, type Line, place } from './line.ts';
import { barSlotsOf, otherHand, type Phrase } from './phrase.ts';

/**
 * Beats of a bar, from 0, that carry the backbeat: every second pulse; in 6/8 and its kin pulses are three beats long.
 * @returns none for a bar of one pulse.
 */
export function backbeatsOf({ beats, unit }: Meter): readonly number[] {
  const pulse = unit === 8 && beats % 3 === 0 ? 3 : 1;
  return Array.from({ length: Math.floor(beats / pulse) }, (_, i) => i * pulse).filter((_, i) => i % 2 === 1);
}

/** Beats of a bar, from 0, that carry the kick of a bar of time: each pulse before a backbeat. */
export function kicksOf(meter: Meter): readonly number[] {
  const pulse = meter.unit === 8 && meter.beats % 3 === 0 ? 3 : 1;
  return backbeatsOf(meter).map((beat) => beat - pulse);
}

/** What a bar of time may have otherwise. */
export interface TimeOptions {
  /** Crash and kick on 1, after a fill; `crash` alone where the foot has just played. Default none. */
  readonly landing?: 'both' | 'crash' | null;
  /** Default hi-hat. */
  readonly cymbal?: 'hi-hat' | 'ride';
  /** Whether the kick plays; default true. */
  readonly kick?: boolean;
}

/** A bar of time: the cymbal in eighths (in threes first and third, else on the beat), the other hand's backbeat, the kick before it. */
export function timeBar({ content, cymbalHand }: Phrase, options: TimeOptions = {}): Line {
  const { perBeat, meter } = content;
  const { landing = null, cymbal = 'hi-hat', kick = true } = options;
  const [snares, kicks] = [backbeatsOf(meter), kick ? kicksOf(meter) : []].map((beats) => beats.map((beat) => beat * perBeat));
  return Array.from({ length: barSlotsOf(content) }, (_, slot) => {
    const hits: Hit[] = [];
    if (slot === 0 && landing) hits.push(hit(cymbalHand, 'crash', { accent: true }));
    else if (isCymbalSlot(slot, content)) hits.push(hit(cymbalHand, cymbal));
    if (snares!.includes(slot)) hits.push(hit(otherHand(cymbalHand), 'snare', { accent: true }));
    if (kicks!.includes(slot) && !(slot === 0 && landing === 'crash')) hits.push(hit('K', 'kick'));
    return place(...hits);
  });
}

/** Where the cymbal plays: every eighth, in eighths of a meter of eighths every beat, in triplets the first and third. */
export function isCymbalSlot(slot: number, { perBeat, meter }: ExerciseContent): boolean {
  const inBeat = slot % perBeat;
  if (inBeat === 0) return true;
  if (meter.unit >= 8) return false;
  return perBeat === 3 ? inBeat === 2 : perBeat % 2 === 0 && inBeat === perBeat / 2;
}
