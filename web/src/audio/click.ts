/** Clicks as data, and what page and click worklet say to each other. */

/** How a click sounds: the first of a bar, a beat, or a subdivision of it. */
export type ClickVoice = 'bar' | 'beat' | 'slot';

/** One click: its first sample is computed at exactly `frame` of the audio context. */
export interface Click {
  readonly frame: number;
  readonly voice: ClickVoice;
  /** 0 is the voice's own volume. */
  readonly gainDb: number;
}

/** A click whose frame has come. `sounded` is false when it was scheduled too late. */
export interface SoundedClick {
  readonly frame: number;
  readonly voice: ClickVoice;
  readonly sounded: boolean;
}

/** Page to click worklet. */
export type ClickOrder = { readonly type: 'schedule'; readonly clicks: readonly Click[] } | { readonly type: 'cancel'; readonly fromFrame: number };

/** Click worklet to page. */
export interface ClickReport {
  readonly type: 'clicks';
  readonly clicks: readonly SoundedClick[];
}

/** Sound of each voice as mono samples at the context's rate, handed to the worklet when it starts. */
export type ClickTable = Readonly<Record<ClickVoice, Float32Array>>;
