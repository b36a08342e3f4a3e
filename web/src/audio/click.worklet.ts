/** Sounds clicks at exactly their frames, whatever the page's thread does. Runs on the audio thread. */

import { amplitudeOfDb } from '@evenhand/core/units';
import { CLICK_PROCESSOR, type Click, type ClickOrder, type ClickProcessorOptions, type ClickTables, type SoundedClick } from './click.ts';

/** How often it tells that time goes on, in seconds. */
const TOLD_EVERY_SEC = 0.2;

/** A click that sounds: the part of it that is still to come. */
interface Sounding {
  readonly samples: Float32Array;
  readonly gain: number;
  readonly startFrame: number;
}

class ClickProcessor extends AudioWorkletProcessor {
  #tables: ClickTables;
  /** By frame. */
  #waiting: readonly Click[];
  #sounding: Sounding[] = [];
  #toldFrame = 0;

  constructor({ processorOptions }: { readonly processorOptions: ClickProcessorOptions }) {
    super();
    this.#tables = processorOptions.tables;
    this.#waiting = byFrame(processorOptions.clicks);
    this.port.onmessage = ({ data }: MessageEvent<ClickOrder>) => this.#obey(data);
  }

  process(_inputs: unknown, outputs: readonly (readonly Float32Array[])[]): boolean {
    const output = outputs[0]![0]!;
    const end = currentFrame + output.length;
    if (this.#waiting.length > 0 && this.#waiting[0]!.frame < end) this.#begin(end);
    else if (end >= this.#toldFrame + TOLD_EVERY_SEC * sampleRate) this.#tell([], end);
    for (const click of this.#sounding) mix(output, click, currentFrame);
    if (this.#sounding.length > 0) this.#sounding = this.#sounding.filter(({ samples, startFrame }) => startFrame + samples.length > end);
    return true;
  }

  #obey(order: ClickOrder): void {
    if (order.type === 'tables') this.#tables = { ...this.#tables, ...order.tables };
    else if (order.type === 'schedule') this.#waiting = byFrame([...this.#waiting, ...order.clicks]);
    else this.#waiting = this.#waiting.filter(({ frame }) => frame < order.fromFrame);
  }

  #soundingOf({ frame, voice, gainDb, sound = 'tone' }: Click): Sounding {
    return { samples: this.#tables[sound]![voice], gain: amplitudeOfDb(gainDb), startFrame: frame };
  }

  /** Late clicks are left out: a click at the wrong time is worse than none. */
  #begin(end: number): void {
    const clicks = this.#waiting.filter(({ frame }) => frame < end);
    this.#waiting = this.#waiting.slice(clicks.length);
    const report: SoundedClick[] = clicks.map(({ frame, voice }) => ({ frame, voice, sounded: frame >= currentFrame }));
    const inTime = clicks.filter(({ frame }) => frame >= currentFrame);
    this.#sounding.push(...inTime.map((click) => this.#soundingOf(click)));
    this.#tell(report, end);
  }

  /** None at all tells that time goes on. */
  #tell(clicks: readonly SoundedClick[], end: number): void {
    this.port.postMessage(clicks);
    this.#toldFrame = end;
  }
}

const byFrame = (clicks: readonly Click[]): readonly Click[] => [...clicks].sort((a, b) => a.frame - b.frame);

function mix(output: Float32Array, { samples, gain, startFrame }: Sounding, frame0: number): void {
  const from = Math.max(0, startFrame - frame0);
  for (let i = from; i < output.length; i++) {
    const at = frame0 + i - startFrame;
    if (at >= samples.length) return;
    output[i] = output[i]! + gain * samples[at]!;
  }
}

registerProcessor(CLICK_PROCESSOR, ClickProcessor);
