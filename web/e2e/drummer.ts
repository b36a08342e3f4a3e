/**
 * A drummer in the room, for tests: an audio worklet of the test's own that hears the app's click as the app sounds it, and plays synthesised
 * strokes in time with it into what the app takes for its microphone. The app's own code is untouched: all it hears passes through its capture
 * worklet, its Worker and its ear.
 */

import { seededRandom } from '@evenhand/core/random';
import { renderStrokes } from '@evenhand/core/sound';
import type { Page } from '@playwright/test';

/** How the drummer plays a block that the click begins anew. */
export interface Part {
  /** Beats of count-in that are only listened to. */
  readonly countIn: number;
  readonly perBeat: number;
  /** Milliseconds by which strokes come late, in turn; none: exactly in time. */
  readonly lateMs: readonly number[];
  /** From one beat to another, counted from the first click, otherwise. */
  readonly between?: { readonly fromBeat: number; readonly toBeat: number; readonly lateMs: readonly number[] };
}

/** Stick clicks: so many, this far apart; at the beginning, or once the click of a block is over. */
export interface Clicks {
  readonly afterBlock: number;
  readonly waitSec: number;
  readonly count: number;
  readonly gapSec: number;
}

export interface Drummer {
  readonly surface: string;
  /** One for each time the click begins. */
  readonly parts: readonly Part[];
  readonly clicks: readonly Clicks[];
}

const RATE_HZ = 48_000;

/** From now on every audio context of the page has the drummer in front of its microphone. Needs `bypassCSP`: the worklet is the test's own. */
export async function seatDrummer(page: Page, drummer: Drummer): Promise<void> {
  const sound = (surface: string, levelDb: number) =>
    Array.from(
      renderStrokes([{ timeSec: 0, surface, levelDb }], { sampleRateHz: RATE_HZ, durationSec: 0.12, random: seededRandom(4) }),
      (sample) => Math.round(sample * 1e5) / 1e5,
    );
  const processor = `(${drummerProcessor.toString()})()`;
  await page.addInitScript(seat, { processor, options: { ...drummer, stroke: sound(drummer.surface, -24), stick: sound('sticks', -26) } });
}

interface Seat {
  readonly processor: string;
  readonly options: Drummer & { readonly stroke: readonly number[]; readonly stick: readonly number[] };
}

/** In the page: puts the drummer between the click's output and the microphone's input. */
function seat({ processor, options }: Seat): void {
  const address = URL.createObjectURL(new Blob([processor], { type: 'text/javascript' }));
  const seated = new WeakMap<BaseAudioContext, AudioWorkletNode>();
  const ready = new WeakSet<AudioWorklet>();
  const { addModule } = AudioWorklet.prototype;
  AudioWorklet.prototype.addModule = async function (...given) {
    await addModule.apply(this, given);
    if (ready.has(this)) return;
    ready.add(this);
    await addModule.call(this, address);
  };
  const { createMediaStreamSource } = AudioContext.prototype;
  AudioContext.prototype.createMediaStreamSource = function (stream) {
    const drummer = new AudioWorkletNode(this, 'drummer', { outputChannelCount: [1], processorOptions: options });
    seated.set(this, drummer);
    waiting?.connect(drummer);
    const room = new GainNode(this);
    createMediaStreamSource.call(this, stream).connect(room);
    drummer.connect(room);
    return room as unknown as MediaStreamAudioSourceNode;
  };
  /** The click's node, connected before the microphone is. */
  let waiting: AudioNode | null = null;
  const { connect } = AudioNode.prototype as unknown as { connect: (this: AudioNode, ...given: unknown[]) => AudioNode };
  (AudioNode.prototype as unknown as { connect: typeof connect }).connect = function (...given) {
    if (this instanceof AudioWorkletNode && this.numberOfInputs === 0 && given[0] === this.context.destination) {
      waiting = this;
      const drummer = seated.get(this.context);
      if (drummer) connect.call(this, drummer);
    }
    return connect.apply(this, given);
  };
}

/** In the audio thread: hears clicks in its input, plays into its output. */
function drummerProcessor(): void {
  const scope = globalThis as unknown as {
    AudioWorkletProcessor: new () => object;
    registerProcessor(name: string, made: unknown): void;
    readonly currentFrame: number;
    readonly sampleRate: number;
  };
  class DrummerProcessor extends scope.AudioWorkletProcessor {
    constructor({ processorOptions }: { processorOptions: Seat['options'] }) {
      super();
      Object.assign(this, { options: processorOptions, begun: -1, lastSound: -1e9, lastClick: -1e9, interval: 0, block: -1, beat: 0, stroke: 0 });
      Object.assign(this, { sounding: [], said: 0, noise: 1 });
    }

    process(inputs: Float32Array[][], outputs: Float32Array[][]): boolean {
      const me = this as unknown as Record<string, number> & {
        options: Seat['options'];
        sounding: { readonly at: number; readonly samples: readonly number[] }[];
      };
      const rate = scope.sampleRate;
      const [input, output] = [inputs[0]?.[0], outputs[0]![0]!];
      if (me.begun! < 0) me.begun = scope.currentFrame;
      for (let i = 0; i < output.length; i++) {
        const frame = scope.currentFrame + i;
        if (input && Math.abs(input[i]!) > 0.02) {
          if (frame - me.lastSound! > 0.03 * rate) click(frame);
          me.lastSound = frame;
        }
      }
      sticks();
      for (let i = 0; i < output.length; i++) {
        const frame = scope.currentFrame + i;
        me.noise = (me.noise! * 16807) % 2147483647;
        let value = 0.0004 * (me.noise / 1073741823.5 - 1);
        for (const { at, samples } of me.sounding) value += samples[frame - at] ?? 0;
        output[i] = value;
      }
      me.sounding = me.sounding.filter(({ at, samples }) => at + samples.length > scope.currentFrame + output.length);
      return true;

      function click(frame: number): void {
        const gap = frame - me.lastClick!;
        if (me.block! < 0 || gap > 1.3 * (me.interval || 1.2 * rate)) {
          me.block!++;
          me.beat = 0;
          me.interval = 0;
          me.stroke = 0;
        } else {
          me.beat!++;
          me.interval = gap;
        }
        me.lastClick = frame;
        const part = me.options.parts[me.block!];
        if (!part || me.beat! < part.countIn) return;
        for (let k = 0; k < part.perBeat; k++) {
          const { between } = part;
          const off = between && me.beat! >= between.fromBeat && me.beat! < between.toBeat ? between.lateMs : part.lateMs;
          const late = off.length > 0 ? off[me.stroke! % off.length]! : 0;
          me.sounding.push({ at: frame + Math.round((k * me.interval!) / part.perBeat + (late * rate) / 1000), samples: me.options.stroke });
          me.stroke!++;
        }
      }

      function sticks(): void {
        const next = me.options.clicks[me.said!];
        if (!next || next.afterBlock !== me.block) return;
        const from = me.block! < 0 ? me.begun! : me.lastClick! + me.interval!;
        if (scope.currentFrame < from + next.waitSec * rate) return;
        for (let k = 0; k < next.count; k++)
          me.sounding.push({ at: scope.currentFrame + Math.round(k * next.gapSec * rate), samples: me.options.stick });
        me.said!++;
      }
    }
  }
  scope.registerProcessor('drummer', DrummerProcessor);
}
