/** A plan as data: sessions of blocks, and what it was asked for. */
import type { Weekday } from '../day.ts';
import type { Exercise, Family } from '../exercise/index.ts';
import type { ClickWay } from '../session/index.ts';
import type { PlanAim, PlanReason, PlanTempoReason } from './said.ts';

/** warmUp is never judged; reference is the phrase at a fixed tempo, once a week; use ends the day on the phrase. */
export type BlockPart = 'warmUp' | 'reference' | 'work' | 'use';

/**
 * oneTempo: the tempo stays whatever comes, to make it sound good. bursts: short rounds at the tempo wanted with as much rest, one cycle or a bar
 * each. twoUpOneBack: the turns of a day go up a step, up another, and one back.
 */
export type Way = 'oneTempo' | 'bursts' | 'twoUpOneBack';

/** One exercise for some minutes. */
export interface PlannedBlock {
  readonly exerciseId: string;
  readonly part: BlockPart;
  /** A whole number of quarter minutes, so that a session's blocks add up exactly. */
  readonly minutes: number;
  /** Where the block starts, whole beats per minute; the session moves it from there. */
  readonly tempoBpm: number;
  readonly aim: PlanAim;
  readonly reason: PlanReason;
  readonly tempoReason: PlanTempoReason;
  /** How the tempo goes, where results do not simply move it. */
  readonly way?: Way;
  /** By a teacher's word or the player's own: no faster than this, in the block's own beats. */
  readonly capBpm?: number;
  /** How it is clicked; every beat unless said. */
  readonly click?: ClickWay;
  /** Fewer clicks as it goes well: where the tempo would rise, the click is thinned first. */
  readonly fewerClicks?: boolean;
}

/** What is planned for a day. */
export interface PlannedSession {
  /** Civil day `YYYY-MM-DD`. */
  readonly date: string;
  /** Exactly the sum of the blocks' minutes. */
  readonly minutes: number;
  readonly blocks: readonly PlannedBlock[];
}

/** Whether a session tries a phrase again, weeks after it was closed or held everywhere. */
export const isCheck = ({ blocks }: PlannedSession): boolean => blocks.some(({ reason }) => reason.code === 'plan-reason-check');

/** A whole revision of a plan. It never changes; a refit gives another that names it. */
export interface Plan {
  /** Record id of the revision this one replaces; null for a first plan. */
  readonly replaces: string | null;
  /** Days of the week that are for practice, ascending. */
  readonly weekdays: readonly Weekday[];
  /** Days on which a session was missed; none is planned there any more. Ascending. */
  readonly away: readonly string[];
  /** By date, at most one a day. */
  readonly sessions: readonly PlannedSession[];
  /** Families that count for closing, use among them; missing: every family of the plan. */
  readonly closing?: readonly Family[];
}

/** What is known of an exercise from results. */
export interface KnownTempo {
  readonly exerciseId: string;
  /** Where work on it stands, in its own beats per minute. */
  readonly tempoBpm: number;
  /** Days on which there are results. */
  readonly days: number;
  /** Days with results since it last became faster; unless said 0. */
  readonly stuckDays?: number;
  /** It came apart all the way down lately, so it rests; unless said it does not. */
  readonly tooHard?: true;
}

/** Something of the player's own that is in every session: a warm-up in place of the planned one, or a piece before the end. */
export interface OwnBlock {
  readonly exercise: Exercise;
  readonly as: 'warmUp' | 'repertoire';
  readonly tempoBpm: number;
  /** Rounded to quarter minutes; a warm-up has the minutes of the planned one instead. */
  readonly minutes?: number;
}

/** A cap on an exercise, in its own beats, by a teacher's word or the player's own. */
export interface Cap {
  readonly exerciseId: string;
  readonly tempoBpm: number;
  /** Last civil day on which it holds; without it, until it is taken back. */
  readonly until?: string;
}

/** How the player wants to work on an exercise for some days. */
export interface ChosenWay {
  readonly exerciseId: string;
  readonly way: Way;
  /** Of `oneTempo`: the tempo stayed at, in the exercise's own beats; unless said, where it stands. */
  readonly tempoBpm?: number;
  /** Last civil day on which it holds; without it, until it is taken back. */
  readonly until?: string;
}

/** How an exercise is clicked, in its work and at the end of the day. */
export interface ChosenClick {
  readonly exerciseId: string;
  readonly click?: ClickWay;
  readonly fewerClicks?: boolean;
  /** Last civil day on which it holds; without it, until it is taken back. */
  readonly until?: string;
}

/** What a plan is asked for. */
export interface PlanRequest {
  /** The phrase as an exercise, and the tempo it is wanted at. */
  readonly phrase: Exercise;
  readonly goalBpm: number;
  /** The shelf, each family best first; the phrase itself may stand there too. */
  readonly exercises: readonly Exercise[];
  /** Default nothing. */
  readonly known?: readonly KnownTempo[];
  /** Whole weeks of seven days from `start`. */
  readonly weeks: number;
  /** How many days a week, spread evenly from `start`; or which days of the week. */
  readonly days: number | readonly Weekday[];
  /** Rounded to quarter minutes. */
  readonly minutes: number;
  /** First civil day. */
  readonly start: string;
  /** The player's own blocks; default none. */
  readonly own?: readonly OwnBlock[];
  /** What is capped; default nothing. */
  readonly caps?: readonly Cap[];
  /** Exercises that are worked on in another way; default none. */
  readonly ways?: readonly ChosenWay[];
  /** Exercises that are clicked in another way than on every beat; default none. */
  readonly clicks?: readonly ChosenClick[];
  /** Families that count for closing; use always does. Default every family of the plan. */
  readonly closing?: readonly Family[];
  /** Default player. */
  readonly who?: 'player' | 'pupil';
}
