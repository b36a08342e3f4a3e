/** FLAC and the backup in Chromium, under the app's own policy: the same bytes as in Node, on the page and in a Worker. */
import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import { extname, join } from 'node:path';
import { chromium } from '@playwright/test';
import { build } from 'vite';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { backupBytes } from '../src/backup/index.ts';
import { pitRecords } from '../src/backup/pit-drummer.case.ts';
import { encodeFlac } from '../src/flac/index.ts';
import { HEADER_POLICY } from '../src/policy/index.ts';

const executablePath = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find((path) => existsSync(path));
if (!executablePath) process.stderr.write('browser.test.ts: skipped, chromium is not installed, so FLAC was not tried in a browser\n');

/** Three seconds in numbers that need 24 bits, the same wherever they are made. */
const samplesOf = (length: number): Float32Array => Float32Array.from({ length }, (_, i) => (((i * 7919) % 4001) - 2000) / 8191);

const WORK = `
import { encodeFlac, decodeFlac } from '@evenhand/adapters/flac';
import { backupBytes, readBackupAtOnce, bytesSource } from '@evenhand/adapters/backup';
const hex = async (bytes) => Array.from(new Uint8Array(await crypto.subtle.digest('SHA-256', bytes)), (b) => b.toString(16).padStart(2, '0')).join('');
export async function work(text) {
  const records = JSON.parse(text);
  const samples = (${samplesOf.toString()})(144000);
  const flac = await encodeFlac(samples, 48000);
  const back = await decodeFlac(flac);
  const backup = await backupBytes(records, [{ takeId: records.at(-1).id, flac }]);
  const read = await readBackupAtOnce(bytesSource(backup));
  return { flac: await hex(flac), backup: await hex(backup), decoded: back.samples.length, damaged: back.damaged, problems: read.problems.length, recordCount: read.value.records.length };
}`;
const WORKER = `import { work } from './work.js'; onmessage = async ({ data }) => postMessage(await work(data).catch((error) => String(error)));`;
const PAGE = `
import workerUrl from './worker.js?worker&url';
globalThis.onPage = async (text) => (await import('./work.js')).work(text);
globalThis.inWorker = (text) => new Promise((resolve, reject) => {
  const worker = new Worker(workerUrl, { type: 'module' });
  worker.onmessage = ({ data }) => resolve(data);
  worker.onerror = (event) => reject(new Error(event.message));
  worker.postMessage(text);
});
document.title = 'ready';`;

/** Inside the workspace, so that its packages are found. */
const root = mkdtempSync(join(import.meta.dirname, '../.browser-'));
let server: Server;
let address: string;

beforeAll(async () => {
  writeFileSync(join(root, 'work.js'), WORK);
  writeFileSync(join(root, 'worker.js'), WORKER);
  writeFileSync(join(root, 'page.js'), PAGE);
  writeFileSync(join(root, 'index.html'), '<!doctype html><title>x</title><script type="module" src="./page.js"></script>');
  if (!executablePath) return;
  await build({
    root,
    logLevel: 'error',
    configFile: false,
    worker: { format: 'es' },
    build: { modulePreload: { polyfill: false }, assetsInlineLimit: 0 },
  });
  const kinds: Record<string, string> = { '.html': 'text/html', '.js': 'text/javascript' };
  server = createServer((request, response) => {
    const path = request.url === '/' ? '/index.html' : request.url!;
    response.setHeader('Content-Security-Policy', HEADER_POLICY);
    response.setHeader('Content-Type', kinds[extname(path)] ?? 'application/octet-stream');
    try {
      response.end(readFileSync(join(root, 'dist', path)));
    } catch {
      response.statusCode = 204;
      response.end();
    }
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const at = server.address();
  address = `http://localhost:${typeof at === 'object' ? at?.port : ''}/`;
}, 120_000);

afterAll(() => {
  server?.close();
  rmSync(root, { recursive: true, force: true });
});

describe.skipIf(!executablePath)('in Chromium', () => {
  it.each(['onPage', 'inWorker'])('%s: FLAC and the backup have the bytes they have in Node (says: one code, two engines)', async (where) => {
    const browser = await chromium.launch({
      executablePath: executablePath!,
      args: ['--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-sync'],
    });
    try {
      const page = await browser.newPage();
      const complaints: string[] = [];
      page.on('console', (message) => void complaints.push(message.text()));
      page.on('pageerror', (error) => void complaints.push(String(error)));
      await page.goto(address);
      await page.waitForFunction(() => document.title === 'ready');
      const flac = await encodeFlac(samplesOf(144_000), 48_000);
      const backup = await backupBytes(pitRecords, [{ takeId: pitRecords.at(-1)!.id, flac }]);
      const sha256 = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex');
      // As text: what Playwright hands over would lose a field called __proto__.
      const call = ([name, text]: readonly [string, string]) => (globalThis as never as Record<string, (text: string) => unknown>)[name]!(text);
      const found = await page.evaluate(call, [where, JSON.stringify(pitRecords)] as const);
      expect({ found, complaints }).toEqual({
        found: { flac: sha256(flac), backup: sha256(backup), decoded: 144_000, damaged: false, problems: 0, recordCount: 13 },
        complaints: [],
      });
    } finally {
      await browser.close();
    }
  });
});
