/** A Chromium whose page can be out of sight for real. Under Playwright every page is in sight for ever, so that it prepares the page and lets go of it. */
import type { Readable, Writable } from 'node:stream';
import type { Page } from '@playwright/test';
import { startChromium } from './chromium.ts';

/** A page that nobody holds: as in a browser that a drummer opened. */
export interface LoosePage {
  /** Runs in the page, as Playwright's own. */
  evaluate<Result>(work: () => Result | Promise<Result>): Promise<Result>;
  evaluate<Result, Given>(work: (given: Given) => Result | Promise<Result>, given: Given): Promise<Result>;
  /** Puts another tab in front of it. */
  hide(): Promise<void>;
  /** Puts it in front again. */
  show(): Promise<void>;
}

export interface Hideable {
  /** To prepare it with; of no use once it is let go. */
  readonly page: Page;
  letGo(): Promise<LoosePage>;
  kill(): Promise<void>;
}

/** @param profile folder of the browser's data. @param more arguments for it. */
export async function startHideable(profile: string, more: readonly string[] = []): Promise<Hideable> {
  const { browser, devtools, kill } = await startChromium(profile, ['--remote-debugging-pipe', ...more]);
  const page = await browser.contexts()[0]!.newPage();
  return {
    page,
    kill,
    async letGo() {
      const held = await page.context().newCDPSession(page);
      const { targetInfo } = await held.send('Target.getTargetInfo');
      await browser.close();
      return loosePage(talk(devtools), targetInfo.targetId);
    },
  };
}

type Send = (method: string, params: object, sessionId?: string) => Promise<Answer>;
/** What is read of DevTools' answers. */
interface Answer {
  readonly sessionId?: string;
  readonly result?: { readonly value?: unknown };
  readonly exceptionDetails?: { readonly exception?: { readonly description?: string } };
}

async function loosePage(send: Send, targetId: string): Promise<LoosePage> {
  const { sessionId } = await send('Target.attachToTarget', { targetId, flatten: true });
  return {
    async evaluate(work: (given: never) => unknown, given?: unknown) {
      const expression = `(${work.toString()})(${JSON.stringify(given) ?? ''})`;
      const { result, exceptionDetails } = await send('Runtime.evaluate', { expression, awaitPromise: true, returnByValue: true }, sessionId);
      if (exceptionDetails) throw new Error(exceptionDetails.exception?.description ?? 'the page threw');
      return result!.value as never;
    },
    async hide() {
      const other = (await send('Target.createTarget', { url: 'about:blank' })) as { readonly targetId?: string };
      await send('Target.activateTarget', { targetId: other.targetId });
    },
    async show() {
      await send('Target.activateTarget', { targetId });
    },
  };
}

/** DevTools by two pipes: each message ends with a zero byte. */
function talk([toBrowser, fromBrowser]: readonly [Writable, Readable]): Send {
  const waiting = new Map<number, { resolve(answer: Answer): void; reject(error: Error): void }>();
  const receive = (message: string): void => {
    const { id, result, error } = JSON.parse(message) as { id?: number; result?: Answer; error?: { message: string } };
    const asked = waiting.get(id ?? -1);
    waiting.delete(id ?? -1);
    if (error) asked?.reject(new Error(error.message));
    else asked?.resolve(result ?? {});
  };
  let parts: string[] = [];
  fromBrowser.setEncoding('utf8').on('data', (text: string) => {
    const [rest, ...later] = text.split('\0');
    parts.push(rest!);
    for (const next of later) {
      receive(parts.join(''));
      parts = [next];
    }
  });
  let last = 0;
  return (method, params, sessionId) =>
    new Promise((resolve, reject) => {
      last++;
      waiting.set(last, { resolve, reject });
      toBrowser.write(`${JSON.stringify({ id: last, method, params, sessionId })}\0`);
    });
}
