/** What the scope of an audio worklet offers, as far as ours use it; TypeScript has no library for it. */

interface MessageEvent<Data = unknown> {
  readonly data: Data;
}

interface MessagePort {
  onmessage: ((event: MessageEvent<never>) => void) | null;
  postMessage(message: unknown, transfer?: readonly ArrayBuffer[]): void;
}

declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}

declare const currentFrame: number;

declare const sampleRate: number;

declare function registerProcessor(
  name: string,
  processor: new (options: {
    readonly processorOptions: never;
  }) => AudioWorkletProcessor & { process(inputs: readonly (readonly Float32Array[])[], outputs: readonly (readonly Float32Array[])[]): boolean },
): void;
