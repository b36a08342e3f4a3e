import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { createTelling, localVoice, type TellBy } from './telling.ts';

beforeEach(() => void vi.useFakeTimers({ now: 0 }));
afterEach(() => void vi.useRealTimers());

const voices = [
  { lang: 'de-DE', localService: true },
  { lang: 'en-GB', localService: false },
  { lang: 'en-US', localService: true },
];

/** A browser's speech without a sound: what was said, and how long it takes. */
function stage(by: TellBy, options: { readonly voices?: typeof voices; readonly takesMs?: number } = {}) {
  const log: string[] = [];
  let current: { onend: (() => void) | null } | null = null;
  const synthesis = {
    getVoices: () => options.voices ?? voices,
    speak(utterance: unknown) {
      const one = utterance as { text: string; lang: string; onend: (() => void) | null };
      log.push(`${one.lang}: ${one.text}`);
      current = one;
      setTimeout(() => current === one && one.onend?.(), options.takesMs ?? 2500);
    },
    cancel() {
      log.push('cancelled');
      const cut = current;
      current = null;
      // Browsers tell of it a moment later (from memory: an error event, "canceled").
      setTimeout(() => cut?.onend?.(), 50);
    },
  };
  const utter = (text: string) => ({ text, voice: null, lang: '', onend: null, onerror: null });
  const telling = createTelling({ by, lang: 'en-GB', speech: { synthesis, utter }, tones: () => log.push('tones'), now: () => Date.now() });
  return { telling, log };
}

/** Until what comes next has settled. */
const settled = () => vi.advanceTimersByTimeAsync(1500);

describe('what comes next', () => {
  test('is said by a voice of this device, in the language asked for (issue 8: told by voice or sound, no network)', async () => {
    const { telling, log } = stage('voice');
    telling.next('Next: RLRL, 16ths at 96', 8000);
    await settled();
    expect(log).toEqual(['en-US: Next: RLRL, 16ths at 96']);
  });

  test.each([
    { says: 'no voice of that language', found: [voices[0]!] },
    { says: 'only voices that need a network', found: [voices[1]!] },
    { says: 'none at all, as in headless Chromium', found: [] },
  ])('is told by tones where there is $says (issue 8)', async ({ found }) => {
    const { telling, log } = stage('voice', { voices: found });
    telling.next('Next', 8000);
    await settled();
    expect(log).toEqual(['tones']);
  });

  test('is told by tones, or by nothing, by choice', async () => {
    const [tones, nothing] = [stage('tones'), stage('nothing')];
    tones.telling.next('Next', 8000);
    nothing.telling.next('Next', 8000);
    await settled();
    expect([tones.log, nothing.log]).toEqual([['tones'], []]);
  });

  test('is never said over a take: a long sentence is cut off before it, a short rest gets tones, no rest nothing (arithmetic: 8 s less 0.7)', async () => {
    const long = stage('voice', { takesMs: 60_000 });
    long.telling.next('Next', 8000);
    await vi.advanceTimersByTimeAsync(7299);
    expect(long.log).toHaveLength(1);
    await vi.advanceTimersByTimeAsync(1);
    expect(long.log.at(-1)).toBe('cancelled');
    const [short, none] = [stage('voice'), stage('voice')];
    short.telling.next('Next', Date.now() + 3000);
    none.telling.next('Next', Date.now() + 600);
    await settled();
    expect([short.log, none.log]).toEqual([['tones'], []]);
  });

  test('is said once, when the ear has settled its tempo; anew where that changed later', async () => {
    const { telling, log } = stage('voice');
    for (const text of ['at 96', 'at 96', 'at 100']) telling.next(text, 9000);
    await settled();
    expect(log).toEqual(['en-US: at 100']);
    telling.next('at 104', 9000);
    await settled();
    expect(log).toEqual(['en-US: at 100', 'cancelled', 'en-US: at 104']);
    await vi.advanceTimersByTimeAsync(100);
    expect(telling.spokeBetween(Date.now(), Date.now() + 1)).toBe(true);
  });

  test('is no command: while it is said the microphone hears nobody’s sticks, and afterwards it does', async () => {
    const { telling } = stage('voice', { takesMs: 2500 });
    telling.next('Next', 8000);
    await vi.advanceTimersByTimeAsync(4000);
    expect([telling.spokeBetween(500, 1400), telling.spokeBetween(1400, 1600), telling.spokeBetween(3900, 4500)]).toEqual([false, true, true]);
    expect(telling.spokeBetween(4100, 6000)).toBe(false);
  });

  test('is hushed at once when the player goes on', async () => {
    const { telling, log } = stage('voice');
    telling.next('Next', 8000);
    await settled();
    telling.hush();
    telling.hush();
    expect(log.filter((one) => one === 'cancelled')).toHaveLength(1);
  });
});

test('a voice of the country comes before one of the language (arithmetic)', () => {
  const synthesis = { getVoices: () => [...voices, { lang: 'en_GB', localService: true }], speak: () => {}, cancel: () => {} };
  expect(localVoice(synthesis, 'en-GB')!.lang).toBe('en_GB');
  expect(localVoice(null, 'en-GB')).toBe(null);
});
