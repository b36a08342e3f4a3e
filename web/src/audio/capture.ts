/** What the capture worklet sends, and to whom. */

/** A stretch of the microphone's sound. Blocks follow each other without overlap; frames between two that are missing were never heard. */
export interface CapturedBlock {
  /** Frame of the audio context of the first sample. */
  readonly frame: number;
  /** Mono, full scale at ±1; its buffer is handed over. */
  readonly samples: Float32Array<ArrayBuffer>;
}

/** Page to capture worklet: send to this port from now on. */
export interface CaptureOrder {
  readonly port: MessagePort;
}

export const CAPTURE_PROCESSOR = 'evenhand-capture';
