/** The one thing a page says to its service worker; a type alone, for the service worker is built without imports. */

export type ToServiceWorker = 'use-the-new-version';
