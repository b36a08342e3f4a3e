/** The line to the Worker: requests with their answers, news nobody asked for, and a new Worker when one falls over. */
import type { Problem, Reading } from '@evenhand/core/problem';
import type { FromWorker, RequestName, Requests, ToWorker } from './protocol.ts';

/** What the Worker says without being asked. */
export type News = Exclude<FromWorker, { readonly type: 'reply' }>;

export interface LinkEvents {
  readonly onNews: (news: News) => void;
  /** Told once a new Worker runs in place of one that fell over. */
  readonly onRestart: () => void;
}

export interface Link {
  /** Never rejects; `ear-stopped` when there is no Worker to answer. */
  ask<Name extends RequestName>(name: Name, what: Requests[Name]['ask']): Promise<Reading<Requests[Name]['answer']>>;
  sendInput(port: MessagePort): void;
  close(): void;
}

/** How often a Worker that fell over is started again before the page gives up on it. Assumption: what fails thrice fails always. */
const RESTARTS = 3;

const STOPPED: Problem = { code: 'ear-stopped', severity: 'refused', params: {} };

export function linkWorker(storeName: string, { onNews, onRestart }: LinkEvents): Link {
  const waiting = new Map<number, (reading: Reading<never>) => void>();
  let requestCount = 0;
  let restarts = 0;
  let worker: Worker | null = launch();

  function launch(): Worker {
    const started = new Worker(new URL('./ear.worker.ts', import.meta.url), { type: 'module', name: 'evenhand-ear' });
    started.onmessage = ({ data }: MessageEvent<FromWorker>) => {
      if (data.type !== 'reply') return onNews(data);
      waiting.get(data.requestId)?.(data.reading as Reading<never>);
      waiting.delete(data.requestId);
    };
    started.onerror = (event) => {
      event.preventDefault();
      restart();
    };
    started.postMessage({ type: 'start', storeName } satisfies ToWorker);
    return started;
  }

  function restart(): void {
    stop();
    if (restarts++ < RESTARTS) worker = launch();
    onNews({ type: 'problem', problem: { ...STOPPED, severity: worker ? 'doubtful' : 'refused' } });
    if (worker) onRestart();
  }

  /** Whoever still waits is answered. */
  function stop(): void {
    worker?.terminate();
    worker = null;
    for (const answer of waiting.values()) answer({ value: null, problems: [STOPPED] });
    waiting.clear();
  }

  return {
    ask(name, what) {
      if (!worker) return Promise.resolve({ value: null, problems: [STOPPED] });
      const requestId = requestCount++;
      worker.postMessage({ type: 'request', requestId, name, ask: what } as ToWorker);
      return new Promise((resolve) => waiting.set(requestId, resolve));
    },
    sendInput: (port) => worker?.postMessage({ type: 'input', port } satisfies ToWorker, [port]),
    close: stop,
  };
}
