/** Hands the microphone's sound on, with the frame at which each stretch began. Runs on the audio thread and does nothing else. */
import { CAPTURE_PROCESSOR, type CaptureOrder } from './capture.ts';

/** About 11 ms at 48 kHz: small enough for strokes on screen within 80 ms, large enough for few messages. */
const BLOCK_FRAMES = 512;

class CaptureProcessor extends AudioWorkletProcessor {
  #target: MessagePort | null = null;
  #block = new Float32Array(BLOCK_FRAMES);
  #filled = 0;
  #nextFrame = -1;

  constructor() {
    super();
    this.port.onmessage = ({ data }: MessageEvent<CaptureOrder>) => {
      this.#target = data.port;
      this.#filled = 0;
      this.port.postMessage('capturing');
    };
  }

  process(inputs: readonly (readonly Float32Array[])[]): boolean {
    const input = inputs[0]?.[0];
    // Without a connected source there is no channel; frames that do not follow on were dropped by the system.
    if (!input || currentFrame !== this.#nextFrame) this.#send();
    if (input && this.#target) this.#take(input);
    return true;
  }

  #take(input: Float32Array): void {
    this.#block.set(input, this.#filled);
    this.#filled += input.length;
    this.#nextFrame = currentFrame + input.length;
    if (this.#filled + input.length > BLOCK_FRAMES) this.#send();
  }

  #send(): void {
    if (this.#filled === 0 || !this.#target) return;
    const samples = this.#filled === BLOCK_FRAMES ? this.#block : this.#block.slice(0, this.#filled);
    this.#target.postMessage({ frame: this.#nextFrame - this.#filled, samples }, [samples.buffer]);
    this.#block = new Float32Array(BLOCK_FRAMES);
    this.#filled = 0;
  }
}

registerProcessor(CAPTURE_PROCESSOR, CaptureProcessor);
