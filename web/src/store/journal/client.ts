/** The writer's side of the journal's Worker: started when first used, and done without where there is none. */
import { DEMO_NAME } from '../../demo/asked.ts';
import type { FromJournalWorker, Tended, ToJournalWorker, Written } from './protocol.ts';

export interface Journal {
  /** False where the browser has no such files, and once something could not be kept: the page does without until it is opened again. */
  readonly isThere: boolean;
  /** Starts the Worker, so that the first entry need not wait for that. */
  start(): void;
  /** Adds what was written. Resolves true once it is on the disk. */
  keep(written: Written): Promise<boolean>;
  /** Holds the journals of a diary against its database, copies what they lack, and joins what has grown small and many. Null when that could not be done. */
  tend(storeName: string): Promise<Tended | null>;
  close(): void;
}

/** So long an entry waits for the journal; then it counts as not kept there. Assumption: longer than a disk that is busy with other things. */
const WAIT_MS = 5000;

/** @returns null for the demo, which is made anew when it is lost. */
export function openJournal(storeName: string): Journal | null {
  if (storeName === DEMO_NAME) return null;
  let isThere = 'storage' in navigator && 'getDirectory' in navigator.storage && 'CompressionStream' in globalThis;
  let worker: Worker | null = null;
  let turn = 0;
  const waiting = new Map<number, (done: Tended | null) => void>();

  let isClosing = false;

  const settle = (which: number, done: Tended | null): void => {
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
  function ask(message: (which: number) => ToJournalWorker): Promise<Tended | null> {
    if (!isThere) return Promise.resolve(null);
    worker ??= started();
    const which = turn++;
    return new Promise((resolve) => {
      waiting.set(which, resolve);
      worker!.postMessage(message(which));
      if (message(which).type === 'keep') setTimeout(() => settle(which, null), WAIT_MS);
    });
  }
  return {
    get isThere() {
      return isThere;
    },
    start() {
      if (isThere) worker ??= started();
    },
    async keep(written) {
      const isKept = (await ask((which) => ({ type: 'keep', turn: which, written }))) !== null;
      if (!isKept) stop();
      return isKept;
    },
    tend: (storeName) => ask((which) => ({ type: 'tend', turn: which, storeName })),
    close() {
      // What is being kept comes to its end.
      isClosing = true;
      if (waiting.size === 0) stop();
    },
  };
}
