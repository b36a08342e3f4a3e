/** Causes weighed against each other: the likeliest is told, its effect taken away, and what is left weighed again. */
import type { Case, Rate, Verdict } from './case.ts';
import { type CaseTake, columnOf, correlation, type Measured, numbersOf, ownColumn } from './columns.ts';
import { beside, type Column, type Effect, effectOf, grown, logRow, logSum } from './evidence.ts';
import type { Explanation, Response } from './explanation.ts';
import type { Shape } from './finding.ts';
import { leaderFirst } from './leader.ts';
import type { Counted } from './observed.ts';
import { APART_PRIOR, CLEAR_DB, FAULT_SIZE, LEAST_RIVAL, MISSES, MOST_FINDINGS, NONE_PRIOR, RATE_PRIOR, SAME_STROKES } from './parameters.ts';
import { serialInflation } from './serial.ts';
import { wantedIn } from './wanted.ts';

export interface WeighOptions {
  /** Displacement that is heard at every main stroke, ms. */
  readonly audibleMs: (explanation: Explanation) => number;
  /** What is wanted beside evenness. */
  readonly shapes: readonly Shape[];
}

/** What the takes show, likeliest first; none when nothing is likelier than chance. */
export function weigh(takes: readonly CaseTake[], options: WeighOptions): Verdict[] {
  const keys = [...new Set(takes.flatMap(({ explanations }) => [...explanations.keys()]))];
  let scene = opening(takes, options.shapes);
  const verdicts: Verdict[] = [];
  while (verdicts.length < MOST_FINDINGS) {
    const cases = keys.flatMap((key) => caseOf(takes, key, { scene, options }) ?? []);
    const verdict = verdictOf(takes, cases, {
      scene,
      none: verdicts.length === 0 ? NONE_PRIOR.first : NONE_PRIOR.further,
      causeCount: causesIn(takes),
    });
    if (!verdict) break;
    verdicts.push(verdict);
    scene = without(takes, scene, verdict.told);
  }
  return verdicts;
}

/** What one take says of one cause, nothing else told before; null when nothing of it is heard. */
export const caseIn = (take: CaseTake, key: string, options: WeighOptions): Case | null =>
  take.explanations.has(key) ? caseOf([take], key, { scene: opening([take], options.shapes), options }) : null;

/** What is told already, so that only the rest is explained. */
interface Scene {
  readonly basis: Readonly<Record<Measured, readonly Column[]>>;
  readonly left: Readonly<Record<Measured, Column>>;
  readonly inflation: Readonly<Record<Measured, number>>;
  /** Keys of the causes that explain each kind of count already. */
  readonly told: Readonly<Record<'missed' | 'bounced' | 'apart', readonly string[]>>;
}

function opening(takes: readonly CaseTake[], shapes: readonly Shape[]): Scene {
  let time: readonly Column[] = [];
  let volume: readonly Column[] = [];
  takes.forEach(({ observed }, number) => {
    time = grown(time, ownColumn(takes, 'time', { number, weights: new Float64Array(observed.events.length).fill(1) }));
    for (const weights of writtenAlike(observed.events)) volume = grown(volume, ownColumn(takes, 'volume', { number, weights }));
    for (const { measured, weights, sign } of wantedIn(observed, shapes)) {
      const column = ownColumn(takes, measured, { number, weights });
      if (measured === 'time') time = withWanted(takes, time, { measured, column, sign });
      else volume = withWanted(takes, volume, { measured, column, sign });
    }
  });
  return sceneOf(takes, { time, volume }, { missed: [], bounced: [], apart: [] });
}

/** The basis with what is wanted, as far as it goes the way that is wanted. */
function withWanted(
  takes: readonly CaseTake[],
  basis: readonly Column[],
  { measured, column, sign }: { measured: Measured; column: Column; sign: number },
): readonly Column[] {
  const effect = effectOf(beside(column, basis), beside(numbersOf(takes, measured), basis), { priorSize: 1 });
  return effect && effect.size * sign > 0 ? grown(basis, column) : basis;
}

function sceneOf(takes: readonly CaseTake[], basis: Scene['basis'], told: Scene['told']): Scene {
  const left = { time: beside(numbersOf(takes, 'time'), basis.time), volume: beside(numbersOf(takes, 'volume'), basis.volume) };
  const inflation = { time: inflationOf(takes, 'time'), volume: inflationOf(takes, 'volume') };
  return { basis, left, inflation, told };
}

/** Events of one drum that are written as loud as each other; volumes are compared within these only. */
function writtenAlike(events: CaseTake['observed']['events']): Float64Array[] {
  const keys = events.map(({ strokes }) =>
    strokes
      .map(({ surface, accent, ghost }) => `${surface}${accent ? '>' : ''}${ghost ? '()' : ''}`)
      .sort()
      .join('+'),
  );
  return [...new Set(keys)].map((key) => Float64Array.from(keys, (other) => (other === key ? 1 : 0)));
}

/** How much less the takes tell about a drift than the number of strokes says, since strokes resemble those before them. */
function inflationOf(takes: readonly CaseTake[], measured: Measured): number {
  return Math.max(1, ...takes.map(({ observed }) => serialInflation(observed[measured], observed.firstCycle, observed.cycleCount)));
}

interface Weighed {
  readonly scene: Scene;
  readonly options: WeighOptions;
}

const inAny = (takes: readonly CaseTake[], key: string): Explanation => takes.flatMap(({ explanations }) => explanations.get(key) ?? [])[0]!;

/** What speaks for a cause; null when nothing that is heard does. */
function caseOf(takes: readonly CaseTake[], key: string, { scene, options }: Weighed): Case | null {
  const explanation = inAny(takes, key);
  const may = (response: Response) => explanation.responses.includes(response);
  const drifts = explanation.cause === 'tiring' || explanation.cause === 'rushing';
  const effect = (measured: Measured, unit: number): Effect | null => {
    if (!may(measured)) return null;
    const column = beside(columnOf(takes, measured, key), scene.basis[measured]);
    const inflation = drifts ? scene.inflation[measured] : 1;
    const found = effectOf(column, scene.left[measured], { priorSize: FAULT_SIZE.units * unit, inflation });
    return found && isHeard(found, unit) ? found : null;
  };
  const time = effect('time', options.audibleMs(explanation));
  const anyVolume = effect('volume', CLEAR_DB);
  const volume = anyVolume && anyVolume.size > 0 && isOneOfTwo(takes[0]!, explanation) ? null : anyVolume;
  const rates = (['missed', 'bounced', 'apart'] as const).map((kind) => (may(kind) ? rateOf(takes, key, { kind, told: scene.told[kind] }) : null));
  const [missed, bounced, apart] = rates.map((rate) => rate?.rate ?? null);
  const logs = [time?.logOdds, volume?.logOdds, ...rates.map((rate) => rate?.logOdds)].filter((log) => log !== undefined);
  if (logs.length === 0) return null;
  return { explanation, time, volume, missed: missed!, bounced: bounced!, apart: apart!, logOdds: anyOf(logs, explanation.responses.length) };
}

/** Of two strokes written alike, the softer is told: nothing says which of them is as it should be. */
function isOneOfTwo({ observed }: CaseTake, { indices }: Explanation): boolean {
  const place = observed.events.findIndex(({ strokes }) => indices.length === 1 && strokes.some(({ index }) => index === indices[0]));
  return place >= 0 && writtenAlike(observed.events).some((column) => column[place] === 1 && column.reduce((sum, one) => sum + one, 0) === 2);
}

/** Zero is out of the question, and what is heard is not. */
const isHeard = ({ size, error }: Effect, unit: number): boolean =>
  Math.abs(size) >= unit / 2 && Math.abs(size) + 1.96 * error >= unit && Math.abs(size) > 1.96 * error;

/** The cause may move any of its responses, each selection as likely as another. */
function anyOf(logs: readonly number[], responseCount: number): number {
  const all = logs.reduce((sum, log) => sum + logSum([0, log]), 0);
  return (all > 1e-9 ? all + Math.log1p(-Math.exp(-all)) : Number.NEGATIVE_INFINITY) - Math.log(2 ** responseCount - 1);
}

function rateOf(
  takes: readonly CaseTake[],
  key: string,
  { kind, told }: { kind: 'missed' | 'bounced' | 'apart'; told: readonly string[] },
): { rate: Rate; logOdds: number } | null {
  const [inside, outside] = [
    { hits: 0, chances: 0 },
    { hits: 0, chances: 0 },
  ];
  for (const { observed, explanations } of takes) {
    const counted: Counted = observed[kind];
    const { weights } = explanations.get(key) ?? {};
    counted.hits.forEach((hits, place) => {
      if (told.some((other) => (explanations.get(other)?.weights[place] ?? 0) > 0)) return;
      const into = (weights?.[place] ?? 0) > 0 ? inside : outside;
      into.hits += hits;
      into.chances += counted.chances[place]!;
    });
  }
  const share = inside.hits / inside.chances;
  const least = kind === 'apart' ? APART_PRIOR.share : MISSES.share;
  if (inside.hits < MISSES.count || share < least || share <= outside.hits / Math.max(1, outside.chances)) return null;
  const { usual, fault } = kind === 'apart' ? APART_PRIOR : RATE_PRIOR;
  const others = ({ hits, chances }: Rate) => chances - hits;
  const apartFrom = logRow(inside.hits, others(inside), fault) + logRow(outside.hits, others(outside), usual);
  const alike = logRow(inside.hits + outside.hits, others(inside) + others(outside), usual);
  return { rate: inside, logOdds: apartFrom - alike };
}

const causesIn = (takes: readonly CaseTake[]): ReadonlyMap<string, number> => {
  const counts = new Map<string, number>();
  for (const key of new Set(takes.flatMap(({ explanations }) => [...explanations.keys()]))) {
    const { cause } = inAny(takes, key);
    counts.set(cause, (counts.get(cause) ?? 0) + 1);
  }
  return counts;
};

/** Each cause is as likely as another beforehand, and each of the limbs or places it may concern. */
function verdictOf(
  takes: readonly CaseTake[],
  cases: readonly Case[],
  { scene, none, causeCount }: { scene: Scene; none: number; causeCount: ReadonlyMap<string, number> },
): Verdict | null {
  const weightOf = ({ explanation, logOdds }: Case) => logOdds + Math.log((1 - none) / causeCount.size / causeCount.get(explanation.cause)!);
  const groups = tiesAmong(takes, cases, scene).map((members) => ({ members: leaderFirst(members), log: logSum(members.map(weightOf)) }));
  groups.sort((a, b) => b.log - a.log);
  const all = logSum([Math.log(none), ...groups.map(({ log }) => log)]);
  const [best, ...others] = groups;
  if (!best || Math.exp(Math.log(none) - all) > 0.5) return null;
  const [told, ...ties] = best.members;
  const rivals = others
    .map(({ members, log }) => ({ rival: members[0]!, weight: Math.exp(log - all) }))
    .filter(({ weight }) => weight >= LEAST_RIVAL);
  return { told: told!, ties, weight: Math.exp(best.log - all), rivals };
}

/** Causes whose columns agree in all that they explain. */
function tiesAmong(takes: readonly CaseTake[], cases: readonly Case[], scene: Scene): Case[][] {
  const groups: Case[][] = [];
  for (const one of cases) {
    const same = groups.find(([other]) => touchSame(takes, scene, one, other!));
    if (same) same.push(one);
    else groups.push([one]);
  }
  return groups;
}

function touchSame(takes: readonly CaseTake[], scene: Scene, a: Case, b: Case): boolean {
  const kinds = (one: Case) =>
    [one.time && 'time', one.volume && 'volume', one.missed && 'missed', one.bounced && 'bounced', one.apart && 'apart'].join();
  if (kinds(a) !== kinds(b)) return false;
  const alike = (measured: Measured) => {
    const [x, y] = [a, b].map(({ explanation }) => beside(columnOf(takes, measured, explanation.key), scene.basis[measured]));
    return Math.abs(correlation(x!, y!)) > SAME_STROKES;
  };
  if (a.time && !alike('time')) return false;
  if (a.volume && !alike('volume')) return false;
  const counts = a.missed || a.bounced || a.apart;
  return !counts || `${a.explanation.indices}` === `${b.explanation.indices}`;
}

/** The scene with what is told taken away. */
function without(takes: readonly CaseTake[], scene: Scene, { explanation, time, volume, missed, bounced, apart }: Case): Scene {
  const { key } = explanation;
  const basis = {
    time: time ? grown(scene.basis.time, columnOf(takes, 'time', key)) : scene.basis.time,
    volume: volume ? grown(scene.basis.volume, columnOf(takes, 'volume', key)) : scene.basis.volume,
  };
  const told = {
    missed: missed ? [...scene.told.missed, key] : scene.told.missed,
    bounced: bounced ? [...scene.told.bounced, key] : scene.told.bounced,
    apart: apart ? [...scene.told.apart, key] : scene.told.apart,
  };
  return sceneOf(takes, basis, told);
}
