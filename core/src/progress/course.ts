/** How the clean tempo of an exercise went: held, rising, or with a jump; named only when the results carry it. */
import { daysBetween } from '../day.ts';
import { bic, type CourseFits, courseAt, type Fitted, type FormedDays, fitCourses, smoothLikelihood } from './coursemodels.ts';
import { isTelling, riseRange, stepRange, together, weeklyRange } from './courseranges.ts';
import { columnsFor, dayLogs, type Form } from './daylogs.ts';
import { COURSE_DAYS, COURSE_FORMS, COURSE_SURE, FEWEST_COURSE_DAYS, HALF_90_FALL, HELD, LEAST_STEP, SMOOTH } from './parameters.ts';
import type { CourseHeld, CourseJump, CourseMoved, CourseRests, CourseStatement } from './saidcourse.ts';
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
}

/**
 * The course of one exercise over its latest days with results.
 *
 * Three kinds of course are held against each other by Schwarz's measure, each at its likeliest: the same all along; a smooth rise or fall, straight
 * or flattening; and either with one step. Runs at each tempo of a day count as clean or not about that day's form. A step or a rise is named when it
 * is clearly the better; a tempo is called held when the whole 90 % range of its change a week is small.
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
  if (days.length < FEWEST_COURSE_DAYS) return { said: [], days, stepEvidence: null, riseEvidence: null };
  const counted = own.filter(({ day }) => day >= days[0]!);
  const formed = formedDays(counted, days);
  const fits = fitCourses(formed);
  const measure = (fitted: Fitted) => bic(fitted, days.length);
  const stepEvidence = fits.step && Math.min(measure(fits.flat), measure(fits.smooth)) - measure(fits.step);
  const riseEvidence = measure(fits.flat) - measure(fits.smooth);
  const found = { fits, formed, days, perBeat, own, id: own[0]!.exerciseId };
  const jump = stepEvidence !== null && stepEvidence >= COURSE_SURE.step ? jumpOf(found) : null;
  const moved = jump ?? (riseEvidence >= COURSE_SURE.rise ? movedOf(found) : null);
  // Nothing is called held across a step that is likelier than none, though it is not sure enough to be named.
  const likelyStep = stepEvidence !== null && stepEvidence > 0 ? fits.step!.course.at : 0;
  const held = heldOf(found, days[likelyStep]!);
  return { said: [...(moved ? [moved] : []), ...(held ? [held] : [])], days, stepEvidence, riseEvidence };
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
function heldOf({ days, formed, perBeat }: Found, earliest: string): CourseHeld | null {
  const to = days.at(-1)!;
  const telling = formed.logs.map(isTelling);
  const starts = days.flatMap((day, k) => {
    const long = daysBetween(day, to) >= HELD.days - 1 && telling.slice(k).filter(Boolean).length >= HELD.resultDays;
    return long && telling[k] && day >= earliest ? [k] : [];
  });
  for (const start of starts) {
    const weeks = days.slice(start).map((day) => daysBetween(days[start]!, day) / 7);
    const held = weeklyRange({ ...formed, logs: formed.logs.slice(start) }, weeks);
    if (held === null || held.low < -HELD.perWeek || held.high > HELD.perWeek || held.better) continue;
    const { bpm, lowBpm, highBpm } = held;
    const span = { from: days[start]!, to, weeks: Math.floor((daysBetween(days[start]!, to) + 1) / 7), days: days.length - start, perBeat };
    return {
      code: 'course-held',
      params: { ...span, bpm, lowBpm, highBpm, lowWeek: bpm * Math.expm1(held.low), highWeek: bpm * Math.expm1(held.high) },
    };
  }
  return null;
}

/** What a statement of a course rests on. */
export function restsOn(said: CourseStatement): CourseRests {
  if (said.code === 'course-held') return { code: 'course-held-rests', params: said.params };
  if (said.code === 'course-jump') return { code: 'course-jump-rests', params: said.params };
  return { code: 'course-moved-rests', params: said.params };
}
