/** Whether a drummer's four limbs can play a line. */
import { type Hit, hitsIn, type Line, onsetsOf, slotsOf } from './line.ts';
import { BURST_FROM_PER_BEAT, BURST_LEAST } from './parameters.ts';

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
  const limbs = hits.map(({ limb }) => limb);
  const graces = hits.flatMap((each) => each.graces.map((hand) => ({ hand, of: each.limb })));
  return new Set(limbs).size === limbs.length && graces.every(({ hand, of }) => hand === of || !limbs.includes(hand));
}

/** Most strokes of one limb in a row, each a slot or less after the one before, as a loop; Infinity when a limb never rests. */
export function burstOf(line: Line): number {
  const limbs = [...new Set(hitsIn(line).map(({ limb }) => limb))];
  return Math.max(0, ...limbs.map((limb) => burstIn(onsetsOf(line, limb), slotsOf(line))));
}

function burstIn(onsets: readonly number[], slots: number): number {
  const close = onsets.map((onset, i) => (onsets[(i + 1) % onsets.length]! - onset + slots) % slots || slots).map((gap) => gap <= 1 + 1e-9);
  if (close.every(Boolean)) return Number.POSITIVE_INFINITY;
  let run = 1;
  let best = 1;
  for (const each of [...close, ...close]) {
    run = each ? run + 1 : 1;
    best = Math.max(best, run);
  }
  return best;
}
