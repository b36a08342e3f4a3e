/** "Find my tempo" as the screens see it: begun for an exercise, played, and written in the diary. */
import type { RecordDraft } from '@evenhand/core/diary';
import type { Exercise } from '@evenhand/core/exercise';
import type { Problem } from '@evenhand/core/problem';
import { stayAwake } from './awake.ts';
import type { Judged } from './heardblock.ts';
import type { Room } from './room.ts';
import { savedExercise } from './savedplan.ts';
import type { Found, Search, SearchState } from './search.ts';

/** Where a search stands. */
export type SearchStage =
  | { readonly at: 'none' }
  | { readonly at: 'starting'; readonly exercise: Exercise }
  | { readonly at: 'playing'; readonly exercise: Exercise; readonly byWord: boolean; readonly state: SearchState | null }
  /** Nothing could be told of what was played. */
  | { readonly at: 'nothing' }
  | { readonly at: 'done'; readonly exercise: Exercise; readonly found: Found };

export interface Searching {
  readonly stage: SearchStage;
  readonly problems: readonly Problem[];
  start(exercise: Exercise, asked: { readonly expectedBpm: number; readonly microphone: boolean }): Promise<void>;
  say(word: 'hadIt' | 'again'): void;
  /** Ends it now, with what there is. */
  stop(): void;
  /** Ends it at once and writes nothing: something hurts. */
  drop(): void;
  /** Back to where it was begun. */
  leave(): void;
}

interface Stand {
  judged(): Judged;
  append(drafts: readonly RecordDraft[]): Promise<boolean>;
  /** Id of the phrase it is for; null when it is for none. */
  stickingPointId(): string | null;
  /** Told when what was found is in the diary. */
  over(): Promise<void>;
}

/** @param stand where the diary is read and written. */
export function createSearching(room: Room, stand: Stand): Searching {
  let stage = $state.raw<SearchStage>({ at: 'none' });
  let problems = $state.raw<readonly Problem[]>([]);
  let search: Search | null = null;
  let dropped = false;

  async function start(
    exercise: Exercise,
    { expectedBpm, microphone }: { readonly expectedBpm: number; readonly microphone: boolean },
  ): Promise<void> {
    if (stage.at === 'starting' || stage.at === 'playing') return;
    stage = { at: 'starting', exercise };
    problems = [];
    dropped = false;
    const { runSearch } = await import('./search.ts');
    const sound = await room.openEngine({ microphone: microphone ? 'asked' : 'none' });
    problems = sound.problems;
    const engine = sound.value;
    if (!engine) {
      stage = { at: 'none' };
      return;
    }
    if (engine.microphone) room.ear().listenTo(engine);
    const byWord = engine.microphone === null;
    stage = { at: 'playing', exercise, byWord, state: null };
    const sessionId = room.newId();
    const began = room.writtenNow();
    const sleep = await stayAwake();
    search = runSearch({
      ...{ room, engine, exercise, expectedBpm, sessionId, judged: stand.judged() },
      onState: (state) => (stage = { at: 'playing', exercise, byWord, state }),
      onProblems: (more) => {
        // That a bar is short for a judgement is so by intention; what hinders the hearing itself is told.
        const fresh = more.filter(({ code }) => /^(microphone|device|store|ear)-/.test(code) && !problems.some((known) => known.code === code));
        problems = [...problems, ...fresh];
      },
    });
    const found = await search.over;
    search = null;
    sleep();
    await engine.close();
    if (dropped || found.steps.length === 0) {
      stage = { at: dropped || found.takeIds.length === 0 ? 'none' : 'nothing' };
      return;
    }
    await stand.append(pagesOf(found, { exercise, sessionId, began, room, stickingPointId: stand.stickingPointId(), blockId: room.newId() }));
    await stand.over();
    stage = { at: 'done', exercise, found };
  }

  return {
    get stage() {
      return stage;
    },
    get problems() {
      return problems;
    },
    start,
    say: (word) => search?.say(word),
    stop: () => search?.stop(),
    drop() {
      dropped = true;
      search?.stop();
    },
    leave() {
      stage = { at: 'none' };
      problems = [];
    },
  };
}

interface SearchPages {
  readonly exercise: Exercise;
  readonly sessionId: string;
  readonly blockId: string;
  readonly stickingPointId: string | null;
  readonly began: ReturnType<Room['writtenNow']>;
  readonly room: Pick<Room, 'writtenNow'>;
}

/** A session of one block that holds what was tried; the block's tempo is what was found. */
function pagesOf(found: Found, { exercise, sessionId, blockId, stickingPointId, began, room }: SearchPages): readonly RecordDraft[] {
  const { medianBpm, lowBpm, highBpm, steps, playedSec, takeIds } = found;
  const reason = { code: 'tempo-searched', params: { lowBpm: Math.round(lowBpm), highBpm: Math.round(highBpm) } };
  const tempoBpm = Math.floor(medianBpm);
  const now = room.writtenNow();
  const session = { stickingPointId, plannedMinutes: 2, endedAtMs: now.atMs, ended: 'done', reason: null } as const;
  const block = {
    ...{ sessionId, position: 0, exercise: savedExercise(exercise), tempoBpm, durationSec: playedSec, takeIds, search: steps },
    ...{ heard: null, playerSays: null, nextTempo: { tempoBpm, reason }, reason },
  };
  return [
    { id: sessionId, kind: 'session', ...began, day: now.day, body: session },
    { id: blockId, kind: 'block', ...now, body: block },
  ];
}
