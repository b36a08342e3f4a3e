/** Sessions that were cut off, found once nobody plays them any more, with what was kept aside of them brought into the diary. */
import type { DiaryView, RecordDraft } from '@evenhand/core/diary';
import type { Store } from '../store/store.ts';
import { type CutOff, cutOffIn, openSessions, recovered } from './cutoff.ts';
import { sessionFree } from './sessionlock.ts';

export interface CutOffSessions {
  /** The one that was cut off last; null when there is none. */
  readonly last: CutOff | null;
  /** Looks for sessions without an end in what was read of the diary. */
  watch(diary: DiaryView): void;
}

interface Stand {
  diary(): DiaryView | null;
  store(): Store | null;
  append(drafts: readonly RecordDraft[]): Promise<boolean>;
  refresh(): Promise<void>;
}

/** @param stand where the diary is read and written. */
export function cutOffSessions(stand: Stand): CutOffSessions {
  /** Sessions without an end that nobody plays, here or in another tab. */
  let free = $state.raw<ReadonlySet<string>>(new Set());
  const asked = new Set<string>();
  const last = $derived.by(() => {
    const diary = stand.diary();
    return diary && cutOffIn(diary, free);
  });

  /** Told once nobody plays a session any more: one that has no end then was cut off. */
  async function ask(sessionId: string): Promise<void> {
    if (asked.has(sessionId)) return;
    asked.add(sessionId);
    await sessionFree(sessionId);
    await recover(sessionId);
    free = new Set([...free, sessionId]);
  }

  /** What was kept aside of a session that was cut off comes into the diary. */
  async function recover(sessionId: string): Promise<void> {
    const diary = stand.diary();
    const kept = await stand.store()?.soFar();
    const drafts = diary && kept ? recovered(diary, sessionId, kept) : [];
    if (drafts.length === 0) return;
    await stand.append(drafts);
    await stand.refresh();
  }

  return {
    get last() {
      return last;
    },
    watch(diary) {
      for (const { session } of openSessions(diary)) void ask(session.id);
    },
  };
}
