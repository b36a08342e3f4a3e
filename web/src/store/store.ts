/** The diary on this device: records appended and read, takes read back; nothing is ever overwritten. */
import type { DiaryRecord, KeepingProblem, RecordDraft } from '@evenhand/core/diary';
import type { Reading } from '@evenhand/core/problem';

/** Whether the browser promised to keep what is stored. `notAsked`: no session saved yet. `cannotTell`: the browser does not say. */
export type Persistence = 'kept' | 'mayBeCleared' | 'notAsked' | 'cannotTell';

/** A recording read back from the take store, or what is left of it. */
export interface StoredTake {
  readonly takeId: string;
  readonly sampleRateHz: number;
  readonly contextFrame0: number;
  /** Mono samples from the take's first frame, full scale at ±1; stretches that never arrived are zeros. */
  readonly samples: Float32Array<ArrayBuffer>;
}

/** An open diary. Every method answers with a Reading and never rejects for what a device can do (full, closed, gone). */
export interface Store {
  readonly name: string;
  /** This device's own id, 32 hexadecimal digits, made at first opening. */
  readonly deviceId: string;
  readonly ownerId: string;
  /**
   * Writes new records in one transaction that survives a power cut once this answers: all of them or none.
   * Gives each its id (unless the draft brings one), `v`, `ownerId` and `made`; ids of one draft may be named in another when brought along (`newId`).
   * After the first session record the browser is asked to keep the store (see `persistence`).
   */
  append(drafts: readonly RecordDraft[]): Promise<Reading<readonly DiaryRecord[], KeepingProblem>>;
  /** Adds records made elsewhere as they are; those already here stay. Gives how many were new. */
  merge(records: readonly DiaryRecord[]): Promise<Reading<number, KeepingProblem>>;
  /** All records, unknown kinds included, in no order that means anything: `fold` of core/diary makes the view. */
  records(): Promise<Reading<readonly DiaryRecord[], KeepingProblem>>;
  /** The sound of a take; refused (`take-not-stored`) when it is not on this device any more. */
  take(takeId: string): Promise<Reading<StoredTake, KeepingProblem>>;
  /** Removes the sound of a take; its record with the strokes stays. */
  dropTakeSound(takeId: string): Promise<Reading<true, KeepingProblem>>;
  persistence(): Promise<Persistence>;
  /** Asks the browser to keep the store, and remembers the answer. */
  askPersistence(): Promise<Persistence>;
  /** Told after records were added by this tab, by its worker or by another tab. Gives the way to stop being told. */
  onChange(listener: () => void): () => void;
  /** Told when the store stops working on its own: another tab needs a newer version, or the browser took it away. */
  onProblem(listener: (problem: KeepingProblem) => void): () => void;
  close(): void;
}

/** The drummer's own database; the demo has one of its own. */
export const DIARY_NAME = 'evenhand';

/**
 * Opens (and makes, and upgrades) the diary.
 * @param name of the database, default the drummer's.
 * @returns refused when the browser keeps nothing (private window), the data come from a newer version, or another tab blocks the upgrade.
 */
export declare function openStore(name?: string): Promise<Reading<Store, KeepingProblem>>;

/** 128 random bits as 32 hexadecimal digits, for a record whose id must be known before it is written. */
export declare function newId(): string;

/**
 * The moment a record is made in: time, zone of the device, and practice day.
 * @param cutOverHour hour at which a new practice day begins, default core/diary's `CUT_OVER_HOUR`.
 */
export declare function writtenNow(cutOverHour?: number): { readonly atMs: number; readonly zone: string; readonly day: string };
