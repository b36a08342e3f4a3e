/** The diary's store in a real browser: nothing acknowledged is lost, whatever happens to tab, disk or version. */
import { seededRandom } from '@evenhand/core/random';
import { expect, test } from '@playwright/test';

test.beforeEach(({ page }) => page.goto('/e2e/machine/rig.html'));

test('two tabs write at once, see each other, and no two records get one stamp', async ({ page, context }) => {
  const other = await context.newPage();
  await other.goto('/e2e/machine/rig.html');
  const heard = page.evaluate(async () => {
    const store = await window.rig.storeOf('two-tabs');
    return new Promise<readonly string[]>((resolve) => {
      store.onChange(async () => {
        const texts = window.rig.textsOf((await store.records()).value);
        if (texts.includes('from the other tab')) resolve(texts);
      });
      document.title = 'listening';
    });
  });
  await expect(page).toHaveTitle('listening');
  await other.evaluate(async () => (await window.rig.storeOf('two-tabs')).append([window.rig.note('from the other tab')]));
  expect(await heard).toEqual(['from the other tab']);

  const writeMany = async () => {
    const store = await window.rig.storeOf('two-tabs');
    await Promise.all(Array.from({ length: 20 }, (_, i) => store.append([window.rig.note(`note ${i}`)])));
  };
  await Promise.all([page.evaluate(writeMany), other.evaluate(writeMany)]);
  const records = await page.evaluate(async () => (await (await window.rig.storeOf('two-tabs')).records()).value!);
  expect(records).toHaveLength(41);
  expect(new Set(records.map(({ made }) => JSON.stringify(made))).size).toBe(41);
  expect(new Set(records.map(({ made }) => made.deviceId)).size).toBe(1);
});

test('a tab with a newer version takes over, and the older one says so', async ({ page, context }) => {
  const older = page.evaluate(async () => {
    const store = await window.rig.storeOf('newer-tab');
    await store.append([window.rig.note('written before')]);
    const problem = new Promise<string>((resolve) => store.onProblem(({ code }) => resolve(code)));
    document.title = 'open';
    const code = await problem;
    return { code, afterwards: (await store.append([window.rig.note('too late')])).problems.map((one) => one.code) };
  });
  await expect(page).toHaveTitle('open');
  const newer = await context.newPage();
  await newer.goto('/e2e/machine/rig.html');
  const texts = await newer.evaluate(async () => {
    const { STEPS } = await import('../../src/store/database.ts');
    const store = await window.rig.storeOf('newer-tab', [...STEPS, (db) => void db.createObjectStore('later' as never)]);
    return window.rig.textsOf((await store.records()).value);
  });
  expect(texts).toEqual(['written before']);
  expect(await older).toEqual({ code: 'store-closed', afterwards: ['store-closed'] });
  const again = await page.evaluate(async () => (await window.rig.openStore('newer-tab')).problems.map(({ code }) => code));
  expect(again).toEqual(['store-newer']);
});

test('an upgrade that fails half-way leaves everything as it was', async ({ page }) => {
  const result = await page.evaluate(async () => {
    const { STEPS } = await import('../../src/store/database.ts');
    const store = await window.rig.storeOf('failing-upgrade');
    await store.append([window.rig.note('before')]);
    store.close();
    const failed = await window.rig.openStore('failing-upgrade', {
      steps: [
        ...STEPS,
        async (_db, transaction) => {
          await transaction.objectStore('records').clear();
          throw new Error('half-way');
        },
      ],
    });
    const back = await window.rig.storeOf('failing-upgrade');
    return { problems: failed.problems, texts: window.rig.textsOf((await back.records()).value) };
  });
  expect(result).toEqual({ problems: [{ code: 'store-failed', severity: 'refused', params: { reason: 'half-way' } }], texts: ['before'] });
});

test('a database of every version there ever was opens with its line, its sound and what was kept aside, and is written on (says: databases.ts, frozen)', async ({
  page,
}) => {
  const read = await page.evaluate(async () => {
    const [{ STEPS }, { DATABASES, makeDatabase }] = await Promise.all([import('../../src/store/database.ts'), import('./databases.ts')]);
    const found: unknown[] = [];
    for (let version = 1; version <= DATABASES.length; version++) {
      await makeDatabase(`of-version-${version}`, version);
      const store = await window.rig.storeOf(`of-version-${version}`);
      await store.append([window.rig.note('written on')]);
      const { view } = (await store.read('whole')).value!;
      const { samples } = (await store.take('0c'.repeat(16))).value!;
      found.push({
        texts: view.days.flatMap(({ notes }) => notes.map(({ body }) => body.text)),
        samples: [samples.length, samples[0], samples.at(-1)],
        asides: (await store.asides()).length,
        deviceId: store.deviceId,
      });
      store.close();
    }
    return { found, versions: DATABASES.length, steps: STEPS.length };
  });
  expect(read.versions, 'a version without its database in databases.ts').toBe(read.steps);
  const same = { texts: ['written on', 'שלום 🥁 from an older version'], samples: [6000, 0.25, -0.5], deviceId: 'de'.repeat(16) };
  expect(read.found).toEqual([
    { ...same, asides: 0 },
    { ...same, asides: 1 },
    { ...same, asides: 1 },
  ]);
});

test('drafts are written all or none, and records from elsewhere once', async ({ page }) => {
  const result = await page.evaluate(async () => {
    const store = await window.rig.storeOf('all-or-none');
    const id = window.rig.newId();
    const first = await store.append([{ ...window.rig.note('first'), id }]);
    const doubled = await store.append([window.rig.note('not alone'), { ...window.rig.note('same id'), id }]);
    const foreign = { ...first.value![0]!, id: window.rig.newId(), v: 9, kind: 'dream', sky: 'blue' };
    const added = [await store.merge([foreign, first.value![0]!]), await store.merge([foreign])].map(({ value }) => value);
    const records = (await store.records()).value!;
    return {
      texts: window.rig.textsOf(records),
      doubled: doubled.problems.map(({ code }) => code),
      added,
      dream: records.find(({ v }) => v === 9),
      foreign,
    };
  });
  expect({ texts: result.texts, doubled: result.doubled, added: result.added }).toEqual({
    texts: ['first'],
    doubled: ['store-failed'],
    added: [1, 0],
  });
  expect(result.dream).toEqual(result.foreign);
});

test('a full disk is told; what was written before stays, and writing goes on when there is room', async ({ page, context }) => {
  const session = await context.newCDPSession(page);
  const origin = new URL(page.url()).origin;
  await session.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 3_000_000 });
  const codes = await page.evaluate(async () => {
    const store = await window.rig.storeOf('full');
    const first = await store.append([window.rig.note('before')]);
    // Random digits, for the browser counts what is left after compression.
    const digits = Array.from({ length: 100 }, () => crypto.getRandomValues(new Uint32Array(10_000)).join('')).join('');
    const second = await store.append([window.rig.note(digits)]);
    return [first, second].map(({ problems }) => problems.map(({ code }) => code));
  });
  expect(codes).toEqual([[], ['store-full']]);
  await session.send('Storage.overrideQuotaForOrigin', { origin });
  const texts = await page.evaluate(async () => {
    const store = await window.rig.storeOf('full');
    await store.append([window.rig.note('room again')]);
    return window.rig.textsOf((await store.records()).value);
  });
  expect(texts).toEqual(['before', 'room again']);
});

test('a browser that keeps nothing is told in words', async ({ page }) => {
  const codes = await page.evaluate(async () => {
    Object.defineProperty(window, 'indexedDB', { value: undefined });
    return (await window.rig.openStore('nothing')).problems.map(({ code }) => code);
  });
  expect(codes).toEqual(['store-unavailable']);
});

test('persistence is asked for after the first saved session, and the answer is kept', async ({ page }) => {
  const states = await page.evaluate(async () => {
    const store = await window.rig.storeOf('persistence');
    await store.append([window.rig.note('no session yet')]);
    const before = await store.persistence();
    const body = { stickingPointId: null, plannedMinutes: 3, endedAtMs: null, ended: null, reason: null };
    await store.append([{ kind: 'session', ...window.rig.writtenNow(), body }]);
    for (let state = before; ; state = await store.persistence()) if (state !== 'notAsked') return { before, after: state };
  });
  expect(states.before).toBe('notAsked');
  expect(['kept', 'mayBeCleared']).toContain(states.after);
});

test('a take that is over is packed at rest: half the room, heard the same to 2^-24, the same bytes in a backup, once though two tabs do it', async ({
  page,
}) => {
  const result = await page.evaluate(async () => {
    const { rig } = window;
    const { openDatabase } = await import('../../src/store/database.ts');
    const { packDiary } = await import('../../src/backup/pack.ts');
    const store = await rig.storeOf('packing');
    const { value: db } = await openDatabase('packing', { onLost: () => {} });
    const source = rig.handSource();
    const ear = rig.startEar({ storeName: 'packing' });
    ear.listenTo(source);
    const samples = Float32Array.from({ length: 44_100 }, (_, i) => (i % 9000 < 3000 ? Math.exp(-(i % 9000) / 800) * Math.sin(i / 7) * 0.7 : 0));
    const record = async (takeId: string): Promise<void> => {
      await ear.openTake(rig.takeMeta(takeId, 44_100));
      source.give(samples, 0);
      await ear.closeTake({ takeId, toFrame: samples.length, clicksSec: [] });
    };
    const backup = async (): Promise<string> => new Uint8Array(await (await packDiary(db!, 'sound', () => {})).file.arrayBuffer()).join();
    const bytesIn = async (table: 'chunks' | 'flacs') =>
      (await db!.getAll(table)).reduce((sum, row) => sum + ('flac' in row ? row.flac : row.samples).byteLength, 0);
    const takeId = rig.newId();
    await record(takeId);
    const before = { backup: await backup(), chunks: await bytesIn('chunks') };
    // One that is still being recorded stays as it is.
    const openId = rig.newId();
    await ear.openTake(rig.takeMeta(openId, 44_100));
    source.give(samples, 0);
    await rig.untilStored(store, openId, 22_050);
    // Two tabs at once: one of them packs it.
    const other = rig.startEar({ storeName: 'packing' });
    const packed = (await Promise.all([ear.packTake(), other.packTake()])).map(({ value }) => value?.takeId ?? null);
    other.close();
    await ear.dropTake(openId);
    const after = { backup: await backup(), chunks: await bytesIn('chunks'), flacs: await bytesIn('flacs') };
    const heard = (await store.take(takeId)).value!.samples;
    const furthest = Math.max(...heard.map((value, i) => Math.abs(value - samples[i]!)));
    ear.close();
    db!.close();
    const room = { before: before.chunks, after: after.chunks, flacs: after.flacs };
    return { packed, takeId, same: before.backup === after.backup, room, furthest, length: heard.length };
  });
  expect(result.packed.filter((id) => id === result.takeId)).toHaveLength(1);
  expect(result.length).toBe(44_100);
  // Half a step of 24 bits; says: docs/formats/backup.md.
  expect(result.furthest).toBeLessThanOrEqual(2 ** -24);
  expect(result.room).toMatchObject({ before: 4 * 44_100, after: 0 });
  expect(result.room.flacs).toBeLessThan(2 * 44_100);
  expect(result.same).toBe(true);
});

test('the outline beside the records is theirs after anything that can happen to a diary, in two tabs, and when it was lost', async ({
  page,
  context,
}) => {
  const other = await context.newPage();
  await other.goto('/e2e/machine/rig.html');
  const random = seededRandom(9);
  /** One thing that happens to the diary; `first` and `second` are chances. */
  const happen = async ([what, first, second]: readonly [string, number, number]) => {
    const { rig } = window;
    const place = window as unknown as { store?: Awaited<ReturnType<typeof rig.storeOf>> | undefined };
    place.store ??= await rig.storeOf('outlined');
    const { store } = place;
    const records = (await store.records()).value!;
    const target = records[Math.floor(first * records.length)];
    const edit = (field: string, value: unknown) =>
      store.append([{ kind: 'edit', ...rig.writtenNow(), body: { targetId: target!.id, targetV: 1, field, value } }]);
    const session = { stickingPointId: null, plannedMinutes: 3, endedAtMs: null, ended: null, reason: null } as const;
    const packer = () => rig.startPacker('outlined', () => {});
    const works: Record<string, () => Promise<unknown>> = {
      write: () => store.append([rig.note(`n${second}`), { kind: 'session', ...rig.writtenNow(), body: session }]),
      many: () => store.append(Array.from({ length: 450 }, (_, k) => rig.note(`${second} ${k}`))),
      correct: () => edit('body.text', `c${second}`),
      strike: () => edit('deleted', second > 0.3),
      // From another device: older than what is here, of a day before, and of a kind that nobody knows yet.
      merge: () =>
        store.merge(
          ['note', 'dream'].map((kind) => ({
            ...{ v: 1, id: rig.newId(), kind, ownerId: 'o', atMs: 5, zone: 'UTC', day: '2020-01-05', body: { text: `m${second}`, sessionId: null } },
            made: { wallMs: Math.floor(second * 1e6), counter: 0, deviceId: 'ff' },
          })),
        ),
      restore: async () => {
        const one = packer();
        const saved = (await one.save()).value!;
        await store.append([rig.note('goes again')]);
        await one.check(saved.file);
        await one.bringIn(second > 0.5 ? 'whole' : 'merge');
        one.close();
      },
      // As a program that knows no outline would: a record that it does not tell of.
      stranger: async () => {
        place.store = undefined;
        store.close();
        const { openDatabase } = await import('../../src/store/database.ts');
        const { value: db } = await openDatabase('outlined', { onLost: () => {} });
        await db!.add('records', { ...target!, id: rig.newId() });
        db!.close();
      },
    };
    await works[what]!();
  };
  const compared = () =>
    page.evaluate(async () => {
      const { canonicalJson, fold, storeOf } = window.rig;
      const store = await storeOf('outlined');
      const place = window as unknown as { reader?: typeof store };
      place.reader ??= await storeOf('outlined');
      const [read, records] = [await store.read('whole'), await store.records()];
      const kept = await place.reader.read('whole');
      store.close();
      const views = [read.value!.view, kept.value!.view, fold(records.value!)].map(canonicalJson);
      return { same: views[0] === views[2] && views[1] === views[2], whole: read.value!.whole, count: records.value!.length };
    });
  const all = ['write', 'many', 'correct', 'strike', 'merge', 'restore', 'stranger'];
  await page.evaluate(happen, ['write', 0, 0] as const);
  for (let k = 0; k < 10; k++) {
    const what = k < all.length ? all[k]! : all[Math.floor(random() * all.length)]!;
    await (random() < 0.5 ? page : other).evaluate(happen, [what, random(), random()] as const);
    expect({ what, ...(await compared()) }).toMatchObject({ what, same: true, whole: true });
  }
  expect((await compared()).count).toBeGreaterThan(460);
});
