/** The drummer's own hand at the shelf: kept, dropped, changed, written, for good. */
import { expect, type Page, test } from '@playwright/test';
import { lookAt } from './look.ts';
import { plantedFile } from './planted.ts';
import { arrive, typePhrase } from './way.ts';

/** Six bars of eighths at 100, kick on every other beat, accents between. */
const song = plantedFile('song.wav', { sticking: 'KRR>RKRR>R', perBeat: 2, tempoBpm: 100, cycles: 6, faults: [] });

const titles = (page: Page) => page.locator('main li h2');

async function toShelf(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Record', exact: true }).click();
  await page.getByRole('button', { name: 'Go on without a recording' }).click();
  await page.getByRole('button', { name: 'Lay out exercises' }).click();
  await expect(titles(page).first()).toBeVisible();
}

test('one is kept, one dropped and brought back, one written, one changed; after the page is loaded again all is still so; and over a recording of one’s own', async ({
  page,
}) => {
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
  await page.getByLabel('Show what was dropped').uncheck();
  await overARecording(page);
});

/** A recording of one's own: its tempo found, corrected and told, a loop of it played with an exercise, kept over a reload, forgotten. */
async function overARecording(page: Page): Promise<void> {
  const open = () => page.getByText('In music of your own').click();
  const region = page.locator('details', { hasText: 'In music of your own' });
  await open();
  await page.getByLabel('Choose a recording').setInputFiles(song);
  const told = region.getByText(/beats a minute, \d+ bars?\.$/);
  await expect(told).toBeVisible();
  // It was played at 100: half of it and twice as fast are the same beat to whoever only listens (core/song).
  const found = Number.parseFloat((await told.textContent())!);
  expect(Math.min(...[50, 100, 200].map((tempoBpm) => Math.abs(found / tempoBpm - 1)))).toBeLessThan(0.02);
  await page.getByRole('button', { name: 'Half of it' }).click();
  await expect.poll(async () => Number.parseFloat((await told.textContent())!) / found).toBeCloseTo(0.5, 1);
  await page.getByLabel('Tempo of the recording').fill('100');
  await page.getByLabel('Tempo of the recording').press('Enter');
  await expect(told).toContainText('100.0 beats a minute');
  await page.getByLabel('to bar').fill('2');
  await page.getByLabel('to bar').press('Enter');
  await expect(page.getByLabel('Tempo, beats a minute')).toHaveValue('100');
  await lookAt(page, 'shelf-over-music', 'details');
  await page.getByLabel('What is played over it').selectOption({ index: 1 });
  await page.getByRole('button', { name: 'Play', exact: true }).last().click();
  await expect(region.getByRole('button', { name: 'Stop' })).toBeVisible();
  await region.getByRole('button', { name: 'Stop' }).click();
  await page.getByLabel('Title').fill('The opener');
  await page.getByRole('button', { name: 'Make the shelf for it' }).click();
  await expect(page.getByText('The shelf is laid out for it.')).toBeVisible();

  await page.reload();
  await open();
  await expect(told).toContainText('100.0 beats a minute');
  await expect(page.getByLabel('Title')).toHaveValue('The opener');
  await page.getByRole('button', { name: 'Forget the recording' }).click();
  await expect(told).toBeHidden();
}
