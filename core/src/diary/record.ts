/** The envelope around everything a diary holds, and the bodies of the kinds this version writes. */
import type { Statement } from '../problem.ts';
import type {
  SavedCap,
  SavedClick,
  SavedExercise,
  SavedHeard,
  SavedOwnBlock,
  SavedPlannedSession,
  SavedProblem,
  SavedStroke,
  SavedTempoRuns,
  SavedWay,
} from './saved.ts';

/** When and where a record was made: a hybrid logical clock (clock.ts), compared by `compareMade`. */
export interface Made {
  /** Milliseconds since 1970 by the device's clock, never smaller than in an earlier record of that device. */
  readonly wallMs: number;
  /** Counts records made within one millisecond, or while the device's clock stood back. From 0. */
  readonly counter: number;
  readonly deviceId: string;
}

/** One immutable line of the diary. Unknown kinds, versions and fields are kept and passed on as they came. */
export interface DiaryRecord<Kind extends string = string, Body = unknown> {
  /** Version of the body of this kind. */
  readonly v: number;
  /** 128 random bits as 32 lower-case hexadecimal digits (`recordId`). */
  readonly id: string;
  readonly kind: Kind;
  /** Whose diary this is. */
  readonly ownerId: string;
  readonly made: Made;
  /** When it happened, milliseconds since 1970. */
  readonly atMs: number;
  /** IANA zone in which it happened, such as `Europe/Berlin`. */
  readonly zone: string;
  /** Practice day `YYYY-MM-DD`, fixed at writing (day.ts). */
  readonly day: string;
  readonly body: Body;
}

/** What a maker says of a record; the store adds `id`, `ownerId` and `made`. */
export type RecordDraft = {
  readonly [Kind in KnownKind]: Omit<KnownRecord<Kind>, 'v' | 'id' | 'ownerId' | 'made'> & { readonly id?: string };
}[KnownKind];

/** A practice session. Written when it starts; `endedAtMs` and `ended` come by `edit` when it ends, so a killed browser leaves an open one. */
export interface SessionBody {
  /** The sticking point worked on, or null. */
  readonly stickingPointId: string | null;
  readonly plannedMinutes: number;
  readonly endedAtMs: number | null;
  /** done: to its end; stopped: by the player; hurt: something hurt; null: still open, or cut off. */
  readonly ended: 'done' | 'stopped' | 'hurt' | null;
  readonly reason: Statement | null;
}

/** What became of one block: the exercise stored itself, the tempo, what was heard, and the tempo to try next. */
export interface BlockBody {
  readonly sessionId: string;
  /** Place in the session, from 0. */
  readonly position: number;
  readonly exercise: SavedExercise;
  readonly tempoBpm: number;
  readonly durationSec: number;
  readonly takeIds: readonly string[];
  /** null without a microphone or when nothing could be measured. */
  readonly heard: SavedHeard | null;
  /** The player's own word, or null when not asked or not given. */
  readonly playerSays: 'hadIt' | 'again' | null;
  /** Rounds of which the player said so, one word each; missing where nobody asked round by round. */
  readonly playerRounds?: { readonly hadIt: number; readonly again: number };
  readonly nextTempo: { readonly tempoBpm: number; readonly reason: Statement } | null;
  /** Each tempo in its turn, where it moved within the block or the block was cut off; `tempoBpm` is then the first, and what was `heard` is of all. */
  readonly stretches?: readonly SavedTempoRuns[];
  /** The tempi that were tried to find where it is clean, in order; missing where nothing was searched. `tempoBpm` is then what was found. */
  readonly search?: readonly SavedTempoRuns[];
  readonly reason: Statement | null;
  /** True while the block is not played to its end: the session was cut off in it. Missing is false. */
  readonly unfinished?: boolean;
}

/** A recording. Its sound may go one day (`stored`), its strokes never do. The record's id is the take's id. */
export interface TakeBody {
  readonly sessionId: string | null;
  readonly clock: {
    readonly sampleRateHz: number;
    readonly contextFrame0: number;
    readonly wallMs0: number;
    readonly latencySec: number;
    readonly latencyFrom: 'loopback' | 'bleed' | 'unknown';
  };
  readonly durationSec: number;
  /** Where the sound was when this was written. It may be packed or removed since: the take store decides. */
  readonly stored: 'pcm' | 'flac' | 'none';
  /** Seconds in the take at which its click sounded, as far as known. */
  readonly clicksSec: readonly number[];
  /** What the click sounded like, by the name it is set by; missing in older takes: the soft tone. */
  readonly clickSound?: string;
  readonly strokes: readonly SavedStroke[];
  readonly problems: readonly SavedProblem[];
}

/** A stretch of a take, in seconds of it. */
export interface NotePart {
  readonly takeId: string;
  readonly fromSec: number;
  readonly toSec: number;
}

/** How practice felt. Nothing is made of it: it is there to be read. */
export type Felt = 'easy' | 'asUsual' | 'hard' | 'tired';

/** A line of the player's own. */
export interface NoteBody {
  readonly text: string;
  readonly sessionId: string | null;
  /** Present where the line is an idea that was kept ("keep that"). */
  readonly part?: NotePart;
  /** How it felt, by the player's own word; missing where it was not said. */
  readonly felt?: Felt;
}

/** A phrase that will not hold. The record's id is the sticking point's id. */
export interface StickingPointBody {
  readonly name: string;
  readonly sticking: string;
  readonly surfaces: readonly string[];
  readonly perBeat: number;
  readonly tempoBpm: number;
  /** First and last main stroke of the cell that fails, from 0; null when not known yet. */
  readonly cell: { readonly first: number; readonly last: number } | null;
  /** What is meant beside evenness: `leaning`, `first-accented`, `swing`, `laid-back`, `ghosted`; missing: even. */
  readonly shapes?: readonly string[];
  /** First and last main stroke of the fill, from 0; missing: not told. */
  readonly fill?: { readonly first: number; readonly last: number };
  /** Put aside or closed, since that practice day; missing or open: worked on. */
  readonly state?: { readonly is: 'open' | 'paused' | 'closed'; readonly day: string };
}

/** A whole revision of a plan (docs/formats/plan.md). The one made last stands; it names the one it replaces. */
export interface PlanBody {
  /** The phrase that is planned for, or null when it is not in this diary. */
  readonly stickingPointId: string | null;
  /** Tempo the phrase is wanted at. */
  readonly goalBpm: number;
  /** Minutes a day that were asked for. */
  readonly minutes: number;
  /** Record id of the revision before, or null. */
  readonly replaces: string | null;
  /** Days of the week for practice, Monday 1 to Sunday 7. */
  readonly weekdays: readonly number[];
  /** Days on which a session was missed. */
  readonly away: readonly string[];
  readonly sessions: readonly SavedPlannedSession[];
  /** Every exercise that a session names. */
  readonly exercises: readonly SavedExercise[];
  /** Families that count for closing, use among them; missing: every family of the plan. Each revision carries them on. */
  readonly closing?: readonly string[];
  /** What was agreed for exercises, and the player's own blocks; missing is none. Each revision carries them on. */
  readonly caps?: readonly SavedCap[];
  readonly ways?: readonly SavedWay[];
  readonly own?: readonly SavedOwnBlock[];
  readonly clicks?: readonly SavedClick[];
}

/** A preference of the player; the last writer of a name wins. */
export interface SettingBody {
  readonly name: string;
  readonly value: string | number | boolean | null;
}

/** With what is played; a change of it changes figures. Free words, empty when not said. */
export interface SetupBody {
  readonly sticks: string;
  readonly drums: string;
  readonly pedal: string;
  readonly heel: string;
  readonly phonePlace: string;
}

/** What the drummer said of one exercise, or an exercise of their own; of an exercise the choice made last stands. */
export interface ChoiceBody {
  readonly exercise: SavedExercise;
  /** The phrase on whose shelf it lies: the id of its content. */
  readonly phraseId: string;
  /** kept: it comes first; dropped: it does not come; open: as if nothing had been said. */
  readonly is: 'open' | 'kept' | 'dropped';
  /** Written by the drummer: the shelf has it from here alone. */
  readonly own: boolean;
}

/** Takes whose sound was let go by the player's rules, at once; their strokes and results stay. Deleted, the sound was taken back. */
export interface ThinningBody {
  readonly takeIds: readonly string[];
  /** Bytes of sound that were let go. */
  readonly byteCount: number;
}

/** A change of one field of another record; of several edits of a field the one with the latest `made` counts. */
export interface EditBody {
  readonly targetId: string;
  /** Version of the target's body that `field` speaks of. */
  readonly targetV: number;
  /** `deleted`, `day`, `atMs`, or `body.` and the name of a field of the body. */
  readonly field: string;
  readonly value: unknown;
}

/** The body of each kind this version writes. */
export interface Bodies {
  readonly session: SessionBody;
  readonly block: BlockBody;
  readonly take: TakeBody;
  readonly note: NoteBody;
  readonly stickingPoint: StickingPointBody;
  readonly plan: PlanBody;
  readonly setting: SettingBody;
  readonly setup: SetupBody;
  readonly choice: ChoiceBody;
  readonly thinning: ThinningBody;
  readonly edit: EditBody;
}

export type KnownKind = keyof Bodies;

/** A record whose kind this version knows. */
export type KnownRecord<Kind extends KnownKind = KnownKind> = Kind extends KnownKind ? DiaryRecord<Kind, Bodies[Kind]> : never;
