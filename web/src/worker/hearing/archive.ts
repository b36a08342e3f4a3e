/** Brings takes that are over to the store: their record, and what to do when the device is full. */
import type { KeepingProblem, RecordDraft, TakeBody } from '@evenhand/core/diary';
import type { Problem, Reading } from '@evenhand/core/problem';
import { joinChunks, type TakeChunk, type TakeMeta, type TakeRow } from '../../store/take-rows.ts';
import type { TakeStore } from '../../store/takes.ts';
import { bodyOf, type Listened, type TakeEnding } from './heard.ts';

export interface Archive {
  /** The store, or null when this browser keeps nothing, with the reason. */
  readonly opened: Promise<Reading<TakeStore, KeepingProblem>>;
  /** Sound of a take from what is stored and what is not; empty when there is none. */
  sound(takeId: string, unsaved: readonly TakeChunk[]): Promise<Float32Array<ArrayBuffer>>;
  /** Writes a take's record. Gives what went wrong, as doubts: the take was heard all the same. */
  finish(meta: TakeMeta, listened: Listened, ending: TakeEnding): Promise<readonly Problem[]>;
  drop(takeId: string): Promise<Reading<true>>;
  /** Takes that were begun and never closed. */
  openRows(): Promise<Reading<readonly TakeRow[]>>;
}

/** @param onStored told after a record was written. */
export function createArchive(opened: Promise<Reading<TakeStore, KeepingProblem>>, onStored: () => void): Archive {
  return {
    opened,
    async sound(takeId, unsaved) {
      const stored = await (await opened).value?.chunks(takeId);
      return joinChunks([...(stored?.value ?? []), ...unsaved]);
    },
    async finish(meta, listened, ending) {
      const store = (await opened).value;
      if (!store) return [];
      const problems = await finish(store, meta, { listened, ending });
      onStored();
      return problems.map((problem): Problem => ({ ...problem, severity: 'doubtful' }));
    },
    drop: async (takeId) => (await (await opened).value?.drop(takeId)) ?? { value: true, problems: [] },
    async openRows() {
      const { value, problems } = await opened;
      return value ? value.open() : { value: null, problems };
    },
  };
}

interface Ended {
  readonly listened: Listened;
  readonly ending: TakeEnding;
}

/** A device too full even for the record gives up the sound of this take for its figures. */
async function finish(store: TakeStore, meta: TakeMeta, ended: Ended): Promise<readonly Problem[]> {
  const chunks = await store.chunks(meta.takeId);
  const stored = chunks.value && chunks.value.length > 0 ? 'pcm' : 'none';
  const written = await store.finish(meta.takeId, draftOf(meta, ended, stored));
  if (!written.problems.some(({ code }) => code === 'store-full')) return written.problems;
  await store.dropSound(meta.takeId);
  const again = await store.finish(meta.takeId, draftOf(meta, ended, 'none'));
  return again.problems.length > 0 ? again.problems : written.problems;
}

function draftOf(meta: TakeMeta, { listened, ending }: Ended, stored: TakeBody['stored']): RecordDraft {
  const { takeId, atMs, zone, day } = meta;
  return { id: takeId, kind: 'take', atMs, zone, day, body: bodyOf(meta, listened, { ...ending, stored }) };
}
