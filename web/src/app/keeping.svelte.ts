/** Keeping the diary as the screens see it: packed into a file, checked, brought back, and what was here before. */
import type { ImportMode } from '@evenhand/core/diary';
import type { Problem, Reading } from '@evenhand/core/problem';
import type { Packer } from '../backup/client.ts';
import { backupName, saveFile } from '../backup/download.ts';
import type { BroughtIn, CheckedBackup, PackedDiary, Progress } from '../backup/protocol.ts';
import { isTimeToSave } from '../backup/reminder.ts';
import { clearPacked } from '../store/packed.ts';
import type { Aside, Persistence, Store, StoredSound } from '../store/store.ts';
import { playerPart } from './ownfiles.ts';
import type { Room } from './room.ts';

export type KeepingStage =
  | { readonly at: 'idle' }
  | { readonly at: 'working'; readonly progress: Progress }
  | { readonly at: 'saved'; readonly packed: PackedDiary; readonly name: string }
  | { readonly at: 'asking'; readonly checked: CheckedBackup }
  | { readonly at: 'brought'; readonly done: BroughtIn };

export interface Keeping {
  readonly stage: KeepingStage;
  readonly problems: readonly Problem[];
  readonly persistence: Persistence | null;
  /** When the diary was saved to a file last, milliseconds since 1970. */
  readonly savedAtMs: number | null;
  /** Whether it is time to save the diary to a file. */
  readonly remind: boolean;
  /** Diaries that a whole restore took the place of, the latest first. */
  readonly asides: readonly Aside[];
  /** Looks again at what the store says. */
  look(): Promise<void>;
  save(): Promise<void>;
  check(file: Blob): Promise<void>;
  bringIn(mode: ImportMode): Promise<void>;
  /** Back to the beginning: nothing is brought in. */
  leave(): void;
  /** Takes that have their sound here, with its size; null when the store does not tell. */
  soundSizes(): Promise<readonly StoredSound[] | null>;
  /** Lets the sound of takes go for good. */
  freeSound(takeIds: readonly string[]): Promise<boolean>;
  saveAside(aside: Aside): Promise<void>;
  /** Looks at what would come of bringing it back. */
  checkAside(aside: Aside): Promise<void>;
  letGo(aside: Aside): Promise<void>;
}

const asking = (checked: CheckedBackup): KeepingStage => ({ at: 'asking', checked });

/** What the desk knows of the diary that is kept. */
interface Stand {
  /** When the latest entry was made, null for an empty diary. */
  writtenAtMs(): number | null;
  /** Holds nothing of the diary while much of it changes; `work` gives whether another took its place. */
  replacing(work: () => Promise<boolean>): Promise<void>;
}

/** @param store gives the diary that is open, null when the browser keeps nothing. */
export function createKeeping(room: Room, store: () => Store | null, { writtenAtMs, replacing }: Stand): Keeping {
  let stage = $state.raw<KeepingStage>({ at: 'idle' });
  let problems = $state.raw<readonly Problem[]>([]);
  let persistence = $state.raw<Persistence | null>(null);
  let savedAtMs = $state.raw<number | null>(null);
  let asides = $state.raw<readonly Aside[]>([]);
  let packer: Packer | null = null;

  const tell = (progress: Progress): void => {
    if (stage.at === 'working') stage = { at: 'working', progress };
  };

  /** Runs one request; when it is refused, that is told and the screen is where it began, where it will be otherwise too unless `next` says another. */
  async function work<Value>(
    part: Progress['part'],
    ask: (packer: Packer) => Promise<Reading<Value>>,
    next: (value: Value) => KeepingStage = () => ({ at: 'idle' }),
  ): Promise<Value | null> {
    packer ??= room.startPacker(tell);
    problems = [];
    stage = { at: 'working', progress: { part, share: 0 } };
    const { value, problems: found } = await ask(packer);
    await look();
    problems = found;
    stage = value === null ? { at: 'idle' } : next(value);
    return value;
  }

  /** A Worker keeps what it was once given room for until it ends. */
  function rest(): void {
    packer?.close();
    packer = null;
  }

  async function look(): Promise<void> {
    const opened = store();
    if (!opened) return;
    [persistence, savedAtMs, asides] = await Promise.all([opened.persistence(), opened.savedAtMs(), opened.asides()]);
  }

  return {
    get stage() {
      return stage;
    },
    get problems() {
      return problems;
    },
    get persistence() {
      return persistence;
    },
    get savedAtMs() {
      return savedAtMs;
    },
    get remind() {
      if (persistence === null || room.forget) return false;
      return isTimeToSave({ persistence, savedAtMs, writtenAtMs: writtenAtMs(), nowMs: room.writtenNow().atMs });
    },
    get asides() {
      return asides;
    },
    async look() {
      const opened = store();
      // Not after each piece of work: what was packed just now is on its way out.
      if (opened && stage.at === 'idle') void clearPacked(opened.name);
      await look();
    },
    async save() {
      const name = backupName(room.writtenNow().day, playerPart());
      const packed = await work(
        'sound',
        (one) => one.save(),
        (saved) => ({ at: 'saved', packed: saved, name }),
      );
      rest();
      if (packed) saveFile(packed.file, name);
    },
    async check(file) {
      await work('reading', (one) => one.check(file), asking);
    },
    async bringIn(mode) {
      await replacing(async () => {
        const done = await work(
          'entries',
          (one) => one.bringIn(mode),
          (brought) => ({ at: 'brought', done: brought }),
        );
        rest();
        return done !== null && mode === 'whole';
      });
    },
    leave() {
      stage = { at: 'idle' };
      problems = [];
    },
    soundSizes: async () => (await store()?.soundSizes())?.value ?? null,
    freeSound: async (takeIds) => Boolean((await store()?.freeSound(takeIds))?.value),
    async saveAside({ database, row }) {
      const file = row?.file ?? (await work('aside', (one) => one.saveAside(database)))?.file;
      if (!row) rest();
      if (file) saveFile(file, backupName(room.writtenNow().day, playerPart()));
    },
    async checkAside({ database, row }) {
      await work('reading', (one) => (row ? one.check(row.file) : one.checkAside(database)), asking);
    },
    async letGo(aside) {
      await store()?.dropAside(aside);
      await look();
    },
  };
}
