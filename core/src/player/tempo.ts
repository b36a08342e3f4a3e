/** The beats of a player whose tempo wanders. */
import { normal, type Random } from '../random.ts';
import { beatSec } from '../units.ts';
import { WANDER_LIMIT_SHARE } from './parameters.ts';

export interface BeatOptions {
  readonly tempoBpm: number;
  readonly beatCount: number;
  readonly startSec: number;
  /** Deviation of the change of tempo from beat to beat, as a share of the tempo; 0 keeps it. */
  readonly wanderShare: number;
  readonly random: Random;
}

/**
 * @returns the time in seconds of any beat from 0 to `beatCount`, whole or not.
 */
export function beatTimes({ tempoBpm, beatCount, startSec, wanderShare, random }: BeatOptions): (beat: number) => number {
  if (wanderShare === 0) return (beat) => startSec + beat * beatSec(tempoBpm);
  const timesSec = [startSec];
  let share = 1;
  for (let beat = 0; beat <= beatCount; beat++) {
    share = Math.min(1 + WANDER_LIMIT_SHARE, Math.max(1 - WANDER_LIMIT_SHARE, share + wanderShare * normal(random)));
    timesSec.push(timesSec[beat]! + beatSec(tempoBpm * share));
  }
  return (beat) => {
    const whole = Math.min(Math.floor(beat), timesSec.length - 2);
    return timesSec[whole]! + (beat - whole) * (timesSec[whole + 1]! - timesSec[whole]!);
  };
}
