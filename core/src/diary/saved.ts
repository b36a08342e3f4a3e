/** Shapes as they are written to the diary: kept apart from the inner types, which may change freely. */
import type { Statement } from '../problem.ts';

/** A problem as it was known when the record was made. */
export interface SavedProblem extends Statement {
  readonly severity: 'refused' | 'doubtful';
  readonly at?: number;
}

/** A stroke as the ear gave it. `levelDb` compares within one drum and one take only. */
export interface SavedStroke {
  readonly timeSec: number;
  readonly levelDb: number;
  readonly confidence: number;
  readonly drum: string;
}

/** An exercise, stored itself so that it reads the same in ten years. */
export interface SavedExercise {
  readonly id: string;
  readonly family: string;
  readonly sticking: string;
  readonly surfaces: readonly string[];
  readonly perBeat: number;
  readonly meter: { readonly beats: number; readonly unit: number };
  readonly bars: number;
  readonly title: Statement;
  readonly reason: Statement;
}

/** A block of a planned session. */
export interface SavedPlannedBlock {
  readonly exerciseId: string;
  readonly part: string;
  readonly minutes: number;
  readonly tempoBpm: number;
  readonly aim: Statement;
  readonly reason: Statement;
  readonly tempoReason: Statement;
}

/** No faster than this, until a day or until it is taken back. */
export interface SavedCap {
  readonly exerciseId: string;
  readonly tempoBpm: number;
  /** Last day on which it holds, `YYYY-MM-DD`. */
  readonly until?: string;
}

/** Another way of work than a tempo that follows results. */
export interface SavedWay {
  readonly exerciseId: string;
  readonly way: string;
  readonly tempoBpm?: number;
  readonly until?: string;
}

/** How an exercise is clicked; `click` as docs/formats/plan.md says, read by `readPlan` and its like. */
export interface SavedClick {
  readonly exerciseId: string;
  readonly click?: object;
  readonly fewerClicks?: boolean;
  readonly until?: string;
}

/** Something of the player's own in every session. */
export interface SavedOwnBlock {
  readonly exercise: SavedExercise;
  readonly as: string;
  readonly tempoBpm: number;
  readonly minutes?: number;
}

/** One tempo that was tried. */
export interface SavedTempoRuns {
  readonly tempoBpm: number;
  readonly clean: number;
  readonly runs: number;
  /** False when it is the player's word. */
  readonly byEar: boolean;
}

/** What is planned for a day. */
export interface SavedPlannedSession {
  /** `YYYY-MM-DD` */
  readonly date: string;
  readonly minutes: number;
  readonly blocks: readonly SavedPlannedBlock[];
}

/** One place of the sticking: negative is early; `Low` and `High` bound 95 % intervals. */
export interface SavedPlace {
  readonly index: number;
  readonly limb: string;
  readonly count: number;
  /** Resting on strokes of low confidence, for want of others. */
  readonly unsure: boolean;
  readonly biasMs: number | null;
  readonly biasLowMs: number | null;
  readonly biasHighMs: number | null;
  readonly spreadMs: number | null;
  readonly levelDb: number | null;
  readonly missed: number;
  readonly notAudible: number;
}

/** Two neighbouring strokes of one limb. `gapShare` 1 is even, below 1 too close. */
export interface SavedPair {
  readonly first: number;
  readonly second: number;
  readonly limb: string;
  readonly gapMs: number | null;
  readonly gapShare: number | null;
  readonly gapLow: number | null;
  readonly gapHigh: number | null;
  readonly levelStepDb: number | null;
  readonly extraBounces: number;
  readonly unsure: boolean;
}

/** A measured statement about strokes. */
export interface SavedFinding extends Statement {
  readonly cause: string;
  readonly indices: readonly number[];
  readonly weight: number;
}

/** What was heard in a block, as figures kept for ever. */
export interface SavedHeard {
  readonly trackedBpm: number;
  readonly offsetMs: number | null;
  readonly places: readonly SavedPlace[];
  readonly pairs: readonly SavedPair[];
  /** Clean runs of all runs that could be judged. */
  readonly cleanRunCount: number;
  readonly runCount: number;
  readonly findings: readonly SavedFinding[];
  readonly problems: readonly SavedProblem[];
}
