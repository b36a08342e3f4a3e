/** The second copy of a diary in a real browser: it holds what the database holds, gives it back, and goes when the diary goes. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from '@playwright/test';

const FIXTURE = readFileSync(join(import.meta.dirname, '../../../adapters/fixtures/backup-version-1.zip')).toString('base64');

test('what the database of a diary lost comes back from its journal, told once; a restored diary with the one kept aside, and the list of players; what was removed does not', async ({
  page,
}) => {
  await page.goto('/e2e/machine/rig.html');
  const found = await page.evaluate(async (base64) => {
    const { rig } = window;
    const [{ removeDiary }, { openOne }, { filesIn, folderOf, journalNames }] = await Promise.all([
      import('../../src/store/asides.ts'),
      import('../../src/store/database.ts'),
      import('../../src/store/journal/folder.ts'),
    ]);
    const name = 'copied';
    const raw = async <Value>(work: (db: NonNullable<Awaited<ReturnType<typeof openOne>>['value']>) => Promise<Value>) => {
      const db = (await openOne(name, { onLost: () => {} })).value!;
      const value = await work(db);
      db.close();
      return value;
    };
    const lose = async () => {
      for (const { name: one } of await indexedDB.databases())
        if (one?.startsWith(name)) await new Promise((resolve) => Object.assign(indexedDB.deleteDatabase(one), { onsuccess: resolve }));
    };
    const files = async () => (await filesIn((await folderOf(name))!)).length;
    const look = async () => {
      const { value: store, problems } = await rig.openStore(name);
      const texts = rig.textsOf((await store!.records()).value);
      const { view } = (await store!.read('whole')).value!;
      const aside = (await store!.asides()).map(({ recordCount }) => recordCount);
      store!.close();
      const { deviceId } = store!;
      return {
        texts,
        deviceId,
        aside,
        seen: view.days.flatMap(({ notes }) => notes).length,
        told: problems.map(({ code, params }) => [code, params]),
      };
    };
    const write = async (text: string) => {
      const store = await rig.storeOf(name);
      await store.append([rig.note(text)]);
      store.close();
      return store.deviceId;
    };
    const tended = async () => {
      const store = await rig.storeOf(name);
      const told: unknown[] = [];
      store.onProblem(({ code, params }) => told.push([code, params]));
      await store.tend();
      store.close();
      return told;
    };

    const deviceId = await write('first');
    const tables = ['records', 'facts', 'outlines'] as const;
    const before = await raw((db) => Promise.all(tables.map(async (table) => [await db.getAllKeys(table), await db.getAll(table)] as const)));
    await write('second');
    // The database as it was before the second entry: a transaction that did not reach the disk.
    await raw(async (db) => {
      const transaction = db.transaction(tables, 'readwrite');
      for (const [t, table] of tables.entries()) {
        const store = transaction.objectStore(table);
        await store.clear();
        const [keys, values] = before[t]!;
        for (const [k, value] of values.entries()) await store.put(value as never, table === 'records' ? undefined : (keys[k] as never));
      }
      await transaction.done;
    });
    const cut = { lost: await look(), told: await tended(), back: await look(), again: await tended() };

    // As a program that keeps no journal would write.
    await raw(async (db) => {
      const [one] = await db.getAll('records');
      await db.add('records', { ...one!, id: rig.newId(), body: { text: 'third', sessionId: null } });
      await db.delete('facts', 'outlined');
    });
    await tended();
    for (let k = 0; k < 8; k++) await write(`more ${k}`);
    const many = await files();
    await tended();
    const few = await files();
    // Two pages that have read the diary: each has made its file ahead, and one of them writes nothing.
    const pages = await Promise.all([rig.storeOf(name), rig.storeOf(name)]);
    for (const store of pages) await store.read('whole');
    while ((await files()) < few + 2) await new Promise((resolve) => setTimeout(resolve, 20));
    // The journal has both on one line before the database refuses the second; what comes after it stays.
    const [known] = (await pages[0]!.ids()).value!;
    const refused = await pages[0]!.append([rig.note('refused'), { ...rig.note('same id'), id: known! }]);
    await pages[0]!.append([rig.note('then')]);
    for (const store of pages) store.close();
    await tended();
    const one = await files();
    const begun = (await filesIn((await folderOf(name))!)).find(({ recordCount }) => recordCount === null)!;
    const ending = (await (await begun.handle.getFile()).text()).slice(-3);
    await lose();
    const all = { refused: refused.problems.map(({ code }) => code), many, few, one, ending, back: await look(), again: await look() };

    const packer = rig.startPacker(name, () => {});
    await packer.check(new Blob([Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0))]));
    await packer.bringIn('whole');
    packer.close();
    await tended();
    const restored = await look();
    await lose();
    const restoredBack = await look();

    await removeDiary(name);
    const removed = { back: await look(), journals: (await journalNames()).filter((one) => one.startsWith(name)) };

    const { changePlayers, PLAYERS_NAME, readPlayers } = await import('../../src/store/players.ts');
    const ada = { id: 'ada', name: 'Ada', storeName: 'copied-ada', addedAtMs: 1, openedAtMs: 2, offAtMs: null };
    await changePlayers(() => [ada, { ...ada, id: 'ben', name: 'Ben' }]);
    await changePlayers(() => [ada]);
    await new Promise((resolve) => Object.assign(indexedDB.deleteDatabase(PLAYERS_NAME), { onsuccess: resolve }));
    const players = (await readPlayers()).value!.map(({ name: called }) => called);

    Reflect.deleteProperty(StorageManager.prototype, 'getDirectory');
    await write('without');
    return { deviceId, cut, all, restored, restoredBack, removed, players, without: (await look()).texts };
  }, FIXTURE);
  const { deviceId, cut, all, restored, restoredBack, removed } = found;
  expect(cut.lost).toMatchObject({ texts: ['first'], told: [] });
  expect(cut.told).toEqual([['store-brought-back', { recordCount: 1, isAll: false }]]);
  expect(cut.back).toEqual({ texts: ['first', 'second'], deviceId, aside: [], seen: 2, told: [] });
  expect(cut.again).toEqual([]);
  const texts = ['first', ...Array.from({ length: 8 }, (_, k) => `more ${k}`), 'second', 'then', 'third'];
  expect(all.refused).toEqual(['store-failed']);
  expect(all.many).toBeGreaterThan(8);
  expect([all.few, all.one, all.ending]).toEqual([1, 2, ']}\n']);
  expect(all.back).toEqual({ texts, deviceId, aside: [], seen: 12, told: [['store-brought-back', { recordCount: 12, isAll: true }]] });
  expect(all.again).toEqual({ ...all.back, told: [] });
  expect(restored).toMatchObject({ aside: [12], told: [] });
  const { told, ...same } = restoredBack;
  expect(told.map(([code]) => code)).toContain('store-brought-back');
  expect({ ...same, told: [] }).toEqual(restored);
  expect(removed).toMatchObject({ back: { texts: [], told: [] }, journals: [] });
  expect(found.players).toEqual(['Ada']);
  expect(found.without).toEqual(['without']);
});

test('a first entry that is written while another page looks whether the diary was lost is not told to be brought back', async ({ page }) => {
  await page.goto('/e2e/machine/rig.html');
  const found = await page.evaluate(async () => {
    const { rig } = window;
    const [{ openOne }, { madeFolderOf }, { bringBackAll }] = await Promise.all([
      import('../../src/store/database.ts'),
      import('../../src/store/journal/folder.ts'),
      import('../../src/store/journal/bringback.ts'),
    ]);
    const name = 'first-entry';
    const db = (await openOne(name, { onLost: () => {} })).value!;
    const store = await rig.storeOf(name);
    const folder = await madeFolderOf(name);
    const writtenMeanwhile = {
      async *values() {
        await store.append([rig.note('first')]);
        yield* folder.values();
      },
    } as unknown as FileSystemDirectoryHandle;
    const shares: number[] = [];
    const told = await bringBackAll(db, writtenMeanwhile, (share) => shares.push(share));
    const texts = rig.textsOf((await store.records()).value);
    store.close();
    db.close();
    return { told, shares, texts };
  });
  expect(found).toEqual({ told: [], shares: [], texts: ['first'] });
});
