/** The demo in a database of its own, opened, made where it is not there yet, and cleared without a trace. */
import type { KeepingProblem, KnownRecord, RecordDraft } from '@evenhand/core/diary';
import type { Reading } from '@evenhand/core/problem';
import { frameOfSec } from '@evenhand/core/units';
import { deleteDB } from 'idb';
import { followed, openDatabase } from '../store/database.ts';
import { failed } from '../store/problems.ts';
import { openStore, type Store } from '../store/store.ts';
import { type TakeStore, takesOf } from '../store/takes.ts';
import { DEMO_NAME } from './asked.ts';
import type { Demo, DemoAsk, DemoTake } from './demo.ts';

const NOT_KEPT = { askToKeep: false } as const;

/** Makes the demo for a day: in a Worker, unless a test does it otherwise. */
export type MakeDemo = (ask: DemoAsk) => Promise<Demo>;

/**
 * Opens the demo; makes it first when it is not there whole. The browser is not asked to keep it.
 * @param ask the practice day it is (`today`) and the zone of the device.
 * @returns a store as `openStore` gives it, to be read and played on like any other; close it before `clearDemo`.
 */
export function openDemo(ask: Omit<DemoAsk, 'maker'>, make: MakeDemo = makeInWorker): Promise<Reading<Store, KeepingProblem>> {
  // One tab makes it, the others wait and find it made.
  return navigator.locks.request(DEMO_NAME, async () => (await openMade()) ?? (await makeAnew(ask, make)));
}

/** The demo that is there, null when there is none or one that was cut off while it was made. */
async function openMade(): Promise<Reading<Store, KeepingProblem> | null> {
  const store = await openStore(DEMO_NAME, NOT_KEPT);
  if (!store.value) return store;
  const read = await store.value.read('whole');
  if (!read.value) return giveUp(store.value, read.problems);
  if (read.value.view.days.some(({ sessions }) => sessions.length > 0)) return store;
  store.value.close();
  return null;
}

async function makeAnew(ask: Omit<DemoAsk, 'maker'>, make: MakeDemo): Promise<Reading<Store, KeepingProblem>> {
  const cleared = await clearDemo();
  if (!cleared.value) return { value: null, problems: cleared.problems };
  const store = await openStore(DEMO_NAME, NOT_KEPT);
  if (!store.value) return store;
  const { deviceId, ownerId } = store.value;
  try {
    const problems = await writeDemo(store.value, await make({ ...ask, maker: { deviceId, ownerId } }));
    return problems.length > 0 ? giveUp(store.value, problems) : store;
  } catch (error) {
    return giveUp(store.value, [failed(error)]);
  }
}

/** Removes the demo and all that was played in it. An open store of it hears of it (`onProblem`) and closes. */
export async function clearDemo(): Promise<Reading<true, KeepingProblem>> {
  try {
    await deleteDB(DEMO_NAME);
    return { value: true, problems: [] };
  } catch (error) {
    return { value: null, problems: [failed(error)] };
  }
}

function giveUp(store: Store, problems: readonly KeepingProblem[]): Reading<never, KeepingProblem> {
  store.close();
  return { value: null, problems };
}

/** The takes first, the diary in one piece at the end: what is cut off before that has no session, and is made anew. */
async function writeDemo(store: Store, demo: Demo): Promise<readonly KeepingProblem[]> {
  const options = { onLost: () => {} };
  const db = await openDatabase(DEMO_NAME, options);
  if (!db.value) return db.problems;
  const takes = takesOf(followed(DEMO_NAME, db.value, options), null);
  const isTake = (id: string) => demo.takes.some(({ takeId }) => takeId === id);
  for (const take of demo.takes) {
    const record = demo.records.find(({ id }) => id === take.takeId) as KnownRecord<'take'>;
    const problems = await writeTake(takes, take, record);
    if (problems.length > 0) return problems;
  }
  db.value.close();
  const merged = await store.merge(demo.records.filter(({ id }) => !isTake(id)));
  return merged.problems;
}

/** Stores a take as one that was recorded: begun, a second at a time, closed with its record. */
async function writeTake(
  takes: TakeStore,
  { takeId, sampleRateHz, samples }: DemoTake,
  record: KnownRecord<'take'>,
): Promise<readonly KeepingProblem[]> {
  const { atMs, zone, day, body } = record;
  const { contextFrame0: fromFrame, wallMs0, latencySec, latencyFrom } = body.clock;
  const begun = await takes.begin({ takeId, sessionId: body.sessionId, sampleRateHz, fromFrame, wallMs0, latencySec, latencyFrom, atMs, zone, day });
  if (begun.value === null) return begun.problems;
  const chunkFrames = frameOfSec(1, sampleRateHz);
  for (let index = 0; index * chunkFrames < samples.length; index++) {
    const offsetFrames = index * chunkFrames;
    const added = await takes.add({ takeId, index, offsetFrames, samples: samples.slice(offsetFrames, offsetFrames + chunkFrames) });
    if (added.value === null) return added.problems;
  }
  const draft: RecordDraft = { kind: 'take', id: takeId, atMs, zone, day, body };
  return (await takes.finish(takeId, draft)).problems;
}

function makeInWorker(ask: DemoAsk): Promise<Demo> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(new URL('./demo.worker.ts', import.meta.url), { type: 'module', name: 'evenhand-demo' });
    const over = (settle: () => void) => {
      worker.terminate();
      settle();
    };
    worker.onmessage = ({ data }: MessageEvent<Demo>) => over(() => resolve(data));
    worker.onerror = (event) => {
      event.preventDefault();
      over(() => reject(new Error(event.message)));
    };
    worker.postMessage(ask);
  });
}
