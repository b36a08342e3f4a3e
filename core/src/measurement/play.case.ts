/** Takes as a perfect ear would hear them, for tests: a cycle played with chosen faults. */
import type { ExpectedCycle } from '../exercise/index.ts';
import { rational, toNumber } from '../rational.ts';
import type { Limb } from '../sticking/index.ts';
import type { Candidate, DrumOdds } from '../stroke/index.ts';

/** A cycle of single slots from letters: `>` accent before a letter, `-` a rest, `+` together, `l` or `r` a grace before a letter. */
export function cycleOf(letters: string, perBeat: number): ExpectedCycle {
  const slots = letters.match(/-|(?:>?[rl]*[RLKH])(?:\+>?[rl]*[RLKH])*/g)!;
  let index = 0;
  const strokes = slots.flatMap((slot, at) =>
    slot === '-'
      ? []
      : slot.split('+').map((stroke) => ({
          index: index++,
          limb: stroke.at(-1) as Limb,
          surface: stroke.endsWith('K') ? 'kick' : 'snare',
          beat: rational(at, perBeat),
          accent: stroke.startsWith('>'),
          ghost: false,
          buzz: false,
          graceCount: stroke.match(/[rl]/g)?.length ?? 0,
        })),
  );
  return { lengthBeats: rational(slots.length, perBeat), strokes };
}

export interface Playing {
  readonly cycles: number;
  readonly tempoBpm: number;
  readonly startSec?: number;
  /** Seconds of a beat counted from the first stroke; default a constant tempo. */
  readonly secOf?: (beat: number) => number;
  /** Per stroke: offset in ms, volume in dB over −20, or left out. */
  readonly stroke?: (cycle: number, index: number) => { readonly offMs?: number; readonly db?: number; readonly out?: boolean };
  readonly graceMs?: number;
}

const drums = { kick: 0.02, tom: 0.02, snare: 0.02, pad: 0.02, cymbal: 0.02 };
export const oddsFor = (surface: string): DrumOdds => ({ ...drums, [surface === 'kick' ? 'kick' : 'snare']: 0.92 });

/** One strong, sure candidate. */
export const candidateAt = (timeSec: number, surface = 'snare', volumeDb = -20): Candidate => ({
  timeSec,
  strength: 2,
  volumeDb,
  confidence: 0.95,
  drumOdds: oddsFor(surface),
});

/** What is heard of the cycle played over and over; strokes together give one candidate. */
export function play(cycle: ExpectedCycle, playing: Playing): Candidate[] {
  const { cycles, tempoBpm, startSec = 0.5, graceMs = 35 } = playing;
  const stroke: NonNullable<Playing['stroke']> = playing.stroke ?? (() => ({}));
  const secOf = playing.secOf ?? ((beat: number) => (60 * beat) / tempoBpm);
  const heard = new Map<number, Candidate>();
  for (let n = 0; n < cycles; n++) {
    for (const expected of cycle.strokes) {
      const { offMs = 0, db = expected.accent ? 8 : 0, out = false } = stroke(n, expected.index);
      if (out) continue;
      const beat = n * toNumber(cycle.lengthBeats) + toNumber(expected.beat);
      const sec = startSec + secOf(beat) + offMs / 1000;
      for (let grace = expected.graceCount; grace > 0; grace--)
        heard.set(beat - 0.001 * grace, candidateAt(sec - (grace * graceMs) / 1000, expected.surface, -30));
      heard.set(beat, candidateAt(sec, expected.surface, -20 + db));
    }
  }
  return [...heard.values()].sort((a, b) => a.timeSec - b.timeSec);
}
