/** Hands out the built app as a static host does, packed with gzip, and notes what was fetched. */
import { existsSync, readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, normalize } from 'node:path';
import { gzipSync } from 'node:zlib';
import { HEADER_POLICY } from '../../adapters/src/policy/index.ts';
import type { Fetched } from '../../web/e2e/firstload.ts';

export interface AppServer {
  readonly address: string;
  /** What was fetched since the last call, in order. */
  take(): readonly Fetched[];
  /** Hands out a script beside the app's files, under a path from the root. */
  put(path: string, script: string): void;
  close(): void;
}

const KINDS: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.webmanifest': 'application/manifest+json',
};

/** @param folder the built app; every file is packed at gzip's usual strength, as static hosts do. */
export async function serveApp(folder: string, port = 0): Promise<AppServer> {
  let fetched: Fetched[] = [];
  const scripts = new Map<string, string>();
  const server = createServer((request, response) => {
    const path = normalize(new URL(request.url ?? '/', 'http://localhost').pathname);
    const file = join(folder, path === '/' ? 'index.html' : path);
    const script = scripts.get(path);
    if (script === undefined && !existsSync(file)) return void response.writeHead(404).end();
    const body = gzipSync(script ?? readFileSync(file));
    fetched.push({ path, gzipBytes: body.length });
    response.writeHead(200, {
      'Content-Type': script === undefined ? (KINDS[extname(file)] ?? 'application/octet-stream') : KINDS['.js'],
      'Content-Encoding': 'gzip',
      'Content-Security-Policy': HEADER_POLICY,
      'Cache-Control': 'no-cache',
    });
    response.end(body);
  });
  await new Promise<void>((resolve) => server.listen(port, '127.0.0.1', resolve));
  return {
    address: `http://localhost:${(server.address() as AddressInfo).port}/`,
    take() {
      const taken = fetched;
      fetched = [];
      return taken;
    },
    put: (path, script) => void scripts.set(path, script),
    close: () => void server.close(),
  };
}
