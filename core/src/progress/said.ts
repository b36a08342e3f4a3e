/** What progress says, as codes. */
import type { Family } from '../exercise/index.ts';
import type { VolumeWord } from '../finding/index.ts';
import type { Statement } from '../problem.ts';

/** What two takes are held against each other for: days apart, on a pad and on the kit, the first seconds of one take and its last. */
export type Between = 'days' | 'drums' | 'seconds';

interface AtStroke {
  readonly [name: string]: string | number;
  /** From 0; sentences count from 1. */
  readonly index: number;
  readonly limb: string;
  readonly between: Between;
}
type Nothing = Record<string, never>;

/** What is different between then and now beyond the intervals. */
export type ChangeStatement =
  | Statement<'progress-nearer-in-time', AtStroke & { readonly thenMs: number; readonly nowMs: number }>
  | Statement<'progress-further-in-time', AtStroke & { readonly thenMs: number; readonly nowMs: number }>
  | Statement<'progress-steadier', AtStroke & { readonly thenMs: number; readonly nowMs: number }>
  | Statement<'progress-less-steady', AtStroke & { readonly thenMs: number; readonly nowMs: number }>
  | Statement<'progress-louder', AtStroke & { readonly byDb: number }>
  | Statement<'progress-softer', AtStroke & { readonly byDb: number }>
  /** Strokes that come when they came, as far as an ear can tell; and those of which nothing can be said. */
  | Statement<'progress-as-before', { readonly indices: readonly number[] }>
  | Statement<'progress-cannot-say', { readonly indices: readonly number[] }>
  | Statement<'progress-nothing-sure', Nothing>
  | Statement<'progress-too-few-strokes', Nothing>
  | Statement<'progress-setup-differs', { readonly names: readonly string[] }>
  | Statement<'progress-tempo-differs', { readonly thenBpm: number; readonly nowBpm: number }>;

/** The second stroke of a double against its first, then and now: mean volumes, with no claim about chance. */
export type StepStatement = Statement<
  'progress-step',
  { readonly first: number; readonly second: number; readonly limb: string; readonly was: VolumeWord; readonly is: VolumeWord }
>;

/** What is there and what is missing before a sticking point can be closed. */
export type ReadyStatement =
  | Statement<'progress-phrase-holds', { readonly goalBpm: number; readonly days: number; readonly daysHeard: number }>
  | Statement<'progress-phrase-once', { readonly goalBpm: number; readonly day: string }>
  | Statement<'progress-phrase-not-yet', { readonly goalBpm: number }>
  | Statement<'progress-phrase-not-tried', Nothing>
  | Statement<'progress-family-holds', { readonly family: Family; readonly days: number; readonly daysHeard: number }>
  | Statement<'progress-family-once', { readonly family: Family; readonly day: string }>
  | Statement<'progress-family-not-yet', { readonly family: Family }>
  /** Nothing of it was played. */
  | Statement<'progress-family-not-tried', { readonly family: Family }>
  | Statement<'progress-use-not-chosen', Nothing>
  | Statement<'progress-check-held', { readonly day: string }>
  | Statement<'progress-check-due', { readonly from: string }>
  | Statement<'progress-check-later', Nothing>
  | Statement<'progress-came-back', { readonly day: string; readonly days: number }>;

/** Days away, said only when they are more than the player allows. */
export type AwayStatement = Statement<'progress-welcome-back', { readonly days: number }>;

/** What the player wrote around days away; `hurt`: the session before was ended because something hurt; `idle`: no phrase was worked on. */
interface LinesAround {
  readonly [name: string]: string | number | boolean | readonly string[];
  readonly before: readonly string[];
  readonly meanwhile: readonly string[];
  readonly back: readonly string[];
  readonly hurt: boolean;
  readonly idle: boolean;
}

/** Days away with those lines, and the lines alone: nothing where nothing was written. */
export type AwayWritten = Statement<'progress-away-written', LinesAround & { readonly from: string; readonly to: string; readonly days: number }>;
export type AwayLines = Statement<'progress-away-lines', LinesAround>;

/** The diary's line of one take names a fault and that of the other none, while nothing between them changed for sure. */
export type AloneStatement = Statement<'progress-lines-differ', { readonly thenDay: string; readonly nowDay: string; readonly faultThen: boolean }>;

export type ProgressStatement = ChangeStatement | StepStatement | ReadyStatement | AwayStatement | AwayWritten | AwayLines | AloneStatement;
