/** The content security policy of the app, the same in the file server's header, in the built page and in the preview. */

const DIRECTIVES = [
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
];

/** For a `<meta>` element: static hosts send no header of ours. A `<meta>` may not speak of frames. */
export const PAGE_POLICY = DIRECTIVES.join('; ');

/** For the header `Content-Security-Policy`. */
export const HEADER_POLICY = [...DIRECTIVES, "frame-ancestors 'none'"].join('; ');
