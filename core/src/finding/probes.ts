/** Which short takes would tell the likeliest causes apart, and what they ruled out. */
import type { ExerciseContent } from '../exercise/index.ts';
import { expectedCycle } from '../exercise/index.ts';
import { eventsOf, type Measurement } from '../measurement/index.ts';
import { secOfBeats } from '../units.ts';
import { audibleMs } from './audible.ts';
import type { Case, Verdict } from './case.ts';
import { caseTake } from './cases.ts';
import type { CaseTake } from './columns.ts';
import { doublesOf } from './doubles.ts';
import { type Explanation, explanationsOf } from './explanation.ts';
import type { CauseStatement, Finding } from './finding.ts';
import type { FindingOptions, FurtherTake } from './findings.ts';
import { spacesMs } from './observations.ts';
import { LEAST_GAIN, NATURAL, PROBE_SEC } from './parameters.ts';
import { mannerProbe, type ProbeKind, type ProbeTake, stickingProbes } from './probetake.ts';
import { weigh } from './weighing.ts';

/** A short take that is worth playing. */
export interface Probe extends ProbeTake {
  /** Share of the doubt between the likeliest causes that it would settle, 0 to 1; of probes for the reason only, 0. */
  readonly gain: number;
}

export interface ProbeOptions extends FindingOptions {
  readonly content: ExerciseContent;
  /** Takes that were played already. */
  readonly further?: readonly FurtherTake[];
  /** Kinds that were played already. */
  readonly played?: readonly ProbeKind[];
  /** How many to propose at most; default two. */
  readonly most?: number;
}

/**
 * Short takes worth playing after a take, the most telling first; none when nothing was found or nothing would tell.
 * Of the likeliest causes of the first finding, each foretells how every probe would sound; a probe is worth as much as it parts these.
 */
export function proposeProbes(measurement: Measurement, options: ProbeOptions): Probe[] {
  const { content, further = [], played = [], most = 2, shapes = [] } = options;
  const takes = [caseTake(measurement, options), ...further.map((take) => caseTake(take.measurement, take))];
  const spaces = spacesMs(measurement, options.cycle);
  const heard = ({ indices }: Explanation) => audibleMs(Math.min(...indices.flatMap((index) => spaces[index] ?? [])));
  const [verdict] = weigh(takes, { audibleMs: heard, shapes });
  if (!verdict) return [];
  const rivals = rivalsOf(verdict);
  const fresh = stickingProbes(content, cellOf(verdict, takes[0]!)).filter(({ kind }) => !played.includes(kind));
  const probes = fresh
    .map((probe) => ({ ...probe, gain: gainOf(probe, rivals, { measurement, first: takes[0]!, options }) }))
    .filter(({ gain }) => gain >= LEAST_GAIN)
    .sort((a, b) => b.gain - a.gain);
  const manners = mannersFor(verdict).filter((kind) => !played.includes(kind));
  return [...probes, ...manners.map((kind) => ({ ...mannerProbe(kind, content), gain: 0 }))].slice(0, most);
}

interface Rival {
  readonly of: Case;
  readonly weight: number;
}

function rivalsOf({ told, ties, weight, rivals }: Verdict): Rival[] {
  const tied = [told, ...ties];
  return [...tied.map((of) => ({ of, weight: weight / tied.length })), ...rivals.map(({ rival, weight: share }) => ({ of: rival, weight: share }))];
}

/** The double that the finding is about, to be played alone. */
function cellOf({ told }: Verdict, { view }: CaseTake): { first: number; second: number } | null {
  const doubles = doublesOf(view.events, view.lengthBeats);
  return doubles.find(({ first, second }) => told.explanation.indices.some((index) => index === first || index === second)) ?? null;
}

interface Known {
  readonly measurement: Measurement;
  readonly first: CaseTake;
  readonly options: ProbeOptions;
}

/** Share of the pairs of rivals, by weight, that the probe would tell apart. */
function gainOf(probe: ProbeTake, rivals: readonly Rival[], { measurement, first, options }: Known): number {
  const cycle = expectedCycle(probe.content);
  const { events, lengthBeats } = eventsOf(cycle);
  const { barBeats = 4, fill = [] } = options;
  const view = { events, lengthBeats, barBeats, fill, clicked: probe.withClick, standsFor: (index: number) => probe.standsFor[index] ?? null };
  const byKey = new Map(explanationsOf(view).map((explanation) => [explanation.key, explanation]));
  const cycles = Math.max(1, PROBE_SEC / secOfBeats(lengthBeats, measurement.trackedBpm * probe.tempoShare));
  const worth = { time: worthOf(first, 'time', cycles), volume: worthOf(first, 'volume', cycles) };
  const foretold = rivals.map(({ of }) => ({ time: shiftsOf(of, 'time', byKey), volume: shiftsOf(of, 'volume', byKey) }));
  let [settled, all] = [0, 0];
  rivals.forEach((a, i) => {
    rivals.slice(0, i).forEach((b, j) => {
      const apart =
        distance(foretold[i]!.time, foretold[j]!.time, events.length) * worth.time +
        distance(foretold[i]!.volume, foretold[j]!.volume, events.length) * worth.volume;
      all += a.weight * b.weight;
      settled += a.weight * b.weight * (1 - Math.exp(-apart / 8));
    });
  });
  return all > 0 ? settled / all : 0;
}

/** What the mean of a place of the probe would be worth: 1 / variance. */
function worthOf({ observed }: CaseTake, measured: 'time' | 'volume', cycles: number): number {
  const { deviations } = observed[measured];
  const variance = deviations.reduce((sum, one) => sum + one * one, 0) / deviations.length;
  return 1 / (variance / cycles + NATURAL[measured === 'time' ? 'ms' : 'db'] ** 2);
}

/** How far a cause moves each event of the probe; null: not at all. */
function shiftsOf(of: Case, measured: 'time' | 'volume', byKey: ReadonlyMap<string, Explanation>): Float64Array | null {
  const size = of[measured]?.size ?? 0;
  const explanation = byKey.get(of.explanation.key);
  return explanation && size !== 0 ? explanation.weights.map((weight) => weight * size) : null;
}

/** Sum of squares of the difference about its mean, since a take's own constant tells nothing. */
function distance(a: Float64Array | null, b: Float64Array | null, count: number): number {
  const differences = Array.from({ length: count }, (_, i) => (a?.[i] ?? 0) - (b?.[i] ?? 0));
  const mean = differences.reduce((sum, one) => sum + one, 0) / count;
  return differences.reduce((sum, one) => sum + (one - mean) ** 2, 0);
}

/** Changes that tell the reason and not the stroke: common practice, no source. */
function mannersFor({ told }: Verdict): ('slow' | 'other-surface' | 'heel' | 'click-off' | 'first-last')[] {
  const { cause, key } = told.explanation;
  if (cause === 'rushing') return ['click-off'];
  if (cause === 'tiring') return ['first-last'];
  if (key.endsWith(':K') || key.endsWith(':H')) return ['slow', 'heel'];
  return cause === 'second-of-double' || cause === 'bounce' ? ['slow', 'other-surface'] : ['slow'];
}

/** Causes that stood beside the first finding before a probe and do no longer. */
export function ruledOut(before: Finding, after: Finding): CauseStatement[] {
  const named = (finding: Finding): CauseStatement[] => {
    const told: CauseStatement[] = finding.code === 'cause-fits' ? [{ code: 'cause-named', params: finding.params }] : [];
    return [...told, ...(finding.ties ?? []), ...(finding.rivals ?? [])];
  };
  const left = new Set(named(after).map(({ params }) => params.what));
  return named(before)
    .filter(({ params }) => !left.has(params.what))
    .map(({ params }) => ({ code: 'cause-named', params }));
}
