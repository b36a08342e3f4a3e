/** The app's files are served on this machine, with the headers that keep it to itself. */
import { existsSync, readFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { expect, onTestFinished, test } from 'vitest';
import { evenhandServing } from './evenhand.ts';

const index = join(import.meta.dirname, '../../web/dist/index.html');
if (!existsSync(index)) throw new Error('The app is not built: run `npm run build` first.');

/** A port that is held until the test is over. */
const heldPort = () =>
  new Promise<number>((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => resolve((server.address() as { port: number }).port));
    onTestFinished(() => void server.close());
  });

test('the page, its headers, and nothing outside the folder', async () => {
  const { address } = JSON.parse(await evenhandServing('serve', '--port', String((await heldPort()) + 1), '--json'));
  const page = await fetch(address);
  expect(await page.text()).toBe(readFileSync(index, 'utf8'));
  expect(page.headers.get('content-type')).toMatch(/^text\/html/);
  expect(page.headers.get('cache-control')).toBe('no-cache');
  // STACK.md, the policy that works.
  expect(page.headers.get('content-security-policy')).toBe(
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; media-src 'self' blob:; connect-src 'self'; font-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
  );
  const script = /src="\.?\/?(assets\/[^"]+\.js)"/.exec(readFileSync(index, 'utf8'))![1]!;
  const asset = await fetch(address + script);
  expect(asset.headers.get('content-type')).toMatch(/javascript/);
  expect(asset.headers.get('cache-control')).toBe('public, max-age=31536000, immutable');
  expect((await fetch(`${address}..%2f..%2fpackage.json`)).status).toBe(404);
  expect((await fetch(`${address}nowhere`)).status).toBe(404);
});

test('a taken port gives the next free one', async () => {
  const port = await heldPort();
  const served = JSON.parse(await evenhandServing('serve', '--port', String(port), '--json'));
  expect(served.port).toBeGreaterThan(port);
  expect(served.problems[0]).toMatchObject({ code: 'serve-port-taken', severity: 'doubtful', params: { port, next: served.port } });
});
