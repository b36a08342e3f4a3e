/** What is said of the course of a clean tempo, as codes; tempi in beats per minute of the exercise's own beats, ranges of 90 %. */
import type { Statement } from '../problem.ts';

/** A tempo that was held; `weeks` whole weeks of the calendar, `days` days with results, the range of its level and of its change a week. */
export type CourseHeld = Statement<
  'course-held',
  {
    readonly from: string;
    readonly to: string;
    readonly weeks: number;
    readonly days: number;
    readonly perBeat: number;
    readonly bpm: number;
    readonly lowBpm: number;
    readonly highBpm: number;
    readonly lowWeek: number;
    readonly highWeek: number;
  }
>;

/** A tempo that stood for a while and moves since: the figures of its standing, what it did before (`''` nothing that is told), whether it may have lost some meanwhile, and where it came to by `until`. */
export type CourseStood = Statement<
  'course-stood',
  CourseHeld['params'] & { readonly until: string; readonly afterBpm: number; readonly earlier: 'rose' | 'fell' | ''; readonly lost: boolean }
>;

/** A jump: the likeliest first day after it with the range of days, the tempo as known before it and at last, and the range of its size; below 0 is lower. */
export type CourseJump = Statement<
  'course-jump',
  {
    readonly day: string;
    readonly fromDay: string;
    readonly toDay: string;
    readonly days: number;
    readonly perBeat: number;
    readonly beforeBpm: number;
    readonly afterBpm: number;
    readonly lowBpm: number;
    readonly highBpm: number;
  }
>;

/** A rise or a fall from the first of so many days with results to the last, with the range of its size. */
export type CourseMoved = Statement<
  'course-rose' | 'course-fell',
  {
    readonly from: string;
    readonly to: string;
    readonly days: number;
    readonly perBeat: number;
    readonly fromBpm: number;
    readonly toBpm: number;
    readonly lowBpm: number;
    readonly highBpm: number;
  }
>;

export type CourseStatement = CourseHeld | CourseStood | CourseJump | CourseMoved;

/** What a statement rests on, told when it is asked for. */
export type CourseRests =
  | Statement<'course-held-rests', CourseHeld['params']>
  | Statement<'course-stood-rests', CourseStood['params']>
  | Statement<'course-jump-rests', CourseJump['params']>
  | Statement<'course-moved-rests', CourseMoved['params']>;

/** What else was different when a jump came; no cause is claimed. */
export type CourseBeside =
  | Statement<'course-beside-setup', { readonly day: string; readonly names: readonly string[]; readonly values: readonly string[] }>
  | Statement<'course-beside-away', { readonly days: number }>;
