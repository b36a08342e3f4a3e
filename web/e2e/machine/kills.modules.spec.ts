/**
 * kill -9 of the whole browser at random moments of saving, upgrading, backing up, restoring and letting sound go, and once of six the browser's database is
 * gone or broken afterwards: what was acknowledged is there, and nothing is half.
 * Six in `npm test`; `EVENHAND_KILLS=50 npm run e2e -- -g "at random moments"` for more.
 */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { seededRandom } from '@evenhand/core/random';
import { expect, type Page, test } from '@playwright/test';
import { killAll, startChromium } from './chromium.ts';

const KILLS = Number(process.env.EVENHAND_KILLS ?? 6);
/** Kills fall into so many milliseconds after the work began. Assumption: each of the works takes about as long on such a small diary. */
const WITHIN_MS = 250;
const FIXTURE = readFileSync(join(import.meta.dirname, '../../../adapters/fixtures/backup-version-1.zip')).toString('base64');
const WORKS = ['save', 'restore', 'backup', 'upgrade', 'thin', 'lose'] as const;

type Work = (typeof WORKS)[number];

/** Whoever the diary that is written all the time says it is. */
const writers = new Set<string>();

test.afterEach(killAll);

/** Begins a work in the page that goes on until the browser is killed; every entry that the store acknowledged is told at once. */
async function begin(page: Page, work: Work, kill: number): Promise<void> {
  await page.evaluate(
    ([what, number, base64]) => {
      const say = (text: string) => (window as unknown as { acknowledged: (text: string) => void }).acknowledged(text);
      const pairs = async () => {
        const store = await window.rig.storeOf('killed');
        for (let k = 0; ; k++) {
          const { value } = await store.append([window.rig.note(`${number}-${k} first`), window.rig.note(`${number}-${k} second`)]);
          if (value) say(`${number}-${k}`);
        }
      };
      const works: Record<string, () => Promise<unknown>> = {
        save: pairs,
        lose: pairs,
        backup: async () => {
          void pairs();
          const packer = window.rig.startPacker('killed', () => {});
          for (;;) await packer.save();
        },
        restore: async () => {
          const name = `restored-${number}`;
          const store = await window.rig.storeOf(name);
          const { value } = await store.append([window.rig.note('was here')]);
          if (value) say(name);
          const packer = window.rig.startPacker(name, () => {});
          const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
          await packer.check(new Blob([bytes]));
          await packer.bringIn('whole');
        },
        upgrade: async () => {
          const name = `upgraded-${number}`;
          const before = await window.rig.storeOf(name);
          const { value } = await before.append([window.rig.note('was here')]);
          if (value) say(name);
          before.close();
          const { STEPS } = await import('../../src/store/database.ts');
          const rewrite: (typeof STEPS)[number] = async (_db, transaction) => {
            const records = transaction.objectStore('records');
            const all = await records.getAll();
            for (let k = 0; k < 400; k++) for (const record of all) await records.put({ ...record, id: k.toString(16).padStart(32, '0') });
          };
          await window.rig.storeOf(name, [...STEPS, rewrite]);
        },
      };
      works.thin = async () => {
        const name = `thinned-${number}`;
        const store = await window.rig.storeOf(name);
        const takeIds = await window.rig.putSounds(store, 60);
        say(name);
        for (let k = 0; k < 60; k += 3) {
          const of = takeIds.slice(k, k + 3);
          const { value } = await store.append([{ kind: 'thinning', ...window.rig.writtenNow(), body: { takeIds: of, byteCount: 1 } }]);
          if (value) say(`${name} record ${of[0]}`);
          if ((await store.freeSound(of)).value) say(`${name} free ${of[0]}`);
        }
      };
      void works[what]!();
    },
    [work, kill, FIXTURE] as const,
  );
}

/** What lies in the databases after a kill: texts of notes, and how many records, takes and diaries kept aside. */
const found = (page: Page, name: string, upgraded = false) =>
  page.evaluate(
    async ([database, newer]) => {
      const { STEPS } = await import('../../src/store/database.ts');
      const known = (await indexedDB.databases()).find((one) => one.name === database);
      const store = await window.rig.storeOf(database, newer && known?.version === STEPS.length + 1 ? [...STEPS, () => {}] : undefined);
      const records = (await store.records()).value!;
      const asides = await store.asides();
      store.close();
      const { deviceId } = store;
      return { deviceId, texts: window.rig.textsOf(records), count: records.length, ids: records.map(({ id }) => id), asides: asides.length };
    },
    [name, upgraded] as const,
  );

const toldOnOpening = (page: Page, name: string): Promise<readonly string[]> =>
  page.evaluate(async (database) => {
    const { value, problems } = await window.rig.openStore(database);
    value?.close();
    return problems.map(({ code }) => code);
  }, name);

test('kill -9 at random moments of saving, restoring, backing up, upgrading and letting sound go, and the database lost: all that was acknowledged, nothing half', async ({
  baseURL,
}) => {
  // On a machine that does much else a start of the browser takes its time.
  test.setTimeout(60_000 + KILLS * 60_000);
  const profile = mkdtempSync(join(tmpdir(), 'evenhand-kills-'));
  const random = seededRandom(KILLS);
  const acknowledged = new Set<string>();
  const done: { readonly work: Work; readonly kill: number }[] = [];
  for (let kill = 0; kill <= KILLS; kill++) {
    const chromium = await startChromium(profile);
    const page = await chromium.browser.contexts()[0]!.newPage();
    await page.exposeFunction('acknowledged', (text: string) => void acknowledged.add(text));
    await page.goto(`${baseURL}e2e/machine/rig.html`);
    await page.waitForFunction(() => 'rig' in window);
    for (const { work, kill: before } of done.slice(-1)) await check(page, work, before, acknowledged);
    if (kill < KILLS) {
      const work = WORKS[kill % WORKS.length]!;
      await begin(page, work, kill);
      // The works on a database of their own say so once it stands; before that there is nothing to lose.
      await expect.poll(() => [...acknowledged].some((name) => name.startsWith(`${kill}-`) || name.endsWith(`ed-${kill}`))).toBe(true);
      await new Promise((resolve) => setTimeout(resolve, WITHIN_MS * random()));
      done.push({ work, kill });
    }
    await chromium.kill();
    if (done.at(-1)?.work === 'lose' && kill < KILLS) loseDatabase(profile, kill);
  }
  rmSync(profile, { recursive: true, force: true });
  expect(done).toHaveLength(KILLS);
});

/** What a disk or a browser can do to all databases of the site at once: remove them, or leave the list of their files in pieces. */
function loseDatabase(profile: string, kill: number): void {
  const all = join(profile, 'Default', 'IndexedDB');
  const [folder] = readdirSync(all).filter((name) => name.endsWith('.leveldb'));
  if (Math.floor(kill / WORKS.length) % 2 === 0) {
    rmSync(all, { recursive: true });
    return;
  }
  for (const name of readdirSync(join(all, folder!))) if (/^(CURRENT|MANIFEST)/.test(name)) writeFileSync(join(all, folder!, name), 'in pieces');
}

async function check(page: Page, work: Work, kill: number, acknowledged: ReadonlySet<string>): Promise<void> {
  if (work === 'restore') {
    const { texts, count, asides } = await found(page, `restored-${kill}`);
    // The diary that was there, or that of the file with the other kept aside.
    expect([
      [1, 0],
      [13, 1],
    ]).toContainEqual([count, asides]);
    if (count === 1) expect(texts).toEqual(['was here']);
    return;
  }
  if (work === 'thin') {
    const { thinnings, sounds } = await page.evaluate((name) => window.rig.thinnedIn(name), `thinned-${kill}`);
    const told = (what: string) =>
      [...acknowledged].filter((text) => text.startsWith(`thinned-${kill} ${what} `)).map((text) => text.split(' ').at(-1)!);
    for (const first of told('record')) expect(thinnings.map(([one]) => one)).toContain(first);
    for (const first of told('free')) expect(sounds).not.toContain(first);
    // Of one thinning all sound is here or none; what was not let go is all here.
    for (const takeIds of thinnings) expect([0, 3]).toContain(takeIds.filter((takeId) => sounds.includes(takeId)).length);
    expect(sounds.length).toBeGreaterThanOrEqual(60 - 3 * thinnings.length);
    return;
  }
  if (work === 'upgrade') {
    const { texts, count } = await found(page, `upgraded-${kill}`, true);
    expect([1, 401]).toContain(count);
    expect(new Set(texts)).toEqual(new Set(['was here']));
    return;
  }
  if (work === 'lose') expect(await toldOnOpening(page, 'killed')).toEqual(['store-brought-back']);
  const { texts, deviceId } = await found(page, 'killed');
  writers.add(deviceId);
  // The identity is made with the database: another one means that it was lost and what came back is not the same diary.
  expect(writers.size, 'another writer').toBe(1);
  const there = new Set(texts);
  const lost = [...acknowledged].filter((name) => /^\d+-\d+$/.test(name) && !there.has(`${name} first`));
  expect(lost, 'acknowledged, and not there').toEqual([]);
  const half = texts.filter((text) => !there.has(text.endsWith('first') ? text.replace('first', 'second') : text.replace('second', 'first')));
  expect(half, 'half of what was written together').toEqual([]);
}
