/** What a plan says, as codes: what each block aims at, why it is there, why it starts at that tempo, what changed, what is wrong. */
import type { Family } from '../exercise/index.ts';
import type { Problem, Statement } from '../problem.ts';

interface AtTempo {
  readonly [name: string]: number;
  readonly tempoBpm: number;
  readonly perBeat: number;
}
type Nothing = Record<string, never>;
interface OfFamily {
  readonly [name: string]: string;
  readonly family: Family;
}

/** What a block aims at. */
export type PlanAim =
  | Statement<'plan-aim-warm-up', AtTempo>
  | Statement<'plan-aim-learn', AtTempo>
  | Statement<'plan-aim-clean', AtTempo & { readonly goalBpm: number }>
  | Statement<'plan-aim-reference', AtTempo>
  | Statement<'plan-aim-phrase', AtTempo>
  | Statement<'plan-aim-easy', AtTempo>
  | Statement<'plan-aim-sound', AtTempo>
  | Statement<'plan-aim-bursts', AtTempo>
  | Statement<'plan-aim-own', AtTempo>;

/** Why a block is there. */
export type PlanReason =
  | Statement<'plan-reason-warm-up', Nothing>
  | Statement<'plan-reason-new', OfFamily>
  | Statement<'plan-reason-learning', OfFamily>
  | Statement<'plan-reason-again', OfFamily>
  /** `sessionsAgo` counts back to the session it was last in. */
  | Statement<'plan-reason-returns', { readonly family: string; readonly sessionsAgo: number }>
  | Statement<'plan-reason-phrase', Nothing>
  | Statement<'plan-reason-ends', Nothing>
  | Statement<'plan-reason-ends-in-music', Nothing>
  | Statement<'plan-reason-reference', { readonly week: number }>
  | Statement<'plan-reason-instead', Nothing>
  /** `days` with results without getting faster. */
  | Statement<'plan-reason-stuck', { readonly days: number }>
  /** Asked for, not because it is stuck. */
  | Statement<'plan-reason-bursts', Nothing>
  /** Of a phrase that is closed, or that holds everywhere. */
  | Statement<'plan-reason-check', Nothing>
  | Statement<'plan-reason-own-warm-up', Nothing>
  | Statement<'plan-reason-repertoire', Nothing>;

/** Why a block starts at its tempo. `fromBpm` is the phrase's tempo at the same speed of strokes. */
export type PlanTempoReason =
  | Statement<'plan-tempo-known', Nothing>
  | Statement<'plan-tempo-wanted', Nothing>
  | Statement<'plan-tempo-first', Nothing>
  | Statement<'plan-tempo-shares-sticking', { readonly fromBpm: number }>
  | Statement<'plan-tempo-shares-rhythm', { readonly fromBpm: number }>
  | Statement<'plan-tempo-shares-nothing', { readonly fromBpm: number }>
  | Statement<'plan-tempo-carried', { readonly fromBpm: number; readonly percent: number; readonly pairCount: number }>
  | Statement<'plan-tempo-warm-up', Nothing>
  | Statement<'plan-tempo-fixed', Nothing>
  | Statement<'plan-tempo-below-planned', { readonly fromBpm: number }>
  | Statement<'plan-tempo-tired', Nothing>
  | Statement<'plan-tempo-slow-day', Nothing>
  | Statement<'plan-tempo-back', { readonly days: number }>
  | Statement<'plan-tempo-hurt', Nothing>
  | Statement<'plan-tempo-bursts', Nothing>
  | Statement<'plan-tempo-up-and-back', Nothing>
  | Statement<'plan-tempo-stays', Nothing>
  | Statement<'plan-tempo-capped', { readonly capBpm: number }>
  | Statement<'plan-tempo-own', Nothing>;

/** What a refit changed. */
export type PlanChange =
  | Statement<'plan-unchanged', Nothing>
  /** `count` sessions were not played, the first planned for `from`, the last for `until`; the first of them is on `to` now. */
  | Statement<'plan-session-moved', { readonly from: string; readonly to: string; readonly count: number; readonly until: string }>
  | Statement<'plan-check-moved', { readonly from: string; readonly to: string }>
  | Statement<'plan-ends-later', { readonly from: string; readonly to: string }>
  /** Checks weeks later, of a phrase that is closed or that holds everywhere; by day. */
  | Statement<'plan-checks', { readonly days: readonly string[] }>
  | Statement<'plan-opened-again', { readonly sessionCount: number }>
  /** So many exercises are too hard now, and rest. */
  | Statement<'plan-too-hard', { readonly count: number }>
  | Statement<'plan-made-again', { readonly sessionCount: number }>
  | Statement<'plan-minutes-changed', { readonly fromMinutes: number; readonly toMinutes: number }>
  | Statement<'plan-reference-left-out', Nothing>
  | Statement<'plan-exercise-instead', { readonly blockCount: number }>
  | Statement<'plan-slower', { readonly tempoPercent: number }>
  | Statement<'plan-feet-heard', Nothing>
  | Statement<'plan-feet-not-heard', Nothing>
  | Statement<'plan-feet-asked', Nothing>
  | Statement<'plan-nothing-left', Nothing>
  | Statement<'plan-hurts', Nothing>
  | Statement<'plan-quiet', Nothing>
  | Statement<'plan-no-microphone', Nothing>
  /** Slow after a session that was stopped because something hurt. */
  | Statement<'plan-back-hurt', { readonly tempoPercent: number }>
  | Statement<'plan-back', { readonly days: number }>
  | Statement<'plan-one-more', Nothing>;

/** What can be wrong with what a plan was asked for. */
export type PlanProblem =
  | Problem<'plan-minutes-range', { readonly minutes: number; readonly least: number; readonly most: number }>
  | Problem<'plan-own-too-long', { readonly minutes: number; readonly own: number; readonly least: number }>
  | Problem<'plan-weeks-range', { readonly weeks: number; readonly most: number }>
  | Problem<'plan-days-range', { readonly days: number }>
  | Problem<'plan-start-not-a-day', { readonly start: string }>
  | Problem<'plan-tempo-range', { readonly tempoBpm: number; readonly least: number }>
  | Problem<'plan-not-a-plan', Nothing>
  /** `session` counts from 1. */
  | Problem<'plan-session-unreadable', { readonly session: number }>
  | Problem<'plan-day-twice', { readonly date: string }>
  /** The plan is given, with the phrase alone. */
  | Problem<'plan-no-exercises', Nothing>;

/** What the player chose. */
export type PlanChoice = Statement<'plan-closing', { readonly families: readonly Family[] }>;

export type PlanStatement = PlanAim | PlanReason | PlanTempoReason | PlanChange | PlanChoice;
