/** The drummer's own hand at the shelf: kept, dropped, changed, written, for good. */
import { expect, type Page, test } from '@playwright/test';
import { lookAt } from './look.ts';
import { arrive, typePhrase } from './way.ts';

const titles = (page: Page) => page.locator('main li h2');

async function toShelf(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Record', exact: true }).click();
  await page.getByRole('button', { name: 'Go on without a recording' }).click();
  await page.getByRole('button', { name: 'Lay out exercises' }).click();
  await expect(titles(page).first()).toBeVisible();
}

test('one is kept, one dropped and brought back, one written, one changed; after the page is loaded again all is still so', async ({ page }) => {
  await page.context().clearPermissions();
  await arrive(page);
  await typePhrase(page, 'RLRLKK');
  await toShelf(page);
  const [first, second, third, fourth] = (await titles(page).allTextContents()) as [string, string, string, string];

  await page.getByRole('checkbox', { name: `Keep: ${third}` }).check();
  await page.getByRole('button', { name: `Drop: ${first}` }).click();
  await expect(page.getByRole('button', { name: `Bring it back: ${first}` })).toBeFocused();
  await page.getByRole('button', { name: `Drop: ${second}` }).press('Enter');
  await page.getByRole('button', { name: `Bring it back: ${second}` }).press('Enter');
  await expect(page.getByRole('heading', { name: second })).toBeFocused();

  await page.getByRole('button', { name: `Change it: ${fourth}` }).click();
  await lookAt(page, 'shelf-change', 'form');
  await page.getByLabel('Sticking, one cycle').fill('RlRX');
  await expect(page.locator('#sticking-problem')).not.toBeEmpty();
  await expect(page.getByRole('button', { name: 'Lay it on the shelf' })).toBeDisabled();
  await page.getByLabel('Sticking, one cycle').fill('RLKKRLK');
  await page.getByLabel('Drums', { exact: true }).fill('R=ride');
  await page.getByRole('button', { name: 'Lay it on the shelf' }).click();
  await expect(page.getByRole('heading', { name: 'RLKKRLK' })).toBeFocused();
  await expect(page.getByText(`Your own, from “${fourth}”.`)).toBeVisible();

  await page.getByRole('button', { name: 'Write one' }).press('Enter');
  await expect(page.getByLabel('Sticking, one cycle')).toBeFocused();
  await page.keyboard.type('RLRRKK');
  await page.getByLabel('What it is called').fill('Before the bus');
  await page.getByLabel('What it is called').press('Enter');
  await expect(page.getByRole('img', { name: 'Before the bus: RLRRKK' })).toBeVisible();

  await page.reload();
  await expect(titles(page).nth(2)).toBeVisible();
  expect((await titles(page).allTextContents()).slice(0, 4)).toEqual([third, 'RLKKRLK', 'Before the bus', second]);
  await expect(page.getByRole('checkbox', { name: `Keep: ${third}` })).toBeChecked();
  await page.getByLabel('Show what was dropped').check();
  await expect(titles(page)).toHaveText([first!]);
  await lookAt(page, 'shelf-dropped', 'li');
});
