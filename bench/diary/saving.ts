/** Sessions saved beside ten years, one after the other, by the store of the app. Runs inside the page: it may name nothing outside itself. */
import type * as Stores from '../../web/src/store/store.ts';

/** @param times how often. @returns milliseconds of each. */
export async function appendedMs(times: number): Promise<readonly number[]> {
  const { openStore, newId, writtenNow } = (globalThis as unknown as { benchStore: typeof Stores }).benchStore;
  const store = (await openStore()).value!;
  const { view } = (await store.read('latest')).value!;
  const heard = view.days.flatMap(({ sessions }) => sessions.flatMap(({ blocks }) => blocks)).find(({ body }) => body.heard !== null)!;
  const block = JSON.parse(JSON.stringify(heard.body)) as typeof heard.body;
  const took: number[] = [];
  for (let k = 0; k < times; k++) {
    const id = newId();
    const edit = (field: string, value: unknown) =>
      ({ kind: 'edit', ...writtenNow(), body: { targetId: id, targetV: 1, field: `body.${field}`, value } }) as const;
    const body = { stickingPointId: null, plannedMinutes: 12, endedAtMs: null, ended: null, reason: null };
    const beganMs = performance.now();
    const { value } = await store.append([
      { kind: 'session', id, ...writtenNow(), body },
      { kind: 'block', ...writtenNow(), body: { ...block, sessionId: id } },
      edit('ended', 'done'),
      edit('endedAtMs', Date.now()),
    ]);
    took.push(performance.now() - beganMs);
    if (!value) throw new Error('not saved');
  }
  store.close();
  return took;
}
