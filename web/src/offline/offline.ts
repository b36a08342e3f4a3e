/** The page's side of the service worker: makes the app stay on the device, and lets the page choose when a new version begins. */
import type { ToServiceWorker } from './message.ts';

/** What the page can know and decide about versions. */
export interface Offline {
  /** True once the app opens without a network. */
  isReady(): boolean;
  /** Told once the app is stored on the device. */
  onReady(listener: () => void): () => void;
  /** Told when a new version is here and waits. It waits as long as the page wants; nothing changes under a running session. */
  onUpdateWaiting(listener: () => void): () => void;
  /** Lets the waiting version begin, which loads the page anew. Never call it while a session runs. */
  useNewVersion(): void;
}

/** Answers of a browser without service workers (no secure context): online only. */
const ONLINE_ONLY: Offline = { isReady: () => false, onReady: () => () => {}, onUpdateWaiting: () => () => {}, useNewVersion: () => {} };

/** Stores the app on the device, once per page. Under development it does nothing, so that changes show. */
export function startOffline(): Offline {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return ONLINE_ONLY;
  const container = navigator.serviceWorker;
  const target = new EventTarget();
  let waiting: ServiceWorker | null = null;
  let ready = container.controller !== null;
  let asked = false;

  const wait = (registration: ServiceWorkerRegistration): void => {
    waiting = registration.waiting;
    if (waiting && container.controller) target.dispatchEvent(new Event('update'));
  };
  container.addEventListener('controllerchange', () => {
    ready = true;
    target.dispatchEvent(new Event('ready'));
    if (asked) location.reload();
  });
  container
    .register('./service-worker.js', { scope: './', updateViaCache: 'none' })
    .then((registration) => {
      wait(registration);
      registration.addEventListener('updatefound', () => {
        const coming = registration.installing;
        coming?.addEventListener('statechange', () => wait(registration));
      });
    })
    // The app works on without it; it only needs the network again next time.
    .catch(() => {});

  return {
    isReady: () => ready,
    onReady: (listener) => listen(target, 'ready', listener),
    onUpdateWaiting: (listener) => {
      if (waiting) queueMicrotask(listener);
      return listen(target, 'update', listener);
    },
    useNewVersion: () => {
      asked = true;
      waiting?.postMessage('use-the-new-version' satisfies ToServiceWorker);
    },
  };
}

function listen(target: EventTarget, name: string, listener: () => void): () => void {
  target.addEventListener(name, listener);
  return () => target.removeEventListener(name, listener);
}
