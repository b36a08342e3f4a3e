/** From what stands out to the few statements worth telling, strongest first. */
import type { ExpectedCycle } from '../exercise/index.ts';
import type { Measurement, MeasurementProblem } from '../measurement/index.ts';
import type { Limb } from '../sticking/index.ts';
import { audibleMs } from './audible.ts';
import type { Finding, FindingStatement, FindingWeight } from './finding.ts';
import { type PairView, type PlaceView, spacesMs, viewPairs, viewPlaces } from './observations.ts';
import { DOUBT, FEWEST_CYCLES, WISHED_CYCLES } from './parameters.ts';

/** A finding before the others are known: how far it goes beyond what is heard. */
type Draft = FindingStatement & Omit<FindingWeight, 'weight'> & { readonly excess: number };

/** What is known beside the measurement. */
export interface FindingOptions {
  /** What was asked for: drums and written dynamics decide what is compared with what. */
  readonly cycle: ExpectedCycle;
  /** What `measure` told beside its value: when it doubts the sticking, no single stroke is judged. */
  readonly problems?: readonly MeasurementProblem[];
}

const STICKING_DOUBTS: readonly MeasurementProblem['code'][] = ['sticking-does-not-fit', 'sticking-drums-elsewhere', 'sticking-repeats-otherwise'];

/**
 * What a measurement shows, strongest first. Strokes told in one finding are not told again in another.
 * @param measurement of a take.
 * @returns at least one finding; when nothing stands out, the take says too little, or the sticking does not fit it, one of cause `none`.
 */
export function findingsOf(measurement: Measurement, { cycle, problems = [] }: FindingOptions): Finding[] {
  if (problems.some(({ code }) => STICKING_DOUBTS.includes(code))) return [STICKING_IN_DOUBT];
  const cycleCount = new Set(measurement.strokes.map((stroke) => stroke.cycle)).size;
  if (cycleCount < FEWEST_CYCLES) return [tooLittle(cycleCount)];
  const drafts = distinct([...pairDrafts(measurement, cycle), ...placeDrafts(measurement, cycle)]);
  if (drafts.length > 0) return weighed(drafts);
  if (tooWide(measurement, cycle)) return [tooLittle(cycleCount)];
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

/** Half the places cannot be told to within what is heard: their intervals reach further than that to both sides. */
function tooWide(measurement: Measurement, cycle: ExpectedCycle): boolean {
  const spaces = spacesMs(measurement, cycle);
  const wide = measurement.places.filter(({ index, biasLowMs, biasHighMs, unsure }) => {
    return unsure || biasLowMs === null || biasHighMs === null || biasHighMs - biasLowMs > 4 * audibleMs(spaces[index]!);
  });
  return wide.length > measurement.places.length / 2;
}

function pairDrafts(measurement: Measurement, cycle: ExpectedCycle): Draft[] {
  const places = viewPlaces(measurement, cycle);
  return viewPairs(measurement, cycle)
    .filter(({ excess }) => excess > 0)
    .map((view) => {
      const [a, b] = [view.pair.first, view.pair.second].map((index) => places.find(({ place }) => place.index === index)!);
      return pairDraft(view, { a: a!, b: b!, only: countOf(view.pair.limb, cycle) === 2 });
    });
}

/** A pair is told with the misses of its strokes, so that they are one finding. */
function pairDraft({ pair, gap, step, bouncing, count, excess }: PairView, { a, b, only }: { a: PlaceView; b: PlaceView; only: boolean }): Draft {
  const moved = Math.abs(a.place.biasMs ?? 0) > Math.abs(b.place.biasMs ?? 0) ? 'first' : 'second';
  return {
    code: 'pair-uneven',
    cause: 'pair',
    indices: [pair.first, pair.second],
    excess: excess + (a.missing || b.missing ? 0.5 : 0),
    params: {
      first: pair.first,
      second: pair.second,
      limb: pair.limb,
      only,
      gap,
      moved,
      step,
      firstMissed: a.missing ? a.place.missed : 0,
      secondMissed: b.missing ? b.place.missed : 0,
      bounces: bouncing ? pair.extraBounces : 0,
      gapMs: pair.gapMs ?? 0,
      gapShare: pair.gapShare ?? 1,
      gapLow: pair.gapLow ?? 1,
      gapHigh: pair.gapHigh ?? 1,
      levelStepDb: pair.levelStepDb ?? 0,
      count,
    },
  };
}

function placeDrafts(measurement: Measurement, cycle: ExpectedCycle): Draft[] {
  return viewPlaces(measurement, cycle)
    .filter(({ excess }) => excess > 0)
    .map(({ place, time, volume, missing, levelStepDb, excess }) => ({
      code: 'place-off',
      cause: 'place',
      indices: [place.index],
      excess,
      params: {
        index: place.index,
        limb: place.limb,
        only: countOf(place.limb, cycle) === 1,
        time,
        volume,
        missed: missing ? place.missed : 0,
        biasMs: place.biasMs ?? 0,
        biasLowMs: place.biasLowMs ?? 0,
        biasHighMs: place.biasHighMs ?? 0,
        levelStepDb,
        count: place.count,
      },
    }));
}

const countOf = (limb: Limb, cycle: ExpectedCycle): number => cycle.strokes.filter((stroke) => stroke.limb === limb).length;

/** Strongest first, pairs before places, each stroke told once: a pair that shares one stroke with a stronger pair is left out too. */
function distinct(drafts: readonly Draft[]): Draft[] {
  const told = new Set<number>();
  const kept: Draft[] = [];
  const rank = (draft: Draft) => (draft.cause === 'pair' ? 1000 : 0) + draft.excess;
  for (const draft of [...drafts].sort((a, b) => rank(b) - rank(a))) {
    if (draft.indices.some((index) => told.has(index))) continue;
    for (const index of draft.indices) told.add(index);
    kept.push(draft);
  }
  return kept.sort((a, b) => b.excess - a.excess);
}

function weighed(drafts: readonly Draft[]): Finding[] {
  const all = drafts.reduce((sum, { excess }) => sum + excess, DOUBT);
  return drafts.map(({ excess, ...finding }) => ({ ...finding, weight: excess / all }));
}
