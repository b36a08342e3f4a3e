/** Sessions saved beside ten years, one after the other, by the store of the app. Runs inside the page: it may name nothing outside itself. */
import type * as Stores from '../../web/src/store/store.ts';

export interface Saving {
  readonly times: number;
  /** whole: the page has read the diary and rested since, as the app has before anybody can play; latest: it was opened just now. */
  readonly after: 'whole' | 'latest';
}

/** @returns milliseconds of each. Throws when one of them is not in the journal. */
export async function appendedMs({ times, after }: Saving): Promise<readonly number[]> {
  const { openStore, newId, writtenNow } = (globalThis as unknown as { benchStore: typeof Stores }).benchStore;
  /** Files of the journal that pages write to. */
  const begun = async (): Promise<readonly FileSystemFileHandle[]> => {
    const files: FileSystemFileHandle[] = [];
    const root = await navigator.storage.getDirectory();
    const folder = await root.getDirectoryHandle('journals', { create: true }).then((all) => all.getDirectoryHandle('evenhand', { create: true }));
    for await (const file of folder.values()) if (file.kind === 'file' && file.name.endsWith('.lines')) files.push(file);
    return files;
  };
  const before = (await begun()).length;
  // The app has asked what day it is for its first screen.
  if (after === 'whole') writtenNow();
  const store = (await openStore()).value!;
  const { view } = (await store.read(after)).value!;
  while (after === 'whole' && (await begun()).length === before) await new Promise((resolve) => setTimeout(resolve, 100));
  const heard = view.days.flatMap(({ sessions }) => sessions.flatMap(({ blocks }) => blocks)).find(({ body }) => body.heard !== null)!;
  const block = JSON.parse(JSON.stringify(heard.body)) as typeof heard.body;
  const took: number[] = [];
  const ids: string[] = [];
  for (let k = 0; k < times; k++) {
    const id = newId();
    ids.push(id);
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
  const lines = (await Promise.all((await begun()).map(async (file) => (await file.getFile()).text()))).join('');
  if (!ids.every((id) => lines.includes(id))) throw new Error('not in the journal');
  store.close();
  return took;
}
