/** The built app without its server, and a new version that waits. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, type Page, test } from '@playwright/test';
import sirv from 'sirv';
import { listFiles, SERVICE_WORKER } from '../../vite/offline-plugin.ts';
import { arrive, typePhrase } from '../way.ts';

const BUILT = join(import.meta.dirname, '../../dist');

let folder = '';
let server: Server;

test.beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'evenhand-offline-'));
  cpSync(BUILT, folder, { recursive: true });
  server = createServer(sirv(folder, { dev: true }));
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
});

test.afterEach(() => {
  server.close();
  server.closeAllConnections();
  rmSync(folder, { recursive: true, force: true });
});

const address = (): string => `http://localhost:${(server.address() as AddressInfo).port}/`;

/** Opens the app and waits until the service worker has everything and answers for the page. */
async function openStored(page: Page): Promise<void> {
  await page.goto(address());
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
}

test('the app opens with the server stopped, every file of it from the device', async ({ page }) => {
  const refused: string[] = [];
  page.on('console', (message) => message.text().includes('Content Security Policy') && refused.push(message.text()));
  await openStored(page);
  const shown = (await page.locator('#app').textContent()) ?? '';
  const files = listFiles(folder).map(([path]) => path);
  server.close();
  server.closeAllConnections();
  await page.reload();
  await expect(page.locator('#app')).toHaveText(shown);
  expect(shown.length).toBeGreaterThan(20);
  const missing = await page.evaluate(async (paths) => {
    const answers = await Promise.all(
      paths.map(
        async (path) =>
          [
            path,
            await fetch(path).then(
              (response) => response.ok,
              () => false,
            ),
          ] as const,
      ),
    );
    return answers.filter(([, ok]) => !ok).map(([path]) => path);
  }, files);
  expect(missing).toEqual([]);
  expect(refused).toEqual([]);
});

test('worklets and Worker start from the device too, under the policy of the page', async ({ page }) => {
  await openStored(page);
  const find = (start: string): string => listFiles(folder).find(([path]) => path.startsWith(`assets/${start}`))![0];
  server.close();
  server.closeAllConnections();
  await page.reload();
  const result = await page.evaluate(
    async ([click, capture, ear]) => {
      const context = new OfflineAudioContext({ length: 128, sampleRate: 48_000 });
      await context.audioWorklet.addModule(click);
      await context.audioWorklet.addModule(capture);
      const names = ['evenhand-click', 'evenhand-capture'].map(
        (name) => new AudioWorkletNode(context, name, { processorOptions: { table: {}, clicks: [] } }).numberOfOutputs,
      );
      const worker = new Worker(ear, { type: 'module' });
      const answer = new Promise((resolve) => worker.addEventListener('message', ({ data }) => resolve(data)));
      worker.postMessage({ type: 'start', storeName: 'from-the-device' });
      worker.postMessage({ type: 'request', requestId: 7, name: 'recoverTakes', ask: {} });
      return { names, answer: await answer };
    },
    [find('click.worklet'), find('capture.worklet'), find('ear.worker')] as const,
  );
  expect(result).toEqual({ names: [1, 1], answer: { type: 'reply', requestId: 7, reading: { value: [], problems: [] } } });
});

/** Changes one file of the served app and its list, as a new build would. */
function releaseNewVersion(): void {
  const before = JSON.stringify(listFiles(folder));
  const page = join(folder, 'index.html');
  writeFileSync(page, readFileSync(page, 'utf8').replace('<html ', '<html data-release="next" '));
  const worker = join(folder, SERVICE_WORKER);
  const source = readFileSync(worker, 'utf8');
  expect(source).toContain(before);
  writeFileSync(
    worker,
    source.replace(before, () => JSON.stringify(listFiles(folder))),
  );
}

/** The browser finds the new version and has it ready. */
const findNewVersion = (page: Page): Promise<void> =>
  page.evaluate(async () => {
    const registration = (await navigator.serviceWorker.getRegistration())!;
    await registration.update();
    const coming = registration.installing ?? registration.waiting!;
    if (coming.state !== 'installed') await new Promise((resolve) => coming.addEventListener('statechange', resolve, { once: true }));
  });

test('a new version waits until the page lets it begin', async ({ page }) => {
  await openStored(page);
  releaseNewVersion();
  await findNewVersion(page);
  await page.reload();
  await expect(page.locator('html')).not.toHaveAttribute('data-release');
  await page.evaluate(async () => {
    const registration = (await navigator.serviceWorker.getRegistration())!;
    const changed = new Promise((resolve) => navigator.serviceWorker.addEventListener('controllerchange', resolve, { once: true }));
    registration.waiting!.postMessage('use-the-new-version');
    await changed;
  });
  await page.reload();
  await expect(page.locator('html')).toHaveAttribute('data-release', 'next');
});

test('a new version that comes during a session is offered after it, and not before', async ({ page, context }) => {
  await context.clearPermissions();
  await openStored(page);
  await arrive(page, address());
  await typePhrase(page, 'RLRLKK');
  await page.getByRole('button', { name: 'Record', exact: true }).click();
  await page.getByRole('button', { name: 'Go on without a recording' }).click();
  await page.getByRole('button', { name: 'Lay out exercises' }).click();
  await page.getByRole('button', { name: 'To the session' }).click();
  await page.locator('body').press('PageDown');
  await expect(page.getByText('Block 1 of 3')).toBeVisible();
  releaseNewVersion();
  await findNewVersion(page);
  const offer = page.getByText('A new version is here.');
  await expect(page.getByText('Count-in')).toBeVisible();
  await expect(offer).toBeHidden();
  await page.keyboard.press('Escape');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Done for today');
  await expect(offer).toBeHidden();
  await page.getByRole('button', { name: 'To the diary' }).click();
  await expect(offer).toBeVisible();
  await expect(page.locator('html')).not.toHaveAttribute('data-release');
  await page.getByRole('button', { name: 'Use it now' }).click();
  await expect(page.locator('html')).toHaveAttribute('data-release', 'next');
  await expect(page.getByRole('region', { name: /^Today/ })).toContainText('Stopped before the end.');
});

test('a file that does not belong to the version stops its installation, and the old one stays', async ({ page }) => {
  await openStored(page);
  releaseNewVersion();
  writeFileSync(join(folder, 'icon.svg'), '<svg xmlns="http://www.w3.org/2000/svg"/>');
  const state = await page.evaluate(async () => {
    const registration = (await navigator.serviceWorker.getRegistration())!;
    const coming = new Promise<ServiceWorker>((resolve) => registration.addEventListener('updatefound', () => resolve(registration.installing!)));
    await registration.update().catch(() => {});
    const worker = await coming;
    while (worker.state === 'installing') await new Promise((resolve) => worker.addEventListener('statechange', resolve, { once: true }));
    return worker.state;
  });
  expect(state).toBe('redundant');
  await page.reload();
  await expect(page.locator('html')).not.toHaveAttribute('data-release');
});
