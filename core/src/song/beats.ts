/** From a beat curve and its tempo to the beats: at one distance where the tempo holds, along the recording where it moves. */
import { parabolaPeak } from '../signal/index.ts';
import { beatSec } from '../units.ts';
import { HOP_SEC, TIGHTNESS } from './parameters.ts';

/** Beats of one tempo from the first that fits to the end, s. @param phaseSec a time on which a beat falls. */
export function evenBeats(tempoBpm: number, phaseSec: number, durationSec: number): readonly number[] {
  const eachSec = beatSec(tempoBpm);
  const first = phaseSec - Math.floor(phaseSec / eachSec + 1e-9) * eachSec;
  const count = Math.max(0, Math.floor((durationSec - first) / eachSec) + 1);
  return Array.from({ length: count }, (_, i) => first + i * eachSec);
}

/** Where in the beat the curve rises most, s from 0 and less than a beat: the curve laid over itself beat by beat. */
export function phaseOf(curve: Float64Array, tempoBpm: number): number {
  const beatHops = beatSec(tempoBpm) / HOP_SEC;
  const places = Math.max(8, Math.round(beatHops));
  const sums = new Float64Array(places);
  curve.forEach((value, n) => {
    const at = ((n / beatHops) % 1) * places;
    const place = Math.floor(at);
    sums[place % places]! += value * (1 - (at - place));
    sums[(place + 1) % places]! += value * (at - place);
  });
  const smooth = (i: number) => sums[(i + places) % places]! + 0.5 * (sums[(i - 1 + places) % places]! + sums[(i + 1) % places]!);
  let top = 0;
  for (let i = 1; i < places; i++) if (smooth(i) > smooth(top)) top = i;
  const { offset } = parabolaPeak(smooth(top - 1), smooth(top), smooth(top + 1));
  return (((top + offset + places) % places) / places) * beatSec(tempoBpm);
}

/**
 * Beats that follow a recording whose tempo moves: of all rows of beats the one whose rises are most and whose distances leave a beat least.
 * @source [Ellis2007] the recursion and its penalty
 */
export function followedBeats(curve: Float64Array, tempoBpm: number): readonly number[] {
  const beatHops = beatSec(tempoBpm) / HOP_SEC;
  const scale = Math.sqrt(curve.reduce((sum, value) => sum + value * value, 0) / curve.length) || 1;
  const [shortest, longest] = [Math.round(beatHops / 2), Math.round(beatHops * 2)];
  const worth = new Float64Array(curve.length);
  const from = new Int32Array(curve.length).fill(-1);
  const penalty = Float64Array.from({ length: longest + 1 }, (_, gap) => (gap < shortest ? 0 : TIGHTNESS * Math.log(gap / beatHops) ** 2));
  for (let n = 0; n < curve.length; n++) {
    let best = 0;
    for (let gap = shortest; gap <= longest && gap <= n; gap++) {
      const along = worth[n - gap]! - penalty[gap]!;
      if (along > best) {
        best = along;
        from[n] = n - gap;
      }
    }
    worth[n] = curve[n]! / scale + best;
  }
  return rowTo(lastOf(worth, longest), from).map((n) => n * HOP_SEC);
}

/** The best end within the last beats. */
function lastOf(worth: Float64Array, reach: number): number {
  let last = worth.length - 1;
  for (let n = Math.max(0, worth.length - reach); n < worth.length; n++) if (worth[n]! > worth[last]!) last = n;
  return last;
}

function rowTo(last: number, from: Int32Array): readonly number[] {
  const row: number[] = [];
  for (let n = last; n >= 0; n = from[n]!) row.push(n);
  return row.reverse();
}

/** Which beat of a bar, from 0, the low bands rise on most: where 1 probably is. */
export function oneOf(low: Float64Array, beatsSec: readonly number[], beatsPerBar: number): number {
  const sums = Array.from({ length: beatsPerBar }, () => 0);
  beatsSec.forEach((sec, i) => {
    const at = Math.round(sec / HOP_SEC);
    sums[i % beatsPerBar]! += Math.max(0, ...low.subarray(Math.max(0, at - 4), at + 5));
  });
  return sums.indexOf(Math.max(...sums));
}
