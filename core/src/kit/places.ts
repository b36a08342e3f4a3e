/** Where drums stand: a usual kit as places on the floor, for right- and left-handers. */
import { drumNamed } from './drums.ts';

/** A place seen from above: cm to the right of the player's middle, and cm in front. */
export interface Place {
  readonly xCm: number;
  readonly yCm: number;
}

/** Side of the floor tom and of the kick's foot: right as most kits stand. */
export type KitSide = 'R' | 'L';

/** A five-piece kit for right-handers, seen from above. Assumption: as kits usually stand, not measured; every player's differs by a hand's breadth. */
const FIVE_PIECE: Readonly<Record<string, Place>> = {
  snare: { xCm: 0, yCm: 35 },
  pad: { xCm: 0, yCm: 35 },
  towel: { xCm: 0, yCm: 35 },
  rim: { xCm: 0, yCm: 35 },
  'cross-stick': { xCm: 0, yCm: 35 },
  'high-tom': { xCm: -12, yCm: 60 },
  'mid-tom': { xCm: 18, yCm: 62 },
  'floor-tom': { xCm: 45, yCm: 32 },
  'hi-hat': { xCm: -45, yCm: 42 },
  'open-hi-hat': { xCm: -45, yCm: 42 },
  ride: { xCm: 50, yCm: 65 },
  'ride-bell': { xCm: 50, yCm: 65 },
  crash: { xCm: -35, yCm: 80 },
  kick: { xCm: 18, yCm: 30 },
  'hi-hat-foot': { xCm: -38, yCm: 30 },
};

/**
 * Where a drum stands; the other way round on a kit for left-handers. Null for a drum that is not in the table: nobody knows where it stands.
 * @param name as in stickings.
 */
export function placeOfDrum(name: string, side: KitSide = 'R'): Place | null {
  const place = FIVE_PIECE[drumNamed(name).name];
  if (!place) return null;
  return side === 'R' ? place : { ...place, xCm: -place.xCm };
}

/** From one drum to another in cm; 0 where one of them stands nobody knows where. */
export function distanceCm(from: string, to: string): number {
  const [a, b] = [placeOfDrum(from), placeOfDrum(to)];
  return a && b ? Math.hypot(a.xCm - b.xCm, a.yCm - b.yCm) : 0;
}
