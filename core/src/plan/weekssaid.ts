/** What the page of the weeks says, as codes, and the line for a parent. */
import type { Family } from '../exercise/index.ts';
import type { Statement } from '../problem.ts';
import type { AloneStatement, AwayWritten, ChangeStatement, CourseStatement, ReadyStatement, StepStatement } from '../progress/index.ts';
import type { Forecast, TooLittle } from '../tempo/index.ts';

type Nothing = Record<string, never>;
interface Range {
  readonly [name: string]: string | number;
  readonly day: string;
  readonly perBeat: number;
  readonly bpm: number;
  readonly lowBpm: number;
  readonly highBpm: number;
}

/** What a parent may listen for; `''` where nothing was told. */
export type ListenFor = 'two-equal' | 'all-there' | 'volume' | 'time' | 'even' | 'as-meant' | '';

/** Parts and columns of the page. */
export type WeeksPart = 'aimed' | 'done' | 'heard' | 'setup' | 'decision' | 'parent';
export type LifeColumn = 'plan' | 'days' | 'planned' | 'minutes' | 'wanted' | 'tempo';
export type WeeksColumn = 'week' | 'days' | 'planned' | 'sessions' | 'minutes' | 'byHand';

/** For a parent: days practised in a week, of so many that were planned, and minutes of a usual day. */
export type ParentLine = Statement<
  'weeks-parent',
  {
    readonly days: number;
    readonly plannedDays: number;
    readonly minutes: number;
    readonly listen: ListenFor;
    readonly limb: string;
    readonly hurt: boolean;
  }
>;

export type WeeksStatement =
  | ParentLine
  | Statement<'weeks-title', { readonly from: string; readonly to: string }>
  | Statement<'weeks-heading', { readonly of: WeeksPart }>
  | Statement<'weeks-column', { readonly of: WeeksColumn }>
  | Statement<'weeks-day', { readonly day: string }>
  | Statement<'weeks-none-planned', Nothing>
  /** The whole way of a phrase over all its plans; `goals` are the tempi that were wanted, one after the other. */
  | Statement<'life-title', { readonly from: string; readonly to: string }>
  | Statement<'life-plans', { readonly plans: number; readonly goals: readonly number[] }>
  | Statement<'life-before-plans', { readonly from: string; readonly sessions: number; readonly days: number; readonly minutes: number }>
  | Statement<'life-more-plans', { readonly plans: number }>
  | Statement<'life-span', { readonly from: string; readonly to: string }>
  | Statement<'life-column', { readonly of: LifeColumn }>
  | Statement<'life-known', { readonly perBeat: number; readonly bpm: number; readonly lowBpm: number; readonly highBpm: number }>
  | Statement<'weeks-aim', { readonly sticking: string; readonly goalBpm: number; readonly perBeat: number }>
  | Statement<
      'weeks-planned',
      {
        readonly sessions: number;
        readonly daysAWeek: number;
        readonly minutes: number;
        readonly from: string;
        readonly to: string;
        /** Only what was planned until the phrase was closed. */
        readonly closed: boolean;
      }
    >
  | Statement<'weeks-done', { readonly sessions: number; readonly days: number; readonly minutes: number; readonly byHand: number }>
  | Statement<'weeks-skipped', { readonly days: readonly string[] }>
  | Statement<'weeks-stopped', { readonly days: readonly string[] }>
  | Statement<'weeks-hurt', { readonly days: readonly string[] }>
  /** Played of the phrase before the weeks of this plan. */
  | Statement<'weeks-earlier', { readonly from: string; readonly sessions: number; readonly days: number; readonly minutes: number }>
  /** Weeks before the first row of the table, which holds so many at most. */
  | Statement<'weeks-before', { readonly weeks: number }>
  /** The clean tempo as it was first known in these weeks, and as it is known at their end. */
  | Statement<'weeks-tempo-then', Range>
  | Statement<'weeks-tempo-now', Range>
  | Statement<'weeks-takes', { readonly thenDay: string; readonly nowDay: string; readonly tempoBpm: number; readonly perBeat: number }>
  | Statement<'weeks-no-takes', Nothing>
  | Statement<'weeks-nothing-heard', Nothing>
  /** `names` are fields of a set-up, `values` what was said of each. */
  | Statement<'weeks-setup', { readonly day: string; readonly names: readonly string[]; readonly values: readonly string[] }>
  | Statement<'weeks-setup-same', Nothing>
  | Statement<'weeks-closed', { readonly day: string }>
  | Statement<'weeks-paused', { readonly day: string }>
  | Statement<'weeks-ready', Nothing>
  | Statement<'weeks-goes-on', { readonly to: string; readonly over: boolean }>
  | Statement<'weeks-check', { readonly day: string }>
  | Statement<'weeks-families', { readonly families: readonly Family[]; readonly clean: 'not-tried' | 'not-yet' | 'once' }>
  /** What could be tried: families of the plan that were not, and the phrase in bursts where the plan has none. */
  | Statement<'weeks-else', { readonly families: readonly Family[]; readonly bursts: boolean }>
  /** Days on which a closed phrase was to be tried again, and was not. */
  | Statement<'weeks-check-missed', { readonly days: readonly string[] }>
  | Statement<'weeks-why', { readonly of: 'there' | 'missing' | 'closed-without' }>;

/** Everything that stands on the page. */
export type OnWeeksPage =
  | WeeksStatement
  | AloneStatement
  | AwayWritten
  | ChangeStatement
  | CourseStatement
  | StepStatement
  | ReadyStatement
  | TooLittle
  | Forecast;
