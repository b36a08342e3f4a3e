/** A hundred thousand damaged sound files, in a thread of its own that is watched: what hangs is ended and told. */
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { damagedBy, faultWith, wholeFiles } from '../../cli/tests/damaged.ts';

const COUNT = Number(process.env.EVENHAND_DAMAGED ?? 100_000);

/** Beyond this a file takes too long: processor time of the whole process, which does nothing else, so that a busy machine tells no lies. */
const LIMIT_MS = 1000;
/** When a file is taken to hang: far longer than any wait for a processor. */
const HANG_MS = 60_000;

interface Span {
  readonly from: number;
  readonly to: number;
  /** Where the file being heard is told: it can be read while the thread hangs. */
  readonly present: Int32Array;
}

/** What the thread tells: something wrong with a file, or that it is done. */
type Told = { readonly fault: string } | { readonly slowestMs: number };

if (isMainThread) await watch();
else await run(workerData as Span);

async function run({ from, to, present }: Span): Promise<void> {
  const wholes = await wholeFiles('cli/fixtures/sounds');
  const tell = (told: Told): void => parentPort!.postMessage(told);
  let slowestMs = 0;
  for (let seed = from; seed < to; seed++) {
    Atomics.store(present, 0, seed);
    const damaged = damagedBy(seed, wholes);
    const began = process.cpuUsage().user;
    const fault = await faultWith(damaged);
    const tookMs = (process.cpuUsage().user - began) / 1000;
    if (fault) tell({ fault });
    if (tookMs > LIMIT_MS) tell({ fault: `${damaged.what}: ${tookMs.toFixed(0)} ms` });
    slowestMs = Math.max(slowestMs, tookMs);
  }
  tell({ slowestMs });
}

async function watch(): Promise<void> {
  const present = new Int32Array(new SharedArrayBuffer(4));
  const faults: string[] = [];
  let slowestMs = 0;
  for (let from = 0; from < COUNT; ) {
    const ended = await watched({ from, to: COUNT, present }, (fault) => faults.push(fault));
    if ('hungAt' in ended) faults.push(`${ended.hungAt} hung`);
    else slowestMs = ended.slowestMs;
    from = 'hungAt' in ended ? ended.hungAt + 1 : COUNT;
  }
  for (const fault of faults.slice(0, 20)) console.error(fault);
  console.log(`${COUNT} files, ${faults.length} at fault, the slowest ${slowestMs.toFixed(0)} ms of processor time`);
  process.exitCode = faults.length === 0 ? 0 : 1;
}

function watched(span: Span, onFault: (fault: string) => void): Promise<{ readonly hungAt: number } | { readonly slowestMs: number }> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL(import.meta.url), { workerData: span });
    let last = -1;
    let since = Date.now();
    const looking = setInterval(() => {
      const seed = Atomics.load(span.present, 0);
      if (seed !== last) {
        last = seed;
        since = Date.now();
      } else if (Date.now() - since > HANG_MS) {
        clearInterval(looking);
        void worker.terminate();
        resolve({ hungAt: seed });
      }
    }, 250);
    worker.on('message', (told: Told) => {
      if ('fault' in told) return onFault(told.fault);
      clearInterval(looking);
      resolve(told);
    });
    worker.once('error', reject);
  });
}
