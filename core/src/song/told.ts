/** Beats that the player tells: a tempo typed, half or double of what was found, taps along, where 1 is; and a loop of bars. */
import { ParameterError } from '../errors.ts';
import type { Reading } from '../problem.ts';
import { median } from '../quantiles.ts';
import { bpmOfBeatSec, bpmOfBeats } from '../units.ts';
import { evenBeats } from './beats.ts';
import { LEAST_TAPS, TAP_SLIP_SHARE } from './parameters.ts';
import type { SongBeats, SongLoop, SongProblem } from './song.ts';

/**
 * Beats of a tempo that was typed.
 * @param tempoBpm above 0. @param options `phaseSec`: a time on which a beat falls; `durationSec` of the recording.
 */
export function inTempo(tempoBpm: number, options: { readonly phaseSec: number; readonly durationSec: number }): SongBeats {
  if (!(tempoBpm > 0)) throw new ParameterError('tempoBpm', tempoBpm, 'above 0');
  return { tempoBpm, beatsSec: evenBeats(tempoBpm, options.phaseSec, options.durationSec), firstOne: 0 };
}

/** Every second beat of these, the ones among them where they are. */
export function halved({ tempoBpm, beatsSec, firstOne }: SongBeats): SongBeats {
  return { tempoBpm: tempoBpm / 2, beatsSec: beatsSec.filter((_, i) => i % 2 === firstOne % 2), firstOne: Math.floor(firstOne / 2) };
}

/** A beat between every two of these. */
export function doubled({ tempoBpm, beatsSec, firstOne }: SongBeats): SongBeats {
  const between = beatsSec.flatMap((sec, i) => (i + 1 < beatsSec.length ? [sec, (sec + beatsSec[i + 1]!) / 2] : [sec]));
  return { tempoBpm: 2 * tempoBpm, beatsSec: between, firstOne: 2 * firstOne };
}

/** Beats half a beat later: for where the offbeat was taken for the beat. */
export const onOffbeat = (beats: SongBeats): SongBeats => ({
  ...beats,
  beatsSec: beats.beatsSec.slice(1).map((sec, i) => (sec + beats.beatsSec[i]!) / 2),
});

/** The same beats with 1 on another: `by` beats later, or earlier when negative. */
export const withOne = (beats: SongBeats, by: number, beatsPerBar: number): SongBeats => ({
  ...beats,
  firstOne: (((beats.firstOne + by) % beatsPerBar) + beatsPerBar) % beatsPerBar,
});

/**
 * Beats that were tapped while the recording played: the straight line through the taps, slips left out; the first tap is 1.
 * @param tapsSec times in the recording, ascending.
 * @param durationSec of the recording.
 */
export function fromTaps(tapsSec: readonly number[], durationSec: number, beatsPerBar = 4): Reading<SongBeats, SongProblem> {
  const few = (): Reading<SongBeats, SongProblem> => {
    const params = { tapCount: tapsSec.length, least: LEAST_TAPS };
    return { value: null, problems: [{ code: 'song-few-taps', severity: 'refused', params }] };
  };
  if (tapsSec.length < LEAST_TAPS) return few();
  const usualSec = median(tapsSec.slice(1).map((sec, i) => sec - tapsSec[i]!));
  if (!(usualSec > 0)) return few();
  const beatOf = tapBeats(tapsSec, usualSec);
  const near = tapsSec.map((sec, i) => ({ sec, beat: beatOf[i]! }));
  const first = lineThrough(near);
  const kept = near.filter(({ sec, beat }) => Math.abs(sec - first.startSec - beat * first.beatSec) <= TAP_SLIP_SHARE * first.beatSec);
  const { startSec, beatSec } = lineThrough(kept.length >= 2 ? kept : near);
  const beatsSec = evenBeats(bpmOfBeatSec(beatSec), startSec, durationSec);
  const before = Math.round((startSec - beatsSec[0]!) / beatSec);
  return { value: { tempoBpm: bpmOfBeatSec(beatSec), beatsSec, firstOne: before % beatsPerBar }, problems: [] };
}

/** Which beat each tap is, counted on from the first: a missed one leaves a gap of two. */
function tapBeats(tapsSec: readonly number[], usualSec: number): readonly number[] {
  let beat = 0;
  return tapsSec.map((sec, i) => {
    if (i > 0) beat += Math.max(1, Math.round((sec - tapsSec[i - 1]!) / usualSec));
    return beat;
  });
}

/** Least squares. */
function lineThrough(points: readonly { readonly sec: number; readonly beat: number }[]): { readonly startSec: number; readonly beatSec: number } {
  const mean = (of: readonly number[]) => of.reduce((sum, value) => sum + value, 0) / of.length;
  const [secMean, beatMean] = [mean(points.map(({ sec }) => sec)), mean(points.map(({ beat }) => beat))];
  const across = points.reduce((sum, { sec, beat }) => sum + (sec - secMean) * (beat - beatMean), 0);
  const spread = points.reduce((sum, { beat }) => sum + (beat - beatMean) ** 2, 0);
  const beatSec = across / spread;
  return { startSec: secMean - beatMean * beatSec, beatSec };
}

/** Whole bars from the first 1 on. */
export const barCountOf = ({ beatsSec, firstOne }: SongBeats, beatsPerBar: number): number =>
  Math.max(0, Math.floor((beatsSec.length - 1 - firstOne) / beatsPerBar));

/**
 * Some bars of a recording as a loop.
 * @param range bars from 1, both held.
 */
export function loopOf(
  beats: SongBeats,
  range: { readonly firstBar: number; readonly lastBar: number },
  beatsPerBar = 4,
): Reading<SongLoop, SongProblem> {
  const { firstBar, lastBar } = range;
  const barCount = barCountOf(beats, beatsPerBar);
  const inside = Number.isInteger(firstBar) && Number.isInteger(lastBar) && firstBar >= 1 && lastBar >= firstBar && lastBar <= barCount;
  if (!inside) return { value: null, problems: [{ code: 'song-loop-outside', severity: 'refused', params: { firstBar, lastBar, barCount } }] };
  const [startSec, endSec] = [firstBar - 1, lastBar].map((bar) => beats.beatsSec[beats.firstOne + bar * beatsPerBar]!) as [number, number];
  const bars = lastBar - firstBar + 1;
  return { value: { startSec, endSec, bars, tempoBpm: bpmOfBeats(bars * beatsPerBar, endSec - startSec) }, problems: [] };
}
