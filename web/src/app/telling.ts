/** Tells in a rest what comes next: by a voice of this device, or two soft tones where there is none. Never over a take, and the click does not wait for it. */

/** What tells: nothing, tones, or a voice. */
export type TellBy = 'nothing' | 'tones' | 'voice';

/** The part of a browser's speech that is used. */
export interface Speech {
  getVoices(): readonly Voice[];
  speak(utterance: unknown): void;
  cancel(): void;
}

interface Voice {
  readonly lang: string;
  readonly localService: boolean;
}

/** A thing to be said. */
interface Utterance {
  voice: unknown;
  lang: string;
  onend: (() => void) | null;
  onerror: (() => void) | null;
}

export interface TellingOptions {
  readonly by: TellBy;
  /** As in "en-GB"; a voice of the same language will do where there is none of that country. */
  readonly lang: string;
  /** Null where the browser has none. */
  readonly speech: { readonly synthesis: Speech; readonly utter: (text: string) => Utterance } | null;
  readonly tones: () => void;
  /** Milliseconds, for how long a voice still may speak. */
  readonly now: () => number;
}

export interface Telling {
  /** @param quietAtMs when a take is opened, by `now`; what would still be said then is cut off. */
  next(text: string, quietAtMs: number): void;
  /** Says no more. */
  hush(): void;
  /** Whether something was said at some moment between two, by `now`: what the microphone heard then is nobody's command. */
  spokeBetween(fromMs: number, toMs: number): boolean;
}

/**
 * Time for the ear to settle the tempo of what comes; quiet before a take, so that a room rings out; the shortest time that is worth a voice.
 * Assumptions: a block is heard in a second or two, a title and a tempo take about three.
 */
const [SETTLE_MS, QUIET_MS, SHORTEST_MS] = [1500, 700, 3000];

export function createTelling({ by, lang, speech, tones, now }: TellingOptions): Telling {
  interface Spoken {
    readonly fromMs: number;
    toMs: number;
  }
  const spoken: Spoken[] = [];
  let said = '';
  let speaking: Spoken | null = null;
  let waiting: ReturnType<typeof setTimeout> | undefined;
  let silencing: ReturnType<typeof setTimeout> | undefined;

  /** A browser tells of one that was cut off only later, when the next may be speaking. */
  function over(which: Spoken | null): void {
    if (!which || which !== speaking) return;
    clearTimeout(silencing);
    which.toMs = Math.min(which.toMs, now());
    speaking = null;
  }

  function hush(): void {
    clearTimeout(waiting);
    if (speaking) speech?.synthesis.cancel();
    over(speaking);
  }

  function speak(text: string, voice: Voice, endMs: number): void {
    const mine: Spoken = { fromMs: now(), toMs: endMs };
    const utterance = speech!.utter(text);
    Object.assign(utterance, { voice, lang: voice.lang, onend: () => over(mine), onerror: () => over(mine) });
    spoken.push(mine);
    speaking = mine;
    speech!.synthesis.speak(utterance);
    silencing = setTimeout(hush, endMs - now());
  }

  function tell(text: string, endMs: number): void {
    const voice = by === 'voice' ? localVoice(speech?.synthesis ?? null, lang) : null;
    if (voice && endMs - now() >= SHORTEST_MS) speak(text, voice, endMs);
    else if (endMs > now()) tones();
  }

  return {
    next(text, quietAtMs) {
      if (by === 'nothing' || text === said) return;
      said = text;
      hush();
      waiting = setTimeout(() => tell(text, quietAtMs - QUIET_MS), Math.max(0, Math.min(SETTLE_MS, quietAtMs - QUIET_MS - SHORTEST_MS - now())));
    },
    hush,
    spokeBetween: (fromMs, toMs) => spoken.some((one) => one.fromMs < toMs && one.toMs > fromMs),
  };
}

/** A voice that speaks without a network, of the country if there is one; null where there is none. */
export function localVoice(synthesis: Speech | null, lang: string): Voice | null {
  const local = (synthesis?.getVoices() ?? []).filter(({ localService }) => localService);
  const named = (voice: Voice) => voice.lang.replace('_', '-');
  return local.find((voice) => named(voice) === lang) ?? local.find((voice) => named(voice).split('-')[0] === lang.split('-')[0]) ?? null;
}

/** The speech of this browser. */
export const browserSpeech = (): TellingOptions['speech'] =>
  typeof speechSynthesis === 'undefined'
    ? null
    : { synthesis: speechSynthesis, utter: (text) => new SpeechSynthesisUtterance(text) as unknown as Utterance };
