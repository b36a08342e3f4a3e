/** The same phrase at several tempi: where each cause shows and where it holds. */
import type { Measurement } from '../measurement/index.ts';
import { caseTake, type TakeOptions } from './cases.ts';
import type { Shape, TempoZone, TempoZoneStatement } from './finding.ts';
import { effectsOf, heardMs } from './findings.ts';
import { nameOf } from './naming.ts';
import { spacesMs } from './observations.ts';
import { caseIn, weigh } from './weighing.ts';

/** A take of the phrase at one tempo; of takes that a diary kept, places and pairs are enough. */
export interface TempoTake extends TakeOptions {
  readonly measurement: Measurement;
}

/**
 * Of what all takes show together, the tempi at which it shows.
 * @param takes of one phrase, any order; two or more at different tempi, else nothing is told.
 * @param options `perBeat`: slots per beat, for the name of the tempo; `shapes`: what is wanted, default even.
 * @returns likeliest first; what shows at every tempo is told too.
 */
export function tempoZones(
  takes: readonly TempoTake[],
  { perBeat, shapes = [] }: { readonly perBeat: number; readonly shapes?: readonly Shape[] },
): TempoZoneStatement[] {
  const byTempo = [...takes].sort((a, b) => a.measurement.tempoBpm - b.measurement.tempoBpm);
  const tempiBpm = byTempo.map(({ measurement }) => measurement.tempoBpm);
  if (new Set(tempiBpm).size < 2) return [];
  const cases = byTempo.map((take) => caseTake(take.measurement, take));
  const optionsAt = (at: number) => {
    const spaces = spacesMs(byTempo[at]!.measurement, byTempo[at]!.cycle);
    return { audibleMs: (explanation: Parameters<typeof heardMs>[0]) => heardMs(explanation, spaces), shapes };
  };
  const fastest = optionsAt(byTempo.length - 1);
  // A cause that shows at one tempo only is thinned out when all are weighed together, so each tempo is weighed by itself too.
  const verdicts = [weigh(cases, fastest), ...cases.map((one, at) => weigh([one], optionsAt(at)))].flat();
  const keys = [...new Set(verdicts.map(({ told }) => told.explanation.key))];
  const told = new Set<string>();
  return keys.flatMap((key) => {
    const found = cases.map((one, at) => caseIn(one, key, optionsAt(at)));
    const shows = found.map((one) => one !== null && one.logOdds > 0);
    const strongest = found.reduce((best, one) => (one && (!best || one.logOdds > best.logOdds) ? one : best), null);
    const strokes = `${strongest?.explanation.indices}`;
    if (!strongest || !shows.includes(true) || told.has(strokes)) return [];
    told.add(strokes);
    const params: TempoZone = {
      ...nameOf(strongest.explanation, byTempo[0]!.cycle),
      ...inCommon(
        found.flatMap((one, at) => (one && shows[at] ? [effectsOf(one)] : [])),
        effectsOf(strongest),
      ),
      alone: false,
      perBeat,
      ...zoneOf(shows, tempiBpm),
    };
    return [{ code: 'tempo-zone' as const, params }];
  });
}

type Effects = ReturnType<typeof effectsOf>;

/** Of what is told of the strongest only that which shows at every one of the tempi, in volume by the least of them; all of it where they have nothing in common. */
function inCommon(all: readonly Effects[], strongest: Effects): Effects {
  const time = all.every((one) => one.time === strongest.time) ? strongest.time : 'even';
  const volume = all.every((one) => one.volume === strongest.volume) ? strongest.volume : 'even';
  const { effectDb, effectLowDb, effectHighDb } = all.reduce((least, one) => (Math.abs(one.effectDb) < Math.abs(least.effectDb) ? one : least));
  return time === 'even' && volume === 'even' ? strongest : { ...strongest, time, volume, effectDb, effectLowDb, effectHighDb };
}

/** The one stretch of tempi in which it shows. */
function zoneOf(shows: readonly boolean[], tempiBpm: readonly number[]): Pick<TempoZone, 'zone' | 'lowBpm' | 'highBpm'> {
  const [first, last] = [shows.indexOf(true), shows.lastIndexOf(true)];
  const ends = { lowBpm: tempiBpm[first]!, highBpm: tempiBpm[last]! };
  if (shows.slice(first, last + 1).includes(false)) return { zone: 'scattered', ...ends };
  const [reachesSlow, reachesFast] = [first === 0, last === shows.length - 1];
  if (reachesSlow && reachesFast) return { zone: 'everywhere', ...ends };
  return { zone: reachesFast ? 'from' : reachesSlow ? 'below' : 'between', ...ends };
}
