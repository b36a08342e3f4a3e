/** The writer's side of the journal's Worker: started when first used, and done without where there is none. */
import { DEMO_NAME } from '../../demo/asked.ts';
import type { Done, FromJournalWorker, JournalWork, Tended, ToJournalWorker, Written } from './protocol.ts';

export interface Journal {
  /** False where the browser has no such files, and once something could not be kept: the page does without until it is opened again. */
  readonly isThere: boolean;
  /** Whether the file that is written to was asked for. */
  isBegun(database: string): boolean;
  /** Starts the Worker and makes its file, so that the first entry need not wait for that. */
  start(of: Pick<Written, 'database' | 'identity'>): void;
  /** Adds what is written. */
  keep(written: Written): KeptLine;
  /** Holds the journals of a diary against its database, copies what they lack, and joins what has grown small and many. Null when that could not be done. */
  tend(storeName: string): Promise<Tended | null>;
  close(): void;
}

/** What was added to the journal. */
export interface KeptLine {
  /** True once it is on the disk; false when it cannot be. */
  readonly isKept: Promise<boolean>;
  /** What was to be written was not, so it does not count here either. Resolves when that is on the disk, or cannot be. */
  takeBack(): Promise<unknown>;
}

/** So long an entry waits for the journal; then it counts as not kept there. Assumption: longer than a disk that is busy with other things. */
const WAIT_MS = 5000;

/** @returns null for the demo, which is made anew when it is lost. */
export function openJournal(storeName: string): Journal | null {
  if (storeName === DEMO_NAME) return null;
  let isThere = 'storage' in navigator && 'getDirectory' in navigator.storage && 'CompressionStream' in globalThis;
  let worker: Worker | null = null;
  let turn = 0;
  /** The database whose file is made ahead. */
  let begun: string | null = null;
  const waiting = new Map<number, (done: FromJournalWorker['done']) => void>();

  let isClosing = false;

  const settle = (which: number, done: FromJournalWorker['done']): void => {
    waiting.get(which)?.(done);
    waiting.delete(which);
    if (isClosing && waiting.size === 0) stop();
  };
  const stop = (): void => {
    isThere = false;
    worker?.terminate();
    worker = null;
    for (const which of [...waiting.keys()]) settle(which, null);
  };
  function started(): Worker {
    const made = new Worker(new URL('./journal.worker.ts', import.meta.url), { type: 'module', name: 'evenhand-journal' });
    made.onmessage = ({ data }: MessageEvent<FromJournalWorker>) => settle(data.turn, data.done);
    made.onerror = (event) => {
      event.preventDefault();
      stop();
    };
    return made;
  }
  function ask<Type extends JournalWork['type']>(work: Extract<JournalWork, { type: Type }>): Promise<Done[Type] | null> {
    if (!isThere) return Promise.resolve(null);
    worker ??= started();
    const which = turn++;
    return new Promise((resolve) => {
      waiting.set(which, (done) => resolve(done as Done[Type] | null));
      worker!.postMessage({ ...work, turn: which });
      if (work.type === 'keep') setTimeout(() => settle(which, null), WAIT_MS);
    });
  }
  return {
    get isThere() {
      return isThere;
    },
    isBegun: (database) => begun === database,
    start({ database, identity }) {
      if (!isThere) return;
      begun = database;
      worker ??= started();
      // Nobody waits for it, closing neither: a file without an entry is nothing.
      worker.postMessage({ type: 'begin', database, identity, turn: turn++ } satisfies ToJournalWorker);
    },
    keep(written) {
      const line = ask<'keep'>({ type: 'keep', written });
      const isKept = line.then((kept) => {
        if (!kept) stop();
        return kept !== null;
      });
      return {
        isKept,
        takeBack: async () => {
          const kept = await line;
          return kept && ask<'takeBack'>({ type: 'takeBack', line: kept });
        },
      };
    },
    tend: (storeName) => ask<'tend'>({ type: 'tend', storeName }),
    close() {
      // What is being kept comes to its end.
      isClosing = true;
      if (waiting.size === 0) stop();
    },
  };
}
