/** A microphone that hears nothing: it is said so, and no stroke is made up, on no screen and in no record; what the app itself sounds like is there all the same. */
import { readFileSync } from 'node:fs';
import { expect, test } from '@playwright/test';
import { recordsOf } from './lived.ts';
import { microphoneOf, plantedFile, silentFile } from './planted.ts';
import { arrive, openFile, record, toSession, typePhrase } from './way.ts';

const silence = silentFile('microphone-silence.wav');
const phrase = plantedFile('silence-phrase.wav', { sticking: 'RLRLKK', perBeat: 4, tempoBpm: 120, cycles: 8, faults: [] });

test.use({
  launchOptions: async ({ launchOptions }, use) => use({ ...launchOptions, args: [...(launchOptions.args ?? []), ...microphoneOf(silence)] }),
});

declare global {
  interface Window {
    spoken: string[];
  }
}

/** A browser with a voice of its own, which headless Chromium has not: what it is asked to say. */
function withVoice(): void {
  window.spoken = [];
  const voice = { lang: 'en-US', localService: true };
  const speak = (utterance: { readonly text: string }) => window.spoken.push(utterance.text);
  Object.defineProperty(window, 'speechSynthesis', { value: { getVoices: () => [voice], speak, cancel: () => {} } });
  Object.defineProperty(window, 'SpeechSynthesisUtterance', {
    value: function Utterance(this: { text: string }, text: string) {
      this.text = text;
    },
  });
}

test('with a silent microphone the phrase and a session say that nothing is heard, and the diary holds no stroke and no figure', async ({ page }) => {
  await page.addInitScript(withVoice);
  await arrive(page);
  await typePhrase(page, 'RLRLKK');
  await record(page, 2);
  await expect(page.getByRole('alert')).toContainText('Nothing is heard in this take');
  await expect(page.getByRole('heading', { level: 1 })).not.toHaveText('What was heard');

  await openFile(page, { name: 'phrase.wav', bytes: readFileSync(phrase) });
  await page.getByRole('button', { name: 'Lay out exercises' }).click();
  await toSession(page, 0.1);
  // Counted in by a voice, and clicked in another sound.
  await page.getByText('How it runs').click();
  await page.getByRole('combobox', { name: 'Click sound', exact: true }).selectOption('knock');
  await page.getByRole('combobox', { name: 'Counted in' }).selectOption('spoken');
  await page.locator('body').press('PageDown');
  await expect(page.getByText('Block 2 of 3')).toBeVisible({ timeout: 20_000 });
  await page.keyboard.press('Escape');
  await expect(page.getByRole('heading', { name: 'Done for today' })).toBeVisible();
  await expect(page.getByRole('listitem').first()).toContainText('Nothing is heard in this take');
  await page.getByRole('button', { name: 'To the diary' }).click();
  const blocks = page.getByRole('region', { name: /^Today/ }).getByRole('listitem');
  await expect(blocks).toHaveCount(1);
  await expect(blocks).not.toContainText(/kick|stroke|early|late|soft|stands out/i);
  const records = await recordsOf(page);
  const bodies = (kind: string) => records.filter((one) => one.kind === kind).map(({ body }) => body as { strokes?: unknown[]; heard?: unknown });
  expect(bodies('take').map(({ strokes }) => strokes!.length)).toEqual(bodies('take').map(() => 0));
  expect(bodies('block').map(({ heard }) => heard)).toEqual([null]);
  expect(new Set(records.flatMap(({ kind, body }) => (kind === 'take' ? [(body as { clickSound?: string }).clickSound] : [])))).toEqual(
    new Set([undefined, 'knock']),
  );
  // What a busy machine would say late is left out; what is said is of the count.
  const spoken = await page.evaluate(() => window.spoken);
  expect(spoken.length).toBeGreaterThan(0);
  expect(spoken.filter((word) => !['one', 'two', 'three', 'four'].includes(word))).toEqual([]);
});
