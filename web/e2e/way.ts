/** The steps of a drummer through the screens, by what is written on them. */
import { readFileSync } from 'node:fs';
import { expect, type Page } from '@playwright/test';

/** First visit: past the cautions, to the phrase. */
export async function arrive(page: Page, address = './'): Promise<void> {
  await page.goto(address);
  await page.getByRole('button', { name: 'Type your phrase' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Which phrase will not hold?');
}

export async function typePhrase(page: Page, sticking: string): Promise<void> {
  await page.getByLabel('Sticking, one cycle').fill(sticking);
}

/** Records for as long as the file of the fake microphone lasts, without a click. */
export async function record(page: Page, seconds: number): Promise<void> {
  await page.getByLabel(/With a click/).uncheck();
  await page.getByRole('button', { name: 'Record', exact: true }).click();
  await expect(page.getByText('Listening', { exact: true })).toBeVisible();
  // Time must pass here: what is waited for is the sound itself.
  await page.waitForTimeout(seconds * 1000);
  await page.getByRole('button', { name: 'Stop and hear it' }).click();
}

export async function openFile(page: Page, file: { readonly name: string; readonly bytes: Buffer }): Promise<void> {
  await page.locator('input[type=file]').setInputFiles({ name: file.name, mimeType: 'audio/wav', buffer: file.bytes });
}

/** From the shelf to the session, every block as long as asked. */
export async function toSession(page: Page, minutes: number): Promise<void> {
  await page.getByRole('button', { name: 'To the session' }).click();
  const fields = page.getByRole('spinbutton', { name: /Minutes for/ });
  for (const field of await fields.all()) {
    await field.fill(String(minutes));
    await field.blur();
  }
}

/** The diary that is here is Ada's from now on, and Ben has one beside it. */
export async function besideBen(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Settings' }).click();
  await page.getByRole('button', { name: 'Players on this device' }).click();
  await page.getByLabel('Whose is the diary that is here?').fill('Ada');
  await page.getByLabel('Name or pseudonym of the new player').fill('Ben');
  await page.getByRole('button', { name: 'Begin a diary for them' }).press('Enter');
}

/** The part of the diary page that saves and brings back. */
export const keeping = (page: Page) => page.getByRole('region', { name: 'Keep it safe' });

export async function toDiary(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'Diary', exact: true }).click();
  await expect(keeping(page)).toBeVisible();
}

export async function writeLine(page: Page, line: string): Promise<void> {
  await page.getByLabel('A line about today').fill(line);
  await page.getByRole('button', { name: 'Save the line' }).click();
  await expect(page.getByText('Saved.', { exact: true })).toBeVisible();
}

/** The one file of the diary, as the browser puts it down. @param name what the file is called; with several players it says whose it is. */
export async function saved(page: Page, name = /^evenhand-\d{4}-\d\d-\d\d\.zip$/): Promise<Buffer> {
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save everything to one file' }).click();
  const done = await download;
  expect(done.suggestedFilename()).toMatch(name);
  return readFileSync((await done.path())!);
}

export const bring = (page: Page, buffer: Buffer) =>
  page.getByLabel('Bring a file back').setInputFiles({ name: 'backup.zip', mimeType: 'application/zip', buffer });

/** What the walk needs besides a page. */
export interface Walk {
  /** A recording to open, and one in which nothing is heard. */
  readonly recording: Buffer;
  readonly silence: Buffer;
  /** Looks at the page as it stands; names say where the walk is. */
  see(name: string): Promise<void>;
}

/** All screens in all their states, in the order in which a drummer meets them. */
export async function walk(page: Page, { recording, silence, see }: Walk): Promise<void> {
  await page.goto('./');
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  await see('welcome');
  await arrive(page);
  await see('phrase-empty');
  await typePhrase(page, 'RllRKK');
  await see('phrase-problem');
  await typePhrase(page, 'RLRLKK');
  await openFile(page, { name: 'silent.wav', bytes: silence });
  await expect(page.getByRole('alert')).toBeVisible();
  await see('phrase-silent-file');
  await page.getByRole('button', { name: 'Record', exact: true }).click();
  await expect(page.getByRole('button', { name: 'Throw it away' })).toBeVisible();
  await see('phrase-recording');
  await page.getByRole('button', { name: 'Throw it away' }).click();
  await page.getByRole('link', { name: 'Session' }).click();
  await see('session-empty');
  await page.getByRole('link', { name: 'Diary' }).click();
  await see('diary-empty');
  await page.getByRole('link', { name: 'Phrase' }).click();
  await openFile(page, { name: 'phrase.wav', bytes: recording });
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('What was heard');
  await see('heard');
  await page.getByText('The figures behind it').click();
  await expect(page.getByRole('cell', { name: 'not a kick', exact: true }).first()).toBeVisible();
  await see('heard-figures');
  await page.getByRole('button', { name: 'Lay out exercises' }).click();
  await page.locator('article').first().scrollIntoViewIfNeeded();
  await expect(page.locator('main svg').first()).toBeVisible();
  await see('shelf');
  await toSession(page, 0.4);
  await see('session-before');
  await walkSession(page, see);
}

async function walkSession(page: Page, see: Walk['see']): Promise<void> {
  await page.getByRole('button', { name: 'Start', exact: true }).click();
  await expect(page.getByText('Get ready')).toBeVisible();
  await see('session-ready');
  await expect(page.getByText('Count-in')).toBeVisible();
  await see('session-count-in');
  await expect(page.locator('rect').first()).toBeVisible();
  await see('session-playing');
  // While music is read the buttons are out of sight; the keyboard brings them.
  const pause = page.getByRole('button', { name: 'Pause' });
  for (let stop = 0; stop < 4 && !(await pause.evaluate((button) => button.matches(':focus'))); stop++) await page.keyboard.press('Tab');
  await expect(page.locator('.steering')).toHaveCSS('opacity', '1');
  // A bar of it is over, so that something can be told; and not in plain time, where nothing is framed.
  await expect(page.locator('.exercise .bar b').first()).toHaveText(/[23]/);
  await expect(page.locator('svg.frame rect')).toBeVisible();
  await page.keyboard.press(' ');
  await expect(page.getByText('Paused')).toBeVisible();
  await see('session-paused');
  await page.getByRole('button', { name: 'Next block' }).click();
  await expect(page.getByText('Block 2 of 3')).toBeVisible();
  // A short rest: held, so that it can be looked at.
  await page.keyboard.press('PageUp');
  await expect(page.locator('.glance')).toBeVisible();
  await see('session-between');
  await page.mouse.move(200, 200);
  await page.getByRole('button', { name: 'Something hurts' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Stopped');
  await see('session-hurt');
  await page.getByRole('button', { name: 'To the diary' }).click();
  await page.getByLabel('A line about today').fill('Wrist first, tempo later.');
  await page.getByRole('button', { name: 'Save the line' }).click();
  await expect(page.getByText('Saved.')).toBeVisible();
  await see('diary');
  await page.getByRole('button', { name: 'Settings' }).click();
  await see('settings');
}
