/** The state of a session, what can happen to it, and what it asks for. Plain data: it can be stored and taken up again. */
import type { Statement } from '../problem.ts';
import type { SessionBlock } from './block.ts';
import type { SessionClick } from './click.ts';
import type { BlockLayout } from './layout.ts';
import type { ExerciseSpan } from './round.ts';

/** ready: not begun. breather: before a count-in. playing: count-in and bars. listening: all played, the ear is not done. ended. */
export type SessionPhase = 'ready' | 'breather' | 'playing' | 'paused' | 'listening' | 'ended';

/** What the ear made of a block, said by those that know: session keeps it and moves the tempo. */
export interface Heard {
  readonly said: Statement;
  readonly clean: number;
  readonly runs: number;
  readonly nextTempoBpm: number;
  readonly why: Statement;
  /** Of a block in which the tempo moved: each tempo's own runs. */
  readonly stretches?: readonly TempoStretch[];
}

/** Rounds at one tempo after each other, and how many of their runs were clean. */
export interface TempoStretch {
  readonly tempoBpm: number;
  readonly clean: number;
  readonly runs: number;
  /** Else by the player's own word. */
  readonly byEar: boolean;
}

/** What was heard of one round, or said of it, while its block goes on. */
export interface Glance {
  readonly block: number;
  readonly round: number;
  readonly tempoBpm: number;
  readonly byEar: boolean;
  readonly heard: Heard;
}

/** What a player says of a round. */
export type OwnWord = 'hadIt' | 'again';

/** A round and what was said of it. */
export interface SaidRound {
  readonly block: number;
  readonly round: number;
  readonly says: OwnWord;
}

/** Rounds of a block by what was said of them. */
export type RoundsSaid = Readonly<Record<OwnWord, number>>;

/** What became of a block. */
export interface BlockOutcome {
  readonly block: number;
  readonly exerciseId: string;
  readonly tempoBpm: number;
  readonly minutesPlanned: number;
  /** Seconds from the first click of the block to its end, pauses not included. */
  readonly playedSec: number;
  readonly ended: 'full' | 'skipped' | 'stopped';
  /** By the player's own word. */
  readonly rounds: RoundsSaid;
  /** Null until the ear is done, or when there was nothing for it. */
  readonly heard: Heard | null;
  /** What was heard of its rounds one by one, as far as it was; none where nobody listened. */
  readonly glanced: readonly TempoStretch[];
}

/** One stretch of a block without a pause, in one take. */
export interface BlockRun {
  readonly take: string;
  readonly layout: BlockLayout;
  /** Where it was cut; its own end when it was not. */
  readonly untilFrame: number;
}

/** A take that was asked for: from a frame that may lie ahead to where it ends unless its end is moved. */
export interface AskedTake {
  readonly take: string;
  readonly block: number;
  readonly fromFrame: number;
  readonly toFrame: number;
}

/** A round that the player does not want counted. */
export interface UncountedRound {
  readonly block: number;
  readonly round: number;
}

/** A stretch of a take that the player wants to keep. */
export interface KeptPart {
  readonly block: number;
  readonly take: string;
  readonly fromFrame: number;
  readonly toFrame: number;
  /** At its first bar. */
  readonly tempoBpm: number;
}

export interface SessionState {
  readonly v: 1;
  readonly sampleRateHz: number;
  readonly blocks: readonly SessionBlock[];
  readonly phase: SessionPhase;
  /** Block that runs or comes next. */
  readonly block: number;
  /** Frame at which the session would have begun had there been no pause and no skip. */
  readonly originFrame: number;
  /** Null before the start and after the end. */
  readonly layout: BlockLayout | null;
  /** Stretches of the present block that are over. */
  readonly runs: readonly BlockRun[];
  /** The take of the block that runs, or of the one that waits. */
  readonly takeAsked: AskedTake | null;
  /** Name of the take that has begun and is not closed. */
  readonly takeOpen: string | null;
  readonly outcomes: readonly BlockOutcome[];
  readonly uncounted: readonly UncountedRound[];
  readonly kept: readonly KeptPart[];
  /** What was heard of the rounds of the blocks that were played, in order. */
  readonly glances: readonly Glance[];
  /** Rounds of the present block that the ear was asked about. */
  readonly roundsAsked: number;
  /** At most one word a round. */
  readonly said: readonly SaidRound[];
  /** Where the exercise was played in the last block that is over. */
  readonly previousSpans: readonly ExerciseSpan[];
  /** The last stretch of the last block that is over. */
  readonly previousRun: { readonly block: number; readonly run: BlockRun } | null;
  /** Blocks whose measurement is still awaited. */
  readonly awaited: readonly number[];
  /** While listening: the frame at which the session closes without the ear. */
  readonly listenUntilFrame: number;
  readonly pausedAtFrame: number | null;
  readonly lastFrame: number;
  /** The player ended it before its time. */
  readonly stopped: boolean;
  readonly hurt: boolean;
}

/** What happens. Every event carries the frame of the audio clock at which it did. */
export type SessionEvent =
  | { readonly kind: 'start'; readonly frame: number }
  | { readonly kind: 'tick'; readonly frame: number }
  | { readonly kind: 'pause'; readonly frame: number }
  | { readonly kind: 'resume'; readonly frame: number }
  | { readonly kind: 'skip'; readonly frame: number }
  | { readonly kind: 'stop'; readonly frame: number }
  | { readonly kind: 'hurts'; readonly frame: number }
  | { readonly kind: 'dontCount'; readonly frame: number }
  | { readonly kind: 'hadIt'; readonly frame: number }
  | { readonly kind: 'again'; readonly frame: number }
  /** Once more: the round while a block runs, the block before while one waits; a second time takes that back. */
  | { readonly kind: 'repeat'; readonly frame: number }
  | { readonly kind: 'slower' | 'faster'; readonly frame: number }
  | { readonly kind: 'tempo'; readonly frame: number; readonly tempoBpm: number }
  /** The block that waits begins now. */
  | { readonly kind: 'goOn'; readonly frame: number }
  /** The last eight bars are to be kept as an idea; a second time takes that back. */
  | { readonly kind: 'keep'; readonly frame: number }
  /** What came of one round while its block goes on. */
  | {
      readonly kind: 'glanced';
      readonly frame: number;
      readonly block: number;
      readonly round: number;
      readonly byEar: boolean;
      readonly heard: Heard;
    }
  | { readonly kind: 'measured'; readonly frame: number; readonly block: number; readonly heard: Heard | null };

/** What the session asks of the app. */
export type SessionEffect =
  | { readonly kind: 'show'; readonly block: number }
  | { readonly kind: 'clicks'; readonly clicks: readonly SessionClick[] }
  | { readonly kind: 'cancelClicks'; readonly fromFrame: number }
  /** Told while the block still waits: its take begins at a frame ahead, and ends at another unless that is moved or it is closed before. */
  | ({ readonly kind: 'openTake' } & AskedTake)
  | { readonly kind: 'moveTakeEnd'; readonly take: string; readonly toFrame: number }
  /** Its block does not begin as it was laid out: nothing of it is kept. */
  | { readonly kind: 'dropTake'; readonly take: string; readonly block: number }
  | { readonly kind: 'closeTake'; readonly take: string; readonly atFrame: number }
  | { readonly kind: 'measure'; readonly block: number; readonly spans: readonly ExerciseSpan[] }
  /** One round is over and its block goes on. */
  | { readonly kind: 'glance'; readonly span: ExerciseSpan }
  /** From a bar line on, another tempo. */
  | { readonly kind: 'tempo'; readonly block: number; readonly fromBpm: number; readonly tempoBpm: number; readonly atFrame: number }
  | { readonly kind: 'keep'; readonly part: KeptPart }
  | { readonly kind: 'letGo'; readonly part: KeptPart }
  | { readonly kind: 'writeBlock'; readonly outcome: BlockOutcome }
  | { readonly kind: 'writeSession'; readonly summary: SessionSummary };

/** What stays of a session. */
export interface SessionSummary {
  readonly playedSec: number;
  readonly hurt: boolean;
  readonly stoppedEarly: boolean;
  readonly outcomes: readonly BlockOutcome[];
}

/** A step of the machine. */
export interface SessionStep {
  readonly state: SessionState;
  readonly effects: readonly SessionEffect[];
}

/**
 * A session that has not begun.
 * @param blocks in the order of playing; an empty list ends as soon as it is started.
 * @param sampleRateHz of the audio clock that all frames belong to.
 */
export const newSession = (blocks: readonly SessionBlock[], sampleRateHz: number): SessionState => ({
  v: 1,
  sampleRateHz,
  blocks: blocks.map((block, place) => ({ ...block, place: block.place ?? place })),
  phase: 'ready',
  block: 0,
  originFrame: 0,
  layout: null,
  runs: [],
  takeAsked: null,
  takeOpen: null,
  outcomes: [],
  uncounted: [],
  kept: [],
  glances: [],
  roundsAsked: 0,
  said: [],
  previousSpans: [],
  previousRun: null,
  awaited: [],
  listenUntilFrame: 0,
  pausedAtFrame: null,
  lastFrame: 0,
  stopped: false,
  hurt: false,
});

/** Minutes of the whole session as planned. */
export const minutesOf = (blocks: readonly SessionBlock[]): number => blocks.reduce((sum, block) => sum + block.minutes, 0);
