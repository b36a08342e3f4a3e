/** What the file server says beside each file: what the app may load, and how long a browser may keep it. */
import type { ServerResponse } from 'node:http';

/** Everything the app loads comes from itself; nothing may frame it. */
const contentSecurityPolicy = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' blob: data:",
  "media-src 'self' blob:",
  "connect-src 'self'",
  "font-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

/** Files whose names hold a hash of their content never change. */
const hashed = /^\/assets\/.+-[\w-]{8,}\.\w+$/;

/** Sets the headers of one file of the app. */
export function setHeaders(response: ServerResponse, path: string): void {
  response.setHeader('Content-Security-Policy', contentSecurityPolicy);
  response.setHeader('Permissions-Policy', 'microphone=(self), camera=(), geolocation=()');
  response.setHeader('X-Content-Type-Options', 'nosniff');
  response.setHeader('Referrer-Policy', 'no-referrer');
  response.setHeader('Cache-Control', hashed.test(path) ? 'public, max-age=31536000, immutable' : 'no-cache');
}
