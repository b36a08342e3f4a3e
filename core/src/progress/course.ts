/** How the clean tempo of an exercise went: held, rising, standing for a while, or with a jump; named only when the results carry it. */
import { daysBetween } from '../day.ts';
import { bic, type CourseFits, courseAt, type Fitted, type FormedDays, fitCourses, smoothLikelihood } from './coursemodels.ts';
import { isTelling, riseRange, stepRange, together, weeklyRange } from './courseranges.ts';
import { columnsFor, dayLogs, type Form } from './daylogs.ts';
import {
  COURSE_DAYS,
  COURSE_FORMS,
  COURSE_GRID,
  COURSE_SURE,
  FEWEST_COURSE_DAYS,
  HALF_90_FALL,
  HELD,
  LEAST_STEP,
  SMOOTH,
  STOOD,
} from './parameters.ts';
import type { CourseHeld, CourseJump, CourseMoved, CourseRests, CourseStatement, CourseStood } from './saidcourse.ts';
import { fitStood, type Stood, stoodAt } from './stoodmodels.ts';
import { type ExerciseResult, firstAndLastKnown, knownBefore } from './tempocurve.ts';
import { rememberedBy } from './workedout.ts';

/** What the days with results tell of a course. */
export interface TempoCourse {
  /** What the data carry; empty when they carry nothing. */
  readonly said: readonly CourseStatement[];
  /** Days with results that were looked at. */
  readonly days: readonly string[];
  /** By how much Schwarz's measure of the best course with a step lies under that of the best without; null with too few days. */
  readonly stepEvidence: number | null;
  /** The same of a smooth movement against none. */
  readonly riseEvidence: number | null;
  /** The same of a course that stands for a while against those that never do; null also where nothing moves. */
  readonly stoodEvidence: number | null;
}

/**
 * The course of one exercise over its latest days with results.
 *
 * Four kinds of course are held against each other by Schwarz's measure, each at its likeliest: the same all along; a smooth rise or fall, straight
 * or flattening; either with one step; and straight lines that join, one of them level. Runs at each tempo of a day count as clean or not about that
 * day's form. A step, a rise, or that a course stood for a while is named when it is clearly the better; a tempo is called held, or to have stood,
 * when the whole 90 % range of its change a week is small.
 * @source [Schwarz1978] the measure; [Schuirmann1987] the way in which "no change" is shown.
 */
export function tempoCourse(results: readonly ExerciseResult[], { id, perBeat }: { readonly id: string; readonly perBeat: number }): TempoCourse {
  const own = results.filter((result) => result.exerciseId === id && result.runs > 0);
  return known(own, String(perBeat), () => courseOf(own, perBeat));
}

/** A course takes a tenth of a second. */
const known = rememberedBy<TempoCourse>();

function courseOf(own: readonly ExerciseResult[], perBeat: number): TempoCourse {
  const days = [...new Set(own.map(({ day }) => day))].sort().slice(-COURSE_DAYS);
  if (days.length < FEWEST_COURSE_DAYS) return { said: [], days, stepEvidence: null, riseEvidence: null, stoodEvidence: null };
  const counted = own.filter(({ day }) => day >= days[0]!);
  const formed = formedDays(counted, days);
  const fits = fitCourses(formed);
  const { stood, ...evidence } = weighed(fits, formed);
  const found = { fits, formed, days, perBeat, own, id: own[0]!.exerciseId };
  const jump = (evidence.stepEvidence ?? 0) >= COURSE_SURE.step ? jumpOf(found) : null;
  const still = !jump && stood && evidence.stoodEvidence! >= COURSE_SURE.stood ? stoodOf(found, stood) : null;
  const moved = jump ?? still ?? (evidence.riseEvidence >= COURSE_SURE.rise ? movedOf(found) : null);
  // Nothing is called held across a step that is likelier than none, though it is not sure enough to be named; nor across the end of standing still.
  const likelyStep = (evidence.stepEvidence ?? 0) > 0 ? fits.step!.course.at : 0;
  const held = heldOf(found, days[Math.max(likelyStep, still ? stood!.to + 1 : 0)]!);
  return { said: [...(moved ? [moved] : []), ...(held ? [held] : [])], days, ...evidence };
}

/** Each kind of course against the best of the others. Where neither a step nor a rise is likelier than none, nothing moves, and no line is looked for. */
function weighed({ flat, smooth, step }: CourseFits, formed: FormedDays) {
  const measure = (fitted: Pick<Fitted, 'logLikelihood' | 'parameters'> | null) =>
    fitted ? bic(fitted, formed.logs.length) : Number.POSITIVE_INFINITY;
  const calm = Math.min(measure(flat), measure(smooth));
  const stood = Math.min(measure(smooth), measure(step)) < measure(flat) ? fitStood(formed) : null;
  return {
    stood,
    riseEvidence: measure(flat) - measure(smooth),
    stepEvidence: step && Math.min(calm, measure(stood)) - measure(step),
    // That it stood is as true before one step as before a line: only courses that never stand speak against it.
    stoodEvidence: stood && calm - measure(stood),
  };
}

interface Found {
  readonly fits: CourseFits;
  readonly formed: FormedDays;
  readonly days: readonly string[];
  readonly perBeat: number;
  /** All results of the exercise, and its id. */
  readonly own: readonly ExerciseResult[];
  readonly id: string;
}

/** The days under the form that fits a smooth course best: a form found with steps in mind would take steps for granted. */
function formedDays(results: readonly ExerciseResult[], days: readonly string[]): FormedDays {
  const columns = columnsFor(results);
  const formedBy = (form: Form): FormedDays => ({ form, first: columns.first, logs: dayLogs(results, days, { form, columns }) });
  const bestOf = (forms: readonly Form[]) => {
    const all = forms.map(formedBy);
    const logs = all.map(smoothLikelihood);
    return all[logs.indexOf(Math.max(...logs))]!;
  };
  const { slope } = bestOf(COURSE_FORMS.slopes.map((each) => ({ ...COURSE_FORMS.first, slope: each }))).form;
  return bestOf(COURSE_FORMS.nightSds.map((nightSd) => ({ slope, nightSd })));
}

const bpmOf = (log: number): number => Math.exp(log);

function jumpOf({ fits, days, formed, perBeat, own, id }: Found): CourseJump | null {
  const step = fits.step!;
  const { course } = step;
  const sides = [formed.logs.slice(0, course.at), formed.logs.slice(course.at)];
  // Where everything was clean before, or nothing is since, the size of the step has no end.
  if (Math.abs(course.step) < LEAST_STEP || !sides.every((side) => isTelling(together(side)))) return null;
  const range = stepRange(formed, course.at);
  if (range.low <= 0 && range.high >= 0) return null;
  const near = fits.stepAt.flatMap((log, at) => (log >= step.logLikelihood - HALF_90_FALL ? [at] : []));
  const before = bpmOf(courseAt(course, course.at - 1, days.length));
  const [fromDay, toDay] = [days[Math.min(course.at, ...near)]!, days[Math.max(course.at, ...near)]!];
  const bpm = endsOf({ own, id, day: days[course.at]! }, { beforeBpm: before, afterBpm: bpmOf(courseAt(course, course.at, days.length)) });
  return {
    code: 'course-jump',
    params: {
      day: days[course.at]!,
      fromDay,
      toDay,
      ...bpm,
      lowBpm: before * Math.expm1(range.low),
      highBpm: before * Math.expm1(range.high),
      days: days.length,
      perBeat,
    },
  };
}

interface Ends {
  readonly beforeBpm: number;
  readonly afterBpm: number;
}

/** The clean tempo as it was known before a jump and at last, as plots and tables have it; as fitted where it was not known, or went the other way. */
function endsOf({ own, id, day }: { readonly own: Found['own']; readonly id: string; readonly day: string }, fitted: Ends): Ends {
  const [before, [, last]] = [knownBefore(own, id, day), firstAndLastKnown(own, id)];
  if (!before || !last || last.day < day) return fitted;
  const sameWay = last.median > before.median === fitted.afterBpm > fitted.beforeBpm;
  return sameWay ? { beforeBpm: before.median, afterBpm: last.median } : fitted;
}

function movedOf({ fits: { smooth }, formed, days, perBeat }: Found): CourseMoved | null {
  const { course } = smooth;
  if (Math.abs(course.rise) < LEAST_STEP) return null;
  const range = riseRange(formed);
  if (range.low <= SMOOTH.least || range.high >= SMOOTH.most) return null;
  const fromBpm = bpmOf(course.level);
  const sizes = { lowBpm: fromBpm * Math.expm1(range.low), highBpm: fromBpm * Math.expm1(range.high) };
  const span = { from: days[0]!, to: days.at(-1)!, days: days.length, perBeat };
  return { code: course.rise > 0 ? 'course-rose' : 'course-fell', params: { ...span, fromBpm, toBpm: bpmOf(course.level + course.rise), ...sizes } };
}

/** The longest stretch up to the last day, begun at `earliest` or later, in which the tempo was held. */
function heldOf(found: Found, earliest: string): CourseHeld | null {
  const last = found.days.length - 1;
  for (const [start, day] of found.days.entries()) {
    const still = day >= earliest && stillBetween(found, { start, end: last });
    if (still) return { code: 'course-held', params: still };
  }
  return null;
}

/**
 * That the tempo stayed from one day to another, both by number and included; null where the days do not show it: where its change may have been
 * large, or some change tells the days better than none.
 * @param options `rises` later: then what lost a little before stood still too, for it got no further.
 */
function stillBetween(
  { days, formed, perBeat }: Found,
  { start, end, rises = false }: { readonly start: number; readonly end: number; readonly rises?: boolean },
): CourseHeld['params'] | null {
  const [from, to] = [days[start]!, days[end]!];
  const logs = formed.logs.slice(start, end + 1);
  if (daysBetween(from, to) < HELD.days - 1 || !isTelling(logs[0]!) || logs.filter(isTelling).length < HELD.resultDays) return null;
  const weeks = days.slice(start, end + 1).map((day) => daysBetween(from, day) / 7);
  const held = weeklyRange({ ...formed, logs }, weeks);
  const most = rises ? STOOD : { lostPerWeek: HELD.perWeek, gainedPerWeek: HELD.perWeek };
  if (held === null || held.low < -most.lostPerWeek || held.high > most.gainedPerWeek) return null;
  if (held.better && !(rises && held.low + held.high < 0)) return null;
  const { bpm, lowBpm, highBpm } = held;
  const span = { from, to, weeks: Math.floor((daysBetween(from, to) + 1) / 7), days: end + 1 - start, perBeat };
  return { ...span, bpm, lowBpm, highBpm, lowWeek: bpm * Math.expm1(held.low), highWeek: bpm * Math.expm1(held.high) };
}

/** That a course stood for a while, and moved from then on: when and how closely is read under the form that its days have about it. */
function stoodOf(found: Found, likely: Stood): CourseStood | null {
  const { days, own, id } = found;
  const formed = formedAbout(found, likely);
  const stood = fitStood(formed)!;
  const { from, to, before, after, level } = stood;
  const start = formed.logs.findIndex((logs, k) => k >= from && isTelling(logs));
  const still = start < 0 ? null : stillBetween({ ...found, formed }, { start, end: to, rises: after > 0 });
  if (!still) return null;
  const fitted = bpmOf(level + after * (days.length - 1 - to));
  const [, last] = firstAndLastKnown(own, id);
  // As plots and tables have it, where it was known and went the same way.
  const afterBpm = last && last.median > still.bpm === after > 0 ? last.median : fitted;
  const earlier = before === 0 ? '' : before > 0 ? 'rose' : 'fell';
  const lost = still.lowWeek < still.bpm * Math.expm1(-HELD.perWeek);
  return { code: 'course-stood', params: { ...still, until: days.at(-1)!, afterBpm, earlier, lost } };
}

/** The days under the form that fits a course best that was found under another: a form found without standing takes its end for bad and good days. */
function formedAbout({ days, own }: Found, stood: Stood): FormedDays {
  const results = own.filter(({ day }) => day >= days[0]!);
  const columns = columnsFor(results);
  const forms = COURSE_FORMS.slopes.flatMap((slope) => COURSE_FORMS.nightSds.map((nightSd) => ({ slope, nightSd })));
  const all = forms.map((form): FormedDays => ({ form, first: columns.first, logs: dayLogs(results, days, { form, columns }) }));
  const along = all.map(({ first, logs }) => logs.reduce((sum, row, day) => sum + row[columnOf(stoodAt(stood, day), first, row.length)]!, 0));
  return all[along.indexOf(Math.max(...along))]!;
}

const columnOf = (level: number, first: number, count: number): number =>
  Math.max(0, Math.min(count - 1, Math.round((level - first) / COURSE_GRID.step)));

/** What a statement of a course rests on. */
export function restsOn(said: CourseStatement): CourseRests {
  if (said.code === 'course-held') return { code: 'course-held-rests', params: said.params };
  if (said.code === 'course-stood') return { code: 'course-stood-rests', params: said.params };
  if (said.code === 'course-jump') return { code: 'course-jump-rests', params: said.params };
  return { code: 'course-moved-rests', params: said.params };
}
