/** Two reference takes of the same phrase held against each other: what changed, and whether that is more than chance. */
import { type Measurement, mean, type Place, standardDeviation } from '../measurement/index.ts';
import { FEWEST_STROKES, FIGURES_PER_PLACE, HALF_95, HEARD_MS, SAME_TEMPO_SHARE, SPREAD_ERROR } from './parameters.ts';
import type { AloneStatement, Between, ChangeStatement } from './said.ts';

/** A reference take with what it was made with. */
export interface ReferenceTake {
  readonly day: string;
  readonly measurement: Measurement;
  /** Drum of each main stroke, by index: volume is compared within one drum only. */
  readonly drums: readonly string[];
  /** Sticks, drum, pedal and so on, by name, as the player said it. */
  readonly setup: Readonly<Record<string, string>>;
}

/** A figure with its 95 % interval. */
export interface Figure {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** The same figure then and now. Null: too few strokes. */
export interface Compared {
  readonly before: Figure | null;
  readonly after: Figure | null;
  /** After minus before; of a spread, after over before. Its 95 % interval is for this figure alone. */
  readonly change: Figure | null;
  /** Whether it is more than chance, with all figures that are compared in mind: if nothing changed, 95 of 100 comparisons have nothing sure. */
  readonly sure: boolean;
}

/** A place of the sticking then and now: when (ms, negative is early), how steadily (ms), how loud against the others on its drum (dB). */
export interface PlaceCompared {
  readonly index: number;
  readonly limb: string;
  readonly biasMs: Compared;
  readonly spreadMs: Compared;
  readonly volumeDb: Compared;
}

export interface ThenAndNow {
  readonly places: readonly PlaceCompared[];
  /** What changed for sure; else that nothing did, or that there is too little. What makes the takes hard to compare comes first. */
  readonly said: readonly ChangeStatement[];
  /** Of the strokes whose time did not change for sure: which are as before, and of which it cannot be said. */
  readonly rest: readonly (ChangeStatement | AloneStatement)[];
}

/**
 * Holds two takes of the same sticking against each other, place by place. Places that only one of them has are left out.
 * @param between what parts them: it only decides the words.
 */
export function thenAndNow(then: ReferenceTake, now: ReferenceTake, between: Between = 'days'): ThenAndNow {
  const pairs = then.measurement.places.flatMap((before) => {
    const after = now.measurement.places.find(({ index }) => index === before.index);
    return after ? [{ before, after }] : [];
  });
  const widening = upperNormal(0.025 / Math.max(1, FIGURES_PER_PLACE * pairs.length)) / HALF_95;
  const places = pairs.map(({ before, after }) => comparePlace([then, before], [now, after], widening));
  const changes = places.flatMap((place) => changesOf(place, between));
  return { places, said: [...caveats(then, now, between), ...(changes.length > 0 ? changes : [nothingSure(places)])], rest: restOf(places) };
}

type TakePlace = readonly [ReferenceTake, Place];

function comparePlace(then: TakePlace, now: TakePlace, widening: number): PlaceCompared {
  return {
    index: then[1].index,
    limb: then[1].limb,
    biasMs: difference(biasOf(then[1]), biasOf(now[1]), widening),
    spreadMs: ratio(spreadOf(then[1]), spreadOf(now[1]), widening),
    volumeDb: difference(volumeOf(...then), volumeOf(...now), widening),
  };
}

const biasOf = ({ biasMs, biasLowMs, biasHighMs, unsure }: Place): Figure | null =>
  unsure || biasMs === null || biasLowMs === null || biasHighMs === null ? null : { value: biasMs, low: biasLowMs, high: biasHighMs };

function spreadOf({ spreadMs, count, unsure }: Place): Figure | null {
  if (unsure || spreadMs === null || spreadMs <= 0 || count < FEWEST_STROKES) return null;
  const factor = Math.exp((HALF_95 * SPREAD_ERROR) / Math.sqrt(count));
  return { value: spreadMs, low: spreadMs / factor, high: spreadMs * factor };
}

/** Mean volume of a place against the mean of all strokes on its drum; null when its drum has no other place. */
function volumeOf({ measurement, drums }: ReferenceTake, { index }: Place): Figure | null {
  const others = drums.flatMap((drum, place) => (drum === drums[index] ? [place] : []));
  const levelsAt = (places: readonly number[]) =>
    measurement.strokes.flatMap((stroke) => (places.includes(stroke.index) && stroke.levelDb !== null ? [stroke.levelDb] : []));
  const own = levelsAt([index]);
  if (others.length < 2 || own.length < FEWEST_STROKES) return null;
  const value = mean(own) - mean(levelsAt(others));
  const half = (HALF_95 * standardDeviation(own)) / Math.sqrt(own.length);
  return { value, low: value - half, high: value + half };
}

/** After minus before, the interval from the two intervals. @source [ZouDonner2008] */
function difference(before: Figure | null, after: Figure | null, widening: number): Compared {
  if (!before || !after) return { before, after, change: null, sure: false };
  const value = after.value - before.value;
  const below = Math.hypot(after.value - after.low, before.high - before.value);
  const above = Math.hypot(after.high - after.value, before.value - before.low);
  const sure = value - widening * below > 0 || value + widening * above < 0;
  return { before, after, change: { value, low: value - below, high: value + above }, sure };
}

/** After over before: the difference of logarithms. */
function ratio(before: Figure | null, after: Figure | null, widening: number): Compared {
  const logOf = (figure: Figure | null) => figure && { value: Math.log(figure.value), low: Math.log(figure.low), high: Math.log(figure.high) };
  const { change, sure } = difference(logOf(before), logOf(after), widening);
  return { before, after, sure, change: change && { value: Math.exp(change.value), low: Math.exp(change.low), high: Math.exp(change.high) } };
}

/** Standard normal value that the share `above` (at most a half) lies above, within .0005. @source [AbramowitzStegun1964] 26.2.23 */
function upperNormal(above: number): number {
  const t = Math.sqrt(-2 * Math.log(above));
  return t - (2.515517 + 0.802853 * t + 0.010328 * t * t) / (1 + 1.432788 * t + 0.189269 * t * t + 0.001308 * t ** 3);
}

/** A change is none when its whole interval lies within what an ear can tell. */
function restOf(places: readonly PlaceCompared[]): ChangeStatement[] {
  const unsure = places.filter(({ biasMs }) => !biasMs.sure);
  const within = ({ biasMs: { change } }: PlaceCompared) => change !== null && Math.abs(change.low) <= HEARD_MS && Math.abs(change.high) <= HEARD_MS;
  const indicesOf = (of: readonly PlaceCompared[]) => of.map(({ index }) => index);
  const [same, unknown] = [indicesOf(unsure.filter(within)), indicesOf(unsure.filter((place) => !within(place)))];
  return [
    ...(same.length > 0 ? [{ code: 'progress-as-before', params: { indices: same } } as const] : []),
    ...(unknown.length > 0 ? [{ code: 'progress-cannot-say', params: { indices: unknown } } as const] : []),
  ];
}

function changesOf({ index, limb, biasMs, spreadMs, volumeDb }: PlaceCompared, between: Between): readonly ChangeStatement[] {
  const changes: ChangeStatement[] = [];
  const both = ({ before, after }: Compared) => ({ index, limb, between, thenMs: before!.value, nowMs: after!.value });
  if (biasMs.sure) {
    const nearer = Math.abs(biasMs.after!.value) < Math.abs(biasMs.before!.value);
    changes.push({ code: nearer ? 'progress-nearer-in-time' : 'progress-further-in-time', params: both(biasMs) });
  }
  if (spreadMs.sure) changes.push({ code: spreadMs.change!.value < 1 ? 'progress-steadier' : 'progress-less-steady', params: both(spreadMs) });
  if (volumeDb.sure) {
    const byDb = volumeDb.change!.value;
    changes.push({ code: byDb > 0 ? 'progress-louder' : 'progress-softer', params: { index, limb, between, byDb: Math.abs(byDb) } });
  }
  return changes;
}

function nothingSure(places: readonly PlaceCompared[]): ChangeStatement {
  const told = places.some(({ biasMs, spreadMs, volumeDb }) => biasMs.change || spreadMs.change || volumeDb.change);
  return { code: told ? 'progress-nothing-sure' : 'progress-too-few-strokes', params: {} };
}

/** What makes two takes hard to compare. Pad against kit is another set-up whatever was written down. */
function caveats(then: ReferenceTake, now: ReferenceTake, between: Between): readonly ChangeStatement[] {
  const differ = [...Object.keys(then.setup), ...Object.keys(now.setup)].filter((name) => then.setup[name] !== now.setup[name]);
  const names = [...new Set([...(between === 'drums' ? ['drums'] : []), ...differ])].sort();
  const [thenBpm, nowBpm] = [then.measurement.tempoBpm, now.measurement.tempoBpm];
  return [
    ...(names.length > 0 ? [{ code: 'progress-setup-differs', params: { names } } as const] : []),
    ...(Math.abs(nowBpm / thenBpm - 1) > SAME_TEMPO_SHARE ? [{ code: 'progress-tempo-differs', params: { thenBpm, nowBpm } } as const] : []),
  ];
}
