/** Keeps the built app on the device, so that it opens without a network; a new version waits until the page says so. */
import type { ToServiceWorker } from './message.ts';

/** Put in by web/vite/offline-plugin.ts: every built file with the sha256 of its bytes. */
declare const __EVENHAND_FILES__: readonly (readonly [path: string, sha256: string])[];

const worker = self as unknown as ServiceWorkerGlobalScope;
const files = __EVENHAND_FILES__;
const PREFIX = 'evenhand-app-';
/** Old versions kept: a page of the version before may still ask for a part of it. */
const KEPT_CACHES = 2;

const urlOf = (path: string): string => new URL(path, worker.registration.scope).href;

const hexadecimal = (bytes: ArrayBuffer): string => Array.from(new Uint8Array(bytes), (byte) => byte.toString(16).padStart(2, '0')).join('');

/** The version of the app is the hash of its list of files. */
async function cacheName(): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(JSON.stringify(files)));
  return PREFIX + hexadecimal(digest).slice(0, 16);
}

/** Fetches one file past the browser's own cache; a file that is not the one of this version makes the whole installation fail. */
async function fetchExact(path: string, sha256: string): Promise<Response> {
  const response = await fetch(urlOf(path), { cache: 'no-store' });
  const found = hexadecimal(await crypto.subtle.digest('SHA-256', await response.clone().arrayBuffer()));
  if (!response.ok || found !== sha256) throw new TypeError(`${path} is not the file of this version`);
  return response;
}

async function install(): Promise<void> {
  const cache = await caches.open(await cacheName());
  await Promise.all(files.map(async ([path, sha256]) => cache.put(urlOf(path), await fetchExact(path, sha256))));
}

async function activate(): Promise<void> {
  const current = await cacheName();
  const old = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== current);
  await Promise.all(old.slice(0, Math.max(0, old.length + 1 - KEPT_CACHES)).map((name) => caches.delete(name)));
  await worker.clients.claim();
}

/** This version's file, or that of the version before, or the network. Any page address opens the one page. */
async function answer(request: Request): Promise<Response> {
  const url = new URL(request.url);
  const wanted = request.mode === 'navigate' ? urlOf('index.html') : url.origin + url.pathname;
  const cache = await caches.open(await cacheName());
  return (await cache.match(wanted)) ?? (await caches.match(wanted)) ?? fetch(request);
}

worker.addEventListener('install', (event) => event.waitUntil(install()));
worker.addEventListener('activate', (event) => event.waitUntil(activate()));
worker.addEventListener('fetch', (event) => {
  if (event.request.method === 'GET' && event.request.url.startsWith(worker.registration.scope)) event.respondWith(answer(event.request));
});
worker.addEventListener('message', (event) => {
  if (event.data === ('use-the-new-version' satisfies ToServiceWorker)) event.waitUntil(worker.skipWaiting());
});
