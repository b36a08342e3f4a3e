/** What the file server says beside each file: what the app may load, and how long a browser may keep it. */
import type { ServerResponse } from 'node:http';
import { HEADER_POLICY } from '@evenhand/adapters/policy';

/** Files whose names hold a hash of their content never change. */
const hashed = /^\/assets\/.+-[\w-]{8,}\.\w+$/;

/** Sets the headers of one file of the app. */
export function setHeaders(response: ServerResponse, path: string): void {
  response.setHeader('Content-Security-Policy', HEADER_POLICY);
  response.setHeader('Permissions-Policy', 'microphone=(self), camera=(), geolocation=()');
  response.setHeader('X-Content-Type-Options', 'nosniff');
  response.setHeader('Referrer-Policy', 'no-referrer');
  response.setHeader('Cache-Control', hashed.test(path) ? 'public, max-age=31536000, immutable' : 'no-cache');
}
