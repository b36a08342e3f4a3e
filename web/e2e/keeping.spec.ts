/** The diary to one file and back, and the demo beside it. */
import { randomBytes } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { backupBytes, bytesSource, readBackupAtOnce } from '@evenhand/adapters/backup';
import { addEntry, EMPTY_ZIP, endZip } from '@evenhand/adapters/zip';
import { expect, type Page, test } from '@playwright/test';
import { databaseOf } from './database.ts';
import { lookAt } from './look.ts';
import { microphoneOf, plantedFile } from './planted.ts';
import { arrive, bring, keeping, record, saved, toDiary, typePhrase, writeLine } from './way.ts';

const FIXTURE = readFileSync(join(import.meta.dirname, '../../adapters/fixtures/backup-version-1.zip'));
const file = plantedFile('keeping.wav', { sticking: 'RLRLKK', perBeat: 4, tempoBpm: 120, cycles: 8, faults: [] });

/** About noon there now, on the day that it is in UTC: a file may say that its days begin later than these, and no test is to see another day for it. */
function zoneAtNoon(): string {
  const behind = new Date().getUTCHours() - 12;
  return `Etc/GMT${behind < 0 ? behind : `+${behind}`}`;
}

test.use({
  timezoneId: zoneAtNoon(),
  launchOptions: async ({ launchOptions }, use) => use({ ...launchOptions, args: [...(launchOptions.args ?? []), ...microphoneOf(file)] }),
});

/** The file that a button saves. */
async function downloaded(page: Page, name: string): Promise<Buffer> {
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name }).press('Enter');
  return readFileSync(await (await download).path());
}

/** What the diary page says of its days, in words. */
async function days(page: Page): Promise<string> {
  const regions = [page.getByRole('region', { name: /^Today/ }), page.getByRole('region', { name: 'Earlier days' })];
  const texts = await Promise.all(regions.map((region) => region.textContent()));
  return texts.join('').replaceAll('Saved.', '').replaceAll(/\s+/g, ' ');
}

test('a diary with a take goes to a file, comes back in another profile, lists the same and gives the same bytes', async ({ page, browser }) => {
  await arrive(page);
  await typePhrase(page, 'RLRLKK');
  await record(page, 6);
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('What was heard');
  await page.getByRole('button', { name: 'Lay out exercises' }).click();
  await toDiary(page);
  await writeLine(page, 'Second kick: heel up helped.');
  const backup = await saved(page);
  await expect(keeping(page)).toContainText('the sound of 1 take');
  await expect(keeping(page)).toContainText('Last saved to a file');

  const elsewhere = await (await browser.newContext({ baseURL: new URL(page.url()).origin })).newPage();
  await arrive(elsewhere);
  await toDiary(elsewhere);
  await bring(elsewhere, backup);
  await elsewhere.getByRole('button', { name: 'Put it in the place of what is here' }).click();
  await expect(keeping(elsewhere)).toContainText('The diary is as in the file');
  await elsewhere.getByRole('button', { name: 'Open it' }).click();
  await toDiary(elsewhere);
  expect(await days(elsewhere)).toBe(await days(page));
  expect((await saved(elsewhere)).equals(backup)).toBe(true);
  await elsewhere.context().close();
});

test('a file of version 1 comes back beside what is here; what was replaced is kept aside and comes back too', async ({ page }) => {
  await arrive(page);
  await toDiary(page);
  await writeLine(page, 'My own line.');
  await bring(page, FIXTURE);
  await page.getByRole('button', { name: 'Put it beside what is here' }).click();
  await page.getByRole('button', { name: 'Good' }).click();
  expect(await days(page)).toContain('My own line.');
  await expect(page.getByRole('region', { name: 'Earlier days' }).getByRole('listitem').first()).toBeVisible();
  await thinAndBack(page);

  await bring(page, FIXTURE);
  await page.getByRole('button', { name: 'Put it in the place of what is here' }).click();
  await expect(keeping(page)).toContainText('kept aside');
  await page.getByRole('button', { name: 'Open it' }).click();
  await expect(page.getByRole('button', { name: 'Type your phrase' })).toBeVisible();
  await page.evaluate(() => {
    location.hash = 'diary';
  });
  expect((await saved(page)).equals(FIXTURE)).toBe(true);
  // The diary of the file has not read the cautions.
  await arrive(page, '');
  await toDiary(page);
  expect(await days(page)).not.toContain('My own line.');
  await page.getByRole('button', { name: 'Bring it back' }).click();
  await page.getByRole('button', { name: 'Put it in the place of what is here' }).click();
  await page.getByRole('button', { name: 'Open it' }).click();
  await toDiary(page);
  expect(await days(page)).toContain('My own line.');
});

/** The one take of the file is old: its sound goes by the rules, out of the backup too, and comes back. */
async function thinAndBack(page: Page): Promise<void> {
  await page.getByRole('radio', { name: 'Let old sound go, as chosen here' }).check();
  await page.getByRole('spinbutton', { name: /^Keep every take for/ }).fill('1');
  await page.getByRole('combobox', { name: 'Of each exercise' }).selectOption('nothing more stays');
  await page.getByRole('button', { name: 'Show what would go' }).click();
  await expect(keeping(page)).toContainText(/The sound of 1 take would go, 24 kB, from 3 Feb 2026\.\s+No sound would stay/);
  await lookAt(page, 'thinning');
  await page.getByRole('button', { name: 'Let this sound go' }).click();
  await expect(page.getByRole('region', { name: 'Earlier days' })).toContainText(/The sound was let go on .+; the figures stay\./);
  expect((await readBackupAtOnce(bytesSource(await saved(page)))).value!.takeIds).toEqual([]);
  await lookAt(page, 'thinned');
  await page.getByRole('button', { name: 'Take it back' }).click();
  await expect(keeping(page)).toContainText('The sound is back.');
  expect((await readBackupAtOnce(bytesSource(await saved(page)))).value!.takeIds).toHaveLength(1);
}

test('practice without the tool, a correction with its history, a table out and in with its wrong line, found again by a word; all of it back when the browser loses its database', async ({
  page,
}) => {
  await arrive(page);
  await toDiary(page);
  await page.getByText('Practice without Evenhand', { exact: true }).click();
  await page.getByRole('spinbutton', { name: 'Minutes' }).fill('25');
  await page.getByRole('textbox', { name: 'A line about it' }).fill('=pad, with Zoë');
  await page.getByRole('combobox', { name: 'How it felt' }).last().selectOption('hard work');
  await page.getByRole('button', { name: 'Write it down' }).click();
  const today = page.getByRole('region', { name: /^Today/ });
  await expect(today).toContainText('Practised 25 min');
  await expect(today).toContainText('How it felt: hard work.');
  await page.getByRole('button', { name: 'Correct “=pad, with Zoë”' }).click();
  await page.getByRole('textbox', { name: /^Correct/ }).fill('=pad, with Zoë and click');
  await page.getByRole('button', { name: 'Keep the correction' }).click();
  await page.getByRole('button', { name: /^Correct “=pad, with Zoë and/ }).click();
  await expect(today.getByRole('listitem').filter({ hasText: '“=pad, with Zoë”' })).toBeVisible();
  await lookAt(page, 'diary-written');
  const table = await downloaded(page, 'Save a table (CSV)');
  expect(table.toString()).toContain(`"'=pad, with Zoë and click",hard`);
  const more = Buffer.concat([table, Buffer.from('2026-01-05,12,old pad work\r\n2026-01-32,5,\r\n')]);
  await page.locator('input[accept=".csv,text/csv"]').setInputFiles({ name: 'old.csv', mimeType: 'text/csv', buffer: more });
  await expect(page.getByText('1 session, 0 blocks and 1 note would come in. 2 rows are here already.')).toBeVisible();
  await expect(page.getByText('Line 5: “2026-01-32” is no day.')).toBeVisible();
  await page.getByRole('button', { name: 'Bring it in' }).click();
  await expect(page.getByText('2 entries came in.')).toBeVisible();
  await page.getByRole('searchbox', { name: 'Find days' }).fill('PAD old');
  await expect(page.getByText('1 day found.')).toBeVisible();
  await expect(page.getByRole('region', { name: 'Earlier days' })).toContainText('old pad work');
  await loseDatabase(page);
  await expect(page.getByText(/^The browser had lost the diary that it kept here\. \d+ entries were brought back/)).toBeVisible();
  await toDiary(page);
  await expect(page.getByRole('region', { name: 'Earlier days' })).toContainText('old pad work');
  await page.reload();
  await expect(page.getByRole('region', { name: 'Earlier days' })).toContainText('old pad work');
  await expect(page.getByText('brought back')).toBeHidden();
});

/** What a browser did that was killed: the diary's database is gone, and the app is opened. */
async function loseDatabase(page: Page): Promise<void> {
  await page.goto('manifest.webmanifest');
  await page.evaluate(() => new Promise((resolve) => Object.assign(indexedDB.deleteDatabase('evenhand'), { onsuccess: resolve })));
  await page.goto('');
}

test('where the browser does not promise to keep the diary, saving it is called to mind until it is done', async ({ page }) => {
  await page.addInitScript(() => {
    Reflect.deleteProperty(StorageManager.prototype, 'persisted');
  });
  await arrive(page);
  await toDiary(page);
  await expect(page.getByText('This browser may clear the diary')).toBeVisible();
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save it now' }).click();
  await download;
  await expect(keeping(page)).toContainText('Put it somewhere that is not this device.');
  await expect(page.getByText('This browser may clear the diary')).toBeHidden();
});

/** A backup of a version to come: its manifest stands last and names its format, as in every version. */
function newer(): Buffer {
  const { header, zip } = addEntry(EMPTY_ZIP, 'manifest.json', Buffer.from('{"format":"evenhand-backup/2"}\n'));
  return Buffer.concat([header, Buffer.from('{"format":"evenhand-backup/2"}\n'), ...endZip(zip)]);
}

const flipped = (): Buffer => {
  const bytes = Buffer.from(FIXTURE);
  bytes[9000]! ^= 1;
  return bytes;
};

test('a flipped bit, a cut file, a newer version and another file are refused in words, and the present diary stands', async ({ page }) => {
  await arrive(page);
  await toDiary(page);
  await writeLine(page, 'Still here.');
  const before = await days(page);
  for (const [bytes, words] of [
    [flipped(), /damaged|changed/],
    [FIXTURE.subarray(0, 12_000), /ends early/],
    [newer(), /newer version/],
    [readFileSync(file), /not a backup/],
    [Buffer.alloc(0), /not a backup|ends early/],
  ] as const) {
    await bring(page, bytes);
    await expect(keeping(page).getByRole('alert')).toContainText(words);
    await expect(keeping(page).getByRole('alert')).toContainText('The present diary was not touched.');
  }
  await page.reload();
  await toDiary(page);
  expect(await days(page)).toBe(before);
});

/** The diary of version 1 with a take of ten megabytes, which no browser can press together. */
async function withBigTake(): Promise<Buffer> {
  const { records, takeIds } = (await readBackupAtOnce(bytesSource(FIXTURE))).value!;
  return Buffer.from(await backupBytes(records, [{ takeId: takeIds[0]!, flac: randomBytes(10_000_000) }]));
}

test('a disk that fills up while a file is brought back: told in words, and the diary is as it was', async ({ page, context, baseURL }) => {
  const devtools = await context.newCDPSession(page);
  // From the start: Chromium remembers for a while how much room there was.
  await devtools.send('Storage.overrideQuotaForOrigin', { origin: new URL(baseURL!).origin, quotaSize: 6_000_000 });
  await arrive(page);
  await toDiary(page);
  await writeLine(page, 'Before the disk was full.');
  const before = await days(page);
  await bring(page, await withBigTake());
  await page.getByRole('button', { name: 'Put it in the place of what is here' }).click();
  await expect(keeping(page).getByRole('alert')).toContainText('full');
  expect(await days(page)).toBe(before);
  await page.reload();
  await toDiary(page);
  expect(await days(page)).toBe(before);
  await expect(keeping(page)).not.toContainText('Kept aside');
});

/** All that the drummer's own database holds, as text. */
const ownDatabase = async (page: Page): Promise<string> => JSON.stringify([await databaseOf(page), await page.evaluate(() => ({ ...localStorage }))]);

test('from the first visit to a running session of the demo in a few clicks and a minute, and no trace of it in the drummer’s own diary', async ({
  page,
}) => {
  await page.goto('./');
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  const before = await ownDatabase(page);
  const began = Date.now();
  await page.getByRole('button', { name: /five weeks/ }).click();
  await page.getByRole('button', { name: 'Start', exact: true }).click({ timeout: 45_000 });
  await expect(page.getByText(/Block 1 of/)).toBeVisible({ timeout: 20_000 });
  expect(Date.now() - began).toBeLessThan(60_000);
  await page.mouse.move(200, 300);
  await page.getByRole('button', { name: 'Stop', exact: true }).click();
  await page.getByRole('button', { name: 'To the diary' }).click();
  await writeLine(page, 'Written in the demo.');
  await expect(page.getByText('This is the demo')).toBeVisible();
  await expect(page.getByRole('region', { name: 'Earlier days' }).getByRole('heading', { level: 3 })).toHaveCount(10);
  await page.getByRole('button', { name: 'Settings' }).click();
  await page.getByRole('button', { name: 'Begin the demo anew' }).click();
  await expect(page.getByText('Written in the demo.')).toBeHidden();
  await expect(page.getByRole('region', { name: 'Earlier days' }).getByRole('heading', { level: 3 })).toHaveCount(10, { timeout: 45_000 });
  expect(await page.getByText('Written in the demo.').count()).toBe(0);
  await page.getByRole('link', { name: 'To my own diary' }).click();
  await expect(page.getByRole('button', { name: /Type your phrase/ })).toBeVisible();
  expect(await ownDatabase(page)).toBe(before);
});

test('first visit, settings, keeping and demo by the keyboard alone, and nothing for axe to find', async ({ page }) => {
  test.setTimeout(180_000);
  await page.goto('./');
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  await lookAt(page, 'first-visit');
  await page.getByRole('button', { name: 'Type your phrase' }).press('Enter');
  await page.getByRole('button', { name: 'Settings' }).press('Enter');
  await expect(page.getByRole('heading', { name: 'Settings' })).toBeFocused();
  await page.getByRole('radio', { name: 'A kit', exact: true }).press('ArrowUp');
  await expect(page.getByRole('radio', { name: 'My own list' })).toBeChecked();
  await expect(page.getByText('Kept in the diary.')).toBeVisible();
  await lookAt(page, 'settings');
  await page.keyboard.press('Escape');
  await expect(page.getByRole('button', { name: 'Settings' })).toBeFocused();
  await page.getByRole('link', { name: 'Diary', exact: true }).press('Enter');
  await lookAt(page, 'keeping');
  await bring(page, flipped());
  await expect(keeping(page).getByRole('alert')).toBeVisible();
  await lookAt(page, 'keeping-refused');
  await bring(page, FIXTURE);
  await expect(page.getByRole('heading', { name: 'Bring this file back?' })).toBeFocused();
  await lookAt(page, 'keeping-question');
  await page.getByRole('button', { name: 'Put it in the place of what is here' }).press('Enter');
  await expect(keeping(page)).toContainText('kept aside');
  await lookAt(page, 'keeping-brought');
  await page.goto('./?demo');
  await expect(page.getByRole('button', { name: 'To today’s session' })).toBeVisible({ timeout: 45_000 });
  await lookAt(page, 'demo-welcome');
  await page.getByRole('button', { name: 'To today’s session' }).press('Enter');
  await page.getByRole('link', { name: 'Diary', exact: true }).press('Enter');
  await expect(page.getByRole('region', { name: 'Earlier days' }).getByRole('heading', { level: 3 })).toHaveCount(10);
  await lookAt(page, 'demo-diary');
  await page.getByRole('button', { name: 'What changed over the days' }).press('Enter');
  await page.getByRole('button', { name: 'Play', exact: true }).press('Enter');
  await expect(page.getByText(/laid alongside by \d\d strokes/)).toBeVisible({ timeout: 45_000 });
  await page.getByText('Show it', { exact: true }).click();
  await lookAt(page, 'then-now');
  // A PNG says its size in its first chunk: 1080 by 1080.
  expect([...(await downloaded(page, 'Save a square picture')).subarray(16, 24)]).toEqual([0, 0, 4, 56, 0, 0, 4, 56]);
  const clip = await downloaded(page, 'Save the sound (WAV)');
  expect([clip.toString('latin1', 0, 4), clip.readUInt16LE(22)]).toEqual(['RIFF', 2]);
  // What is heard slowed is saved slowed: samples of a second more for each three.
  await page.getByLabel('Speed').selectOption({ label: 'three quarters' });
  const slowed = await downloaded(page, 'Save the sound (WAV)');
  expect(slowed.readUInt32LE(40) / clip.readUInt32LE(40)).toBeCloseTo(4 / 3, 4);
  expect((await downloaded(page, 'Save one page with the sound (HTML)')).toString()).toContain('<audio controls src="data:audio/wav');
  expect((await downloaded(page, 'Save one page to print (PDF)')).toString('latin1', 0, 8)).toBe('%PDF-1.7');
  const weeks = page.getByRole('region', { name: 'The weeks of this plan, on one sheet' });
  await expect(weeks.getByText(/^Practised .+ days?.*\.$/)).toBeVisible();
  expect((await downloaded(page, 'Save the page (PDF)')).toString('latin1', 0, 8)).toBe('%PDF-1.7');
  await expect(weeks.getByRole('status')).not.toBeEmpty();
  await lookAt(page, 'weeks-page', '[aria-labelledby="weeks-page"]');
});

test('what is set holds on every screen and after the page is loaded again, for this player alone: somebody else on the device has a diary of their own (issue 8)', async ({
  page,
}) => {
  test.setTimeout(120_000);
  await arrive(page);
  await page.getByRole('button', { name: 'Settings' }).click();
  await page.getByRole('radio', { name: /semiquavers/ }).check();
  await page.getByRole('radio', { name: 'A pad', exact: true }).check();
  await expect(page.getByText('Kept in the diary.')).toBeVisible();
  await page.keyboard.press('Escape');
  await page.reload();
  await typePhrase(page, 'RLRLKK');
  await expect(page.getByLabel('Played as')).toContainText('semiquavers');
  await expect(page.getByRole('combobox', { name: /right hand/ })).toHaveValue('pad');
  await expect(page.getByRole('combobox', { name: /kick foot/ })).toHaveValue('kick');
  await secondPlayer(page);
});

/** The players as they are listed, and the one panel with all that is done about them. */
const players = (page: Page) => page.getByRole('region', { name: 'Players on this device' });

/** Goes on from a diary with settings: somebody else comes, has a diary of their own, is called otherwise, goes, and comes back; by keyboard. */
async function secondPlayer(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Settings' }).press('Enter');
  await page.getByRole('button', { name: 'Players on this device' }).press('Enter');
  await expect(page.getByRole('heading', { name: 'Players on this device' })).toBeFocused();
  await page.getByLabel('Whose is the diary that is here?').fill('Ada');
  await page.getByLabel('Name or pseudonym of the new player').fill('ada');
  await page.keyboard.press('Enter');
  await expect(page.getByText('Somebody here is called that already.')).toBeVisible();
  await expect(page.getByLabel('Name or pseudonym of the new player')).toBeFocused();
  await page.keyboard.type(' B.');
  await page.keyboard.press('Enter');
  await expect(players(page)).toContainText('ada B. has a diary here now.');
  await lookAt(page, 'players-two');
  await toDiary(page);
  await writeLine(page, 'Written by Ada.');
  await expect(keeping(page)).toContainText('This is about Ada’s diary alone.');
  await saved(page, /^evenhand-Ada-\d{4}-\d\d-\d\d\.zip$/);

  // While a take is recorded nobody changes over.
  await page.getByRole('link', { name: 'Phrase' }).click();
  await page.getByRole('button', { name: 'Record', exact: true }).click();
  await expect(page.getByRole('button', { name: 'Throw it away' })).toBeVisible();
  await page.getByRole('button', { name: 'Open ada B.’s diary' }).press('Enter');
  await expect(players(page)).toContainText('A take is being recorded for Ada’s diary. Stop it first.');
  await page.getByRole('button', { name: 'Throw it away' }).click();
  await expect(players(page)).not.toContainText('A take is being recorded');
  await page.keyboard.press('Escape');

  // Two touches; nothing of the first is there, and another page goes on with the first.
  const other = await page.context().newPage();
  await page.getByRole('button', { name: 'Ada’s diary' }).press('Enter');
  await page.getByRole('button', { name: 'Open ada B.’s diary' }).press('Enter');
  await page.getByRole('button', { name: 'Type your phrase' }).click();
  await expect(page.getByRole('button', { name: 'ada B.’s diary' })).toBeVisible();
  await expect(page.getByLabel('Played as')).not.toContainText('semiquavers');
  await other.goto('./#diary');
  await expect(other.getByRole('button', { name: 'ada B.’s diary' })).toBeVisible();
  await other.getByRole('button', { name: 'ada B.’s diary' }).click();
  await other.getByRole('button', { name: 'Open Ada’s diary' }).click();
  // A link that is pressed before the other diary is open goes with the page that goes.
  await expect(other.getByRole('button', { name: 'Ada’s diary: change the player' })).toBeVisible();
  await toDiary(other);
  await toDiary(page);
  await writeLine(page, 'Written by the other.');
  await expect(other.getByText('Written by Ada.')).toBeVisible();
  await other.reload();
  await expect(other.getByText('Written by Ada.')).toBeVisible();
  await expect(other.getByText('Written by the other.')).toBeHidden();
  await page.reload();
  await expect(page.getByText('Written by the other.')).toBeVisible();
  await expect(page.getByText('Written by Ada.')).toBeHidden();

  // Another name, heard of in both pages; then off, only after a file was offered, and back.
  await page.getByRole('button', { name: 'ada B.’s diary' }).press('Enter');
  await page.getByLabel('Another name').fill('Ben');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: 'Ben’s diary', exact: false }).first()).toBeVisible();
  await other.getByRole('button', { name: 'Ada’s diary' }).click();
  await expect(other.getByRole('button', { name: 'Open Ben’s diary' })).toBeVisible();
  await other.close();
  await page.getByRole('button', { name: 'Take Ben off this device' }).press('Enter');
  await expect(page.getByRole('heading', { name: 'Take Ben’s diary off this device?' })).toBeFocused();
  await lookAt(page, 'players-off');
  await page.getByRole('button', { name: 'Take it off without a file' }).press('Enter');
  await expect(players(page)).toContainText('Ben’s diary can be brought back until');
  await toDiary(page);
  await expect(page.getByText('Written by Ada.')).toBeVisible();
  await page.getByRole('button', { name: 'Bring Ben’s diary back' }).press('Enter');
  await page.getByRole('button', { name: 'Open Ben’s diary' }).press('Enter');
  // A link that is pressed before the other diary is open goes with the page that goes.
  await expect(page.getByRole('button', { name: 'Ben’s diary: change the player' })).toBeVisible();
  await toDiary(page);
  await expect(page.getByText('Written by the other.')).toBeVisible();

  // Taken off and two weeks later: the diary is gone from the device with the next page that opens.
  await page.getByRole('button', { name: 'Ben’s diary: change the player' }).press('Enter');
  await page.getByRole('button', { name: 'Take Ben off this device' }).press('Enter');
  await page.getByRole('button', { name: 'Take it off without a file' }).press('Enter');
  await expect(players(page)).toContainText('Ben’s diary can be brought back until');
  await page.waitForURL(/players/);
  expect(await diaries(page)).toHaveLength(2);
  await page.clock.setFixedTime(Date.now() + 14 * 86_400_000);
  await page.goto('./');
  await expect.poll(() => diaries(page)).toEqual(['evenhand']);
}

/** The databases of diaries that are on the device. */
const diaries = (page: Page): Promise<string[]> =>
  page.evaluate(async () =>
    (await indexedDB.databases()).map(({ name }) => name!).filter((name) => !['evenhand-demo', 'evenhand-players'].includes(name)),
  );
