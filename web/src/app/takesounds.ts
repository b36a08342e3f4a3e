/** The sound of takes, while it is on this device and was not let go. */
import { type DiaryView, type KnownRecord, letGoOf } from '@evenhand/core/diary';
import type { SoundingTake } from '@evenhand/core/progress';
import type { Store, StoredTake } from '../store/store.ts';
import type { Room } from './room.ts';
import { overdue } from './thinning.ts';

export interface TakeSounds {
  /** Null where there is none. */
  soundOf(takeId: string): Promise<StoredTake | null>;
  /** Practice day on which the sound of one of these takes was let go, by the player's rules; null when it was not. */
  letGoOn(takeIds: readonly string[]): string | null;
  /** The take of a block, heard anew; null without its sound, or when too little can be told. */
  soundingTake(block: KnownRecord<'block'>): Promise<SoundingTake | null>;
  /** What was let go long enough ago goes for good. */
  freeOverdue(): Promise<void>;
}

interface Stand {
  readonly store: () => Store | null;
  readonly diary: () => DiaryView | null;
}

export function takeSounds(room: Pick<Room, 'ear' | 'writtenNow'>, { store, diary }: Stand): TakeSounds {
  const takeOf = async (takeId: string) => (await store()?.recordsOf([takeId]))?.value?.[0];
  const letGoOn = (takeIds: readonly string[]): string | null => {
    const gone = diary() ? letGoOf(diary()!) : new Map<string, string>();
    return takeIds.map((takeId) => gone.get(takeId)).find((day) => day !== undefined) ?? null;
  };
  const soundOf = async (takeId: string) => (letGoOn([takeId]) === null ? ((await store()?.take(takeId))?.value ?? null) : null);
  return {
    soundOf,
    letGoOn,
    soundingTake: async (block) => (await import('./soundingtake.ts')).soundingTake(block, { ear: room.ear(), soundOf, takeOf }),
    async freeOverdue() {
      const takeIds = diary() ? overdue(diary()!, room.writtenNow().day) : [];
      if (takeIds.length > 0) await store()?.freeSound(takeIds);
    },
  };
}
