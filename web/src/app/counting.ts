/** Counts in with a voice of this device, beside the click, which stays exact to the frame: a voice is begun a little early, by as much as it was late before. */

import { median } from '@evenhand/core/quantiles';
import { type BlockLayout, countsOf } from '@evenhand/core/session';
import { localVoice, type TellingOptions } from './telling.ts';

export interface Counting {
  /** Counts the count-in of a layout in place of the one before; the same again changes nothing, null says no more. */
  follow(layout: BlockLayout | null): void;
}

interface CountingOptions {
  readonly speech: TellingOptions['speech'];
  /** Milliseconds. */
  readonly now: () => number;
  /** When a frame leaves the loudspeaker, by `now`. */
  readonly msOf: (frame: number) => number;
}

const NUMBERS = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];

/** How long a voice takes until it is heard, before that is known; and at most. Assumptions: browsers promise nothing. */
const [FIRST_LEAD_MS, MOST_LEAD_MS] = [80, 400];
/** A number that would come later than this says a wrong place: it is left out. Assumption: a quarter of a beat at 180. */
const LATEST_MS = 80;
/** Silence before the first beat that is played. Assumption: half a sixteenth at 180. */
const QUIET_MS = 40;
/** What a number takes to be said as voices speak by themselves, and how much faster they may. Assumption. */
const [WORD_MS, FASTEST] = [450, 2];
/** How many of the last times count for what is early. */
const REMEMBERED = 5;

const SILENT: Counting = { follow: () => {} };

/** What was seen of the voice of this device, kept from block to block. */
const leadsMs: number[] = [];

/** @param voice the language to count in; null counts nothing, as does a device without a voice of its own. */
export function createCounting(voice: { readonly lang: string } | null, { speech, now, msOf }: CountingOptions): Counting {
  const speaker = voice && localVoice(speech?.synthesis ?? null, voice.lang);
  if (!speech || !speaker) return SILENT;
  let known: BlockLayout | null = null;
  let waiting: ReturnType<typeof setTimeout>[] = [];
  let speaking = false;

  function hush(): void {
    for (const one of waiting) clearTimeout(one);
    waiting = [];
    if (speaking) speech!.synthesis.cancel();
    speaking = false;
  }

  function say(text: string, { atMs, untilMs }: { readonly atMs: number; readonly untilMs: number }): void {
    const askedMs = now();
    if (askedMs > atMs + LATEST_MS - leadMs()) return;
    if (speaking) speech!.synthesis.cancel();
    speaking = true;
    const utterance = speech!.utter(text);
    const rate = Math.min(FASTEST, Math.max(1, WORD_MS / (untilMs - atMs)));
    const begun = () => void leadsMs.push(Math.min(MOST_LEAD_MS, now() - askedMs));
    Object.assign(utterance, { voice: speaker, lang: speaker!.lang, rate, onstart: begun, onend: null, onerror: null });
    speech!.synthesis.speak(utterance);
  }

  function count(layout: BlockLayout): void {
    const counts = countsOf(layout).map(({ frame, count: number, untilFrame }) => ({ number, atMs: msOf(frame), untilMs: msOf(untilFrame) }));
    for (const { number, ...when } of counts) {
      const inMs = when.atMs - leadMs() - now();
      if (inMs > -LATEST_MS) waiting.push(setTimeout(() => say(NUMBERS[number - 1] ?? String(number), when), inMs));
    }
    const last = counts.at(-1);
    if (last && waiting.length > 0) waiting.push(setTimeout(hush, last.untilMs - QUIET_MS - now()));
  }

  return {
    follow(layout) {
      if (layout === known) return;
      hush();
      known = layout;
      if (layout) count(layout);
    },
  };
}

/** The middle of what was seen last. */
const leadMs = (): number => (leadsMs.length > 0 ? median(leadsMs.slice(-REMEMBERED)) : FIRST_LEAD_MS);
