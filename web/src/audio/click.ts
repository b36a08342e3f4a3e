/** Clicks as data, and what page and click worklet say to each other. */
import type { ClickKind } from '@evenhand/core/sound';

/** How a click sounds: the first of a bar, a beat, or a subdivision of it. */
export type ClickVoice = ClickKind;

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

/** Sound of each voice as mono samples at the context's rate, handed to the worklet when it starts. */
export type ClickTable = Readonly<Record<ClickVoice, Float32Array>>;

/** Name of the processor, and what its node is made with. */
export const CLICK_PROCESSOR = 'evenhand-click';
export interface ClickProcessorOptions {
  readonly table: ClickTable;
  /** Clicks known before it starts. */
  readonly clicks: readonly Click[];
}
