/** The steps of a drummer through the screens, by what is written on them. */
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

/** From what was heard to the session, every block as long as asked. */
export async function toSession(page: Page, minutes: number): Promise<void> {
  await page.getByRole('button', { name: 'Lay out exercises' }).click();
  await page.getByRole('button', { name: 'To the session' }).click();
  const fields = page.getByRole('spinbutton', { name: /Minutes for/ });
  for (const field of await fields.all()) {
    await field.fill(String(minutes));
    await field.blur();
  }
}
