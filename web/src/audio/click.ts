/** Clicks as data, and what page and click worklet say to each other. */
import type { ClickKind, ClickSound } from '@evenhand/core/sound';

/** How a click sounds: the first of a bar, a beat, or a subdivision of it. */
export type ClickVoice = ClickKind;

/** One click: its first sample is computed at exactly `frame` of the audio context. */
export interface Click {
  readonly frame: number;
  readonly voice: ClickVoice;
  /** 0 is the voice's own volume. */
  readonly gainDb: number;
  /** What it sounds like; unless said, the usual sound. */
  readonly sound?: ClickSound;
}

/** A click whose frame has come. `sounded` is false when it was scheduled too late. */
export interface SoundedClick {
  readonly frame: number;
  readonly voice: ClickVoice;
  readonly sounded: boolean;
}

/** Page to click worklet. Tables come before the first click that sounds by them. */
export type ClickOrder =
  | { readonly type: 'tables'; readonly tables: ClickTables }
  | { readonly type: 'schedule'; readonly clicks: readonly Click[] }
  | { readonly type: 'cancel'; readonly fromFrame: number };

/** A sound of the click: each voice as mono samples at the context's rate. */
export type ClickTable = Readonly<Record<ClickVoice, Float32Array>>;
export type ClickTables = { readonly [Sound in ClickSound]?: ClickTable };

/** Name of the processor, and what its node is made with. */
export const CLICK_PROCESSOR = 'evenhand-click';
export interface ClickProcessorOptions {
  /** Of the usual sound, and of those of `clicks`. */
  readonly tables: ClickTables;
  /** Clicks known before it starts. */
  readonly clicks: readonly Click[];
}
