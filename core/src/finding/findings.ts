/** From a measured take, or several, to the few statements worth telling, likeliest first. */
import type { ExpectedCycle } from '../exercise/index.ts';
import type { Measurement, MeasurementProblem } from '../measurement/index.ts';
import { audibleMs } from './audible.ts';
import type { Case, Verdict } from './case.ts';
import { caseTake, type TakeOptions } from './cases.ts';
import type { Explanation } from './explanation.ts';
import type { Finding, Shape } from './finding.ts';
import { fitsOf } from './fits.ts';
import { nameOf } from './naming.ts';
import { spacesMs } from './observations.ts';
import { FEWEST_CYCLES, WISHED_CYCLES } from './parameters.ts';
import { notHeard, unheardOf } from './unheard.ts';
import { weigh } from './weighing.ts';

/** What is known beside the measurement. */
export interface FindingOptions extends TakeOptions {
  /** What `measure` told beside its value: when it doubts the sticking, no single stroke is judged. */
  readonly problems?: readonly MeasurementProblem[];
  /** What is wanted; even unless said. */
  readonly shapes?: readonly Shape[];
}

/** A take beside the first that changed one thing. */
export interface FurtherTake extends TakeOptions {
  readonly measurement: Measurement;
}

const STICKING_DOUBTS: readonly MeasurementProblem['code'][] = ['sticking-does-not-fit', 'sticking-drums-elsewhere', 'sticking-repeats-otherwise'];

/**
 * What a measurement shows, likeliest first. Strokes told in one finding are not told again in another.
 * @param measurement of a take.
 * @param further takes that changed one thing each (probes): what they show is weighed together with the first.
 * @returns at least one finding; when nothing stands out, the take says too little, strokes could not be heard, or the sticking does not fit it, one of cause `none`.
 */
export function findingsOf(measurement: Measurement, options: FindingOptions, further: readonly FurtherTake[] = []): Finding[] {
  const { cycle, problems = [], shapes = [] } = options;
  if (problems.some(({ code }) => STICKING_DOUBTS.includes(code))) return [STICKING_IN_DOUBT];
  const cycleCount = new Set(measurement.strokes.map((stroke) => stroke.cycle)).size;
  if (cycleCount < FEWEST_CYCLES) return [tooLittle(cycleCount)];
  const takes = [caseTake(measurement, options), ...further.map((take) => caseTake(take.measurement, take))];
  const spaces = spacesMs(measurement, cycle);
  const verdicts = weigh(takes, { audibleMs: (explanation) => heardMs(explanation, spaces), shapes });
  const unheard = unheardOf(measurement.strokes);
  if (verdicts.length > 0) {
    const alone = verdicts.length === 1 && unheard.length === 0;
    const told = verdicts.map((verdict, i) => findingOf(verdict, { verdicts, cycle, number: i, alone }));
    return unheard.length > 0 ? [...told, notHeard(unheard, 'told')] : told;
  }
  const wide = tooWide(measurement, spaces);
  if (unheard.length > 0) return [notHeard(unheard, wide ? 'unknown' : 'even')];
  if (wide) return [tooLittle(cycleCount)];
  return [{ code: 'nothing-stands-out', params: { cycleCount }, cause: 'none', indices: [], weight: 0 }];
}

const STICKING_IN_DOUBT: Finding = { code: 'sticking-in-doubt', params: {}, cause: 'none', indices: [], weight: 0 };

const tooLittle = (cycleCount: number): Finding => ({
  code: 'too-little-to-tell',
  params: { cycleCount, wishedCount: Math.max(WISHED_CYCLES, 2 * cycleCount) },
  cause: 'none',
  indices: [],
  weight: 0,
});

/** What is heard of strokes, by the least room that any of them has. */
export const heardMs = ({ indices }: Explanation, spaces: readonly number[]): number => {
  const known = indices.flatMap((index) => spaces[index] ?? []);
  return audibleMs(known.length > 0 ? Math.min(...known) : 0);
};

/** Half the places cannot be told to within what is heard: their intervals reach further than that to both sides. */
function tooWide(measurement: Measurement, spaces: readonly number[]): boolean {
  const wide = measurement.places.filter(({ index, biasLowMs, biasHighMs, unsure }) => {
    return unsure || biasLowMs === null || biasHighMs === null || biasHighMs - biasLowMs > 4 * audibleMs(spaces[index]!);
  });
  return wide.length > measurement.places.length / 2;
}

interface Among {
  readonly verdicts: readonly Verdict[];
  readonly cycle: ExpectedCycle;
  readonly number: number;
  /** Nothing else is told, and all strokes could be judged. */
  readonly alone: boolean;
}

function findingOf({ told, ties, weight, rivals }: Verdict, { verdicts, cycle, number, alone }: Among): Finding {
  const share = told.logOdds / verdicts.reduce((sum, verdict) => sum + verdict.told.logOdds, 0);
  const { explanation } = told;
  const params = { ...nameOf(explanation, cycle), ...effectsOf(told), alone };
  return {
    code: 'cause-fits',
    params,
    cause: explanation.cause,
    indices: explanation.indices,
    weight: weight * share,
    ties: ties.map((tie) => ({ code: 'cause-named', params: nameOf(tie.explanation, cycle) })),
    rivals: rivals.map(({ rival, weight: of }) => ({
      code: 'cause-named',
      params: nameOf(rival.explanation, cycle),
      cause: rival.explanation.cause,
      indices: rival.explanation.indices,
      weight: of * share,
    })),
    fits: number === 0 ? fitsOf(params, explanation.cause) : [],
  };
}

export function effectsOf({ time, volume, missed, bounced, apart }: Case) {
  const [low, high] = [-1.96, 1.96];
  return {
    time: time ? (time.size < 0 ? ('early' as const) : ('late' as const)) : ('even' as const),
    volume: volume ? (volume.size < 0 ? ('softer' as const) : ('louder' as const)) : ('even' as const),
    effectMs: time?.size ?? 0,
    effectLowMs: time ? time.size + low * time.error : 0,
    effectHighMs: time ? time.size + high * time.error : 0,
    effectDb: volume?.size ?? 0,
    effectLowDb: volume ? volume.size + low * volume.error : 0,
    effectHighDb: volume ? volume.size + high * volume.error : 0,
    missed: missed?.hits ?? 0,
    bounced: bounced?.hits ?? 0,
    apart: apart?.hits ?? 0,
    strokeCount: (missed ?? bounced ?? apart)?.chances ?? 0,
  };
}
