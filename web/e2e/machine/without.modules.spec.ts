/** Without permission, without a microphone, without a secure page: each is told, and what can go on goes on. */
import { chromium, expect, test } from '@playwright/test';
import { CHROMIUM_ARGUMENTS, chromiumPath } from '../../../playwright.config.ts';

const open = () =>
  window.rig.openEngine().then(async ({ value: engine, problems }) => {
    if (!engine) return { problems, clicked: false };
    engine.schedule([{ frame: engine.nextFrame() + engine.sampleRateHz, voice: 'bar', gainDb: 0 }]);
    const clicked = await new Promise<boolean>((resolve) => engine.onClick(({ sounded }) => resolve(sounded)));
    await engine.close();
    return { problems, clicked };
  });

for (const { what, flag, code } of [
  { what: 'the microphone is refused', flag: '--use-fake-device-for-media-stream', code: 'microphone-denied' },
  { what: 'there is no microphone', flag: '--use-fake-ui-for-media-stream', code: 'microphone-none' },
]) {
  test(`${what}: told, and the click goes on`, async ({ baseURL }) => {
    const browser = await chromium.launch({ executablePath: chromiumPath(), args: [...CHROMIUM_ARGUMENTS, flag] });
    const page = await browser.newPage();
    await page.goto(`${baseURL}e2e/machine/rig.html`);
    const result = await page.evaluate(open);
    await browser.close();
    expect(result).toEqual({ problems: [{ code, severity: 'doubtful', params: {} }], clicked: true });
  });
}

test('a browser that waits for a touch says so, and begins at the next key', async ({ baseURL }) => {
  const args = [...CHROMIUM_ARGUMENTS, '--autoplay-policy=document-user-activation-required'];
  const browser = await chromium.launch({ executablePath: chromiumPath(), args });
  const page = await browser.newPage();
  // Run by the page itself: whatever a test evaluates counts as a touch.
  await page.addInitScript(() => {
    addEventListener('load', async () => {
      const { value: engine, problems } = await window.rig.openEngine({ microphone: 'none' });
      engine!.schedule([{ frame: 48_000, voice: 'bar', gainDb: 0 }]);
      engine!.onClick(({ sounded }) => window.tell?.(`sounded ${sounded}`));
      window.tell?.(`waiting ${problems.map(({ code }) => code).join()}`);
    });
  });
  const said = new Map<string, string>();
  let heard = (): void => {};
  await page.exposeFunction('tell', (text: string) => {
    said.set(text.split(' ')[0]!, text);
    heard();
  });
  const until = async (word: string): Promise<void> => {
    while (!said.has(word)) await new Promise<void>((resolve) => (heard = resolve));
  };
  await page.goto(`${baseURL}e2e/machine/rig.html`);
  await until('waiting');
  await page.keyboard.press('Space');
  await until('sounded');
  await browser.close();
  expect([...said.values()]).toEqual(['waiting device-audio-waiting', 'sounded true']);
});

test('a page that is not secure says where it would be', async ({ page, baseURL }) => {
  await page.route('http://evenhand.test/**', async (route) => {
    const response = await fetch(route.request().url().replace('http://evenhand.test/', baseURL!), { headers: { accept: '*/*' } });
    await route.fulfill({
      status: response.status,
      contentType: response.headers.get('content-type') ?? '',
      body: Buffer.from(await response.arrayBuffer()),
    });
  });
  await page.goto('http://evenhand.test/e2e/machine/rig.html');
  await page.waitForFunction(() => 'rig' in window);
  expect(await page.evaluate(open)).toEqual({ problems: [{ code: 'device-not-secure', severity: 'refused', params: {} }], clicked: false });
});
