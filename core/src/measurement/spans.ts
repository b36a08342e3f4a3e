/** Rounds of one take held against their exercise: each by itself, the figures from all of them. */
import type { ExpectedCycle } from '../exercise/index.ts';
import type { Reading } from '../problem.ts';
import { median } from '../quantiles.ts';
import { add, compare, multiply, type Rational, rational, subtract, toNumber, ZERO } from '../rational.ts';
import type { Candidate } from '../stroke/index.ts';
import { beatSec, secOfMs } from '../units.ts';
import { cyclesDoubt } from './doubts.ts';
import { eventsOf } from './events.ts';
import { type MeasureOptions, measure } from './measure.ts';
import type { ExtraStroke, MeasuredStroke, Measurement, MeasurementProblem } from './measurement.ts';
import { LATEST_OFFSET_SEC } from './parameters.ts';
import { pairsOf, placesOf } from './places.ts';

/** A part of a take in which the exercise was to be played, by the click's time. */
export interface TakeSpan {
  readonly fromSec: number;
  /** Outside. */
  readonly toSec: number;
  /** Whole beats from the start of a cycle to `fromSec`: above 0 only when a pause cut the round. */
  readonly fromBeat: number;
  /** Told tempo of this part, where the tempo moved between parts; else that of the take. */
  readonly tempoBpm?: number;
}

export interface SpanOptions extends Omit<MeasureOptions, 'durationSec'> {
  readonly spans: readonly TakeSpan[];
}

/**
 * Measures the spans of a take, what lies between them left out. Cycles are counted on through all spans, with one number left out between two.
 * @param candidates of the whole take, in any order.
 * @returns as `measure`: refused only when no span can be measured; a problem that several spans have is told once.
 */
export function measureSpans(candidates: readonly Candidate[], cycle: ExpectedCycle, options: SpanOptions): Reading<Measurement, MeasurementProblem> {
  const all = options.spans.map((span) => measureSpan(candidates, cycle, { ...options, tempoBpm: span.tempoBpm ?? options.tempoBpm, span }));
  const readings = whereMostFit(all);
  const measured = readings.flatMap(({ value }) => value ?? []);
  const problems = onceEach(readings.flatMap((reading) => reading.problems));
  if (measured.length === 0) return { value: null, problems: problems.length > 0 ? problems : [NOTHING] };
  const value = pooled(measured, cycle);
  // A round that was cut is short; what counts is all of them together.
  const doubts = problems.filter(({ code, severity }) => severity === 'doubtful' && code !== 'too-few-cycles');
  return { value, problems: [...doubts, ...cyclesDoubt(value)] };
}

type SpanReading = Reading<Measurement, MeasurementProblem>;

/** Where the sticking fits most of what was heard, a round in which something else was played is left out; where it does not, the doubt is about all. */
function whereMostFit(readings: readonly SpanReading[]): readonly SpanReading[] {
  const heard = readings.filter(({ value }) => value !== null);
  const fitting = heard.filter(({ problems }) => !problems.some(({ code }) => code.startsWith('sticking-')));
  return 2 * fitting.length > heard.length ? fitting : readings;
}

const NOTHING: MeasurementProblem = { code: 'nothing-to-match', severity: 'refused', params: { strokeCount: 0 } };

interface OneSpan extends Omit<MeasureOptions, 'durationSec'> {
  readonly span: TakeSpan;
}

/** With a click the span is first heard somewhat longer, for strokes come late by the latency; then cut where the strokes lie. */
function measureSpan(
  candidates: readonly Candidate[],
  cycle: ExpectedCycle,
  { span, ...options }: OneSpan,
): Reading<Measurement, MeasurementProblem> {
  const turned = turnCycle(cycle, span.fromBeat);
  const marginSec = (Math.min(...eventsOf(cycle).events.map(({ spaceBeats }) => spaceBeats)) * beatSec(options.tempoBpm)) / 2;
  const cut = (earlySec: number, lateSec: number) =>
    measureCut(candidates, turned, { ...options, fromSec: span.fromSec - earlySec, toSec: span.toSec + lateSec });
  const clicked = (options.clickTimesSec ?? []).length > 0;
  const first = cut(marginSec, clicked ? LATEST_OFFSET_SEC - marginSec : -marginSec);
  const offsetSec = secOfMs(first.value?.offsetMs ?? 0);
  const reading = clicked ? cut(marginSec - offsetSec, offsetSec - marginSec) : first;
  return reading.value ? { ...reading, value: turnedBack(reading.value, cycle, span.fromBeat) } : reading;
}

/** Measures what lies in a part of the take, and tells its times as times of the take. */
function measureCut(
  candidates: readonly Candidate[],
  cycle: ExpectedCycle,
  {
    fromSec,
    toSec,
    tempoBpm,
    clickTimesSec = [],
    loudness,
  }: Omit<MeasureOptions, 'durationSec'> & { readonly fromSec: number; readonly toSec: number },
): Reading<Measurement, MeasurementProblem> {
  const within = candidates.filter(({ timeSec }) => timeSec >= fromSec && timeSec < toSec).map((one) => ({ ...one, timeSec: one.timeSec - fromSec }));
  const near = beatSec(tempoBpm) / 2;
  const clicks = clickTimesSec.filter((sec) => sec >= fromSec - near && sec < toSec + near).map((sec) => sec - fromSec);
  const sound = loudness ? { loudness: { ...loudness, fromSec: loudness.fromSec - fromSec } } : {};
  const { value, problems } = measure(within, cycle, { tempoBpm, durationSec: toSec - fromSec, clickTimesSec: clicks, ...sound });
  return { value: value && later(value, fromSec), problems };
}

const later = (measurement: Measurement, sec: number): Measurement => ({
  ...measurement,
  grid: measurement.grid.map((beat) => ({ ...beat, sec: beat.sec + sec })),
  strokes: measurement.strokes.map((stroke) => ({
    ...stroke,
    expectedSec: stroke.expectedSec + sec,
    playedSec: stroke.playedSec === null ? null : stroke.playedSec + sec,
    graces: stroke.graces.map((grace) => ({ ...grace, playedSec: grace.playedSec + sec })),
  })),
  extra: measurement.extra.map((stroke) => ({ ...stroke, timeSec: stroke.timeSec + sec })),
});

/** The cycle begun `fromBeat` beats in; its strokes keep their index. */
function turnCycle(cycle: ExpectedCycle, fromBeat: number): ExpectedCycle {
  const from = withinCycle(cycle, fromBeat);
  const strokes = cycle.strokes.map((stroke) => {
    const beat = subtract(stroke.beat, from);
    return { ...stroke, beat: compare(beat, ZERO) < 0 ? add(beat, cycle.lengthBeats) : beat };
  });
  return { ...cycle, strokes };
}

function withinCycle({ lengthBeats }: ExpectedCycle, fromBeat: number): Rational {
  const whole = Math.floor(fromBeat / toNumber(lengthBeats));
  return subtract(rational(fromBeat), multiply(lengthBeats, rational(whole)));
}

/** Strokes that the turning put behind the others belong to the cycle after. */
function turnedBack(measurement: Measurement, cycle: ExpectedCycle, fromBeat: number): Measurement {
  const from = withinCycle(cycle, fromBeat);
  const behind = new Set(cycle.strokes.filter(({ beat }) => compare(beat, from) < 0).map(({ index }) => index));
  return {
    ...measurement,
    strokes: measurement.strokes.map((stroke) => (behind.has(stroke.index) ? { ...stroke, cycle: stroke.cycle + 1 } : stroke)),
  };
}

function pooled(measured: readonly Measurement[], cycle: ExpectedCycle): Measurement {
  const strokes: MeasuredStroke[] = [];
  for (const part of measured) {
    const after = strokes.reduce((last, stroke) => Math.max(last, stroke.cycle + 2), 0);
    strokes.push(...part.strokes.map((stroke) => ({ ...stroke, cycle: stroke.cycle + after })));
  }
  const extra: readonly ExtraStroke[] = measured.flatMap((part) => part.extra);
  const offsets = measured.flatMap(({ offsetMs }) => offsetMs ?? []);
  const events = eventsOf(cycle);
  return {
    tempoBpm: measured[0]!.tempoBpm,
    trackedBpm: median(measured.map(({ trackedBpm }) => trackedBpm)),
    offsetMs: offsets.length > 0 ? median(offsets) : null,
    grid: measured.flatMap(({ grid }) => grid),
    strokes,
    extra,
    places: placesOf(strokes, events),
    pairs: pairsOf(strokes, extra, events),
  };
}

function onceEach(problems: readonly MeasurementProblem[]): readonly MeasurementProblem[] {
  return problems.filter(({ code }, i) => problems.findIndex((problem) => problem.code === code) === i);
}
