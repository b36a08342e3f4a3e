/** libFLAC compiled to JavaScript (decision 0020): the part of it that is used, loaded when first needed. */

/** What a stream says of itself. */
export interface StreamHeader {
  readonly sampleRate: number;
  readonly channels: number;
  readonly bitsPerSample: number;
  readonly total_samples: number;
  readonly min_framesize: number;
  readonly max_framesize: number;
  /** Of the samples, 32 hexadecimal digits. */
  readonly md5sum: string;
}

/** What the header of a frame says of it. */
export interface FrameHeader {
  readonly bitsPerSample: number;
  /** Samples per channel in this frame. */
  readonly blocksize: number;
}

/** A piece of the file for the decoder; nothing left is a length of 0. */
export interface Fed {
  readonly buffer: Uint8Array;
  readonly readDataLength: number;
  readonly error: boolean;
}

/** Functions of the library, named as in C. Encoders and decoders are numbers, 0 when none could be made. */
export interface FlacLibrary {
  isReady(): boolean;
  on(event: 'ready', then: () => void): void;
  create_libflac_decoder(verify: boolean): number;
  init_decoder_stream(
    decoder: number,
    read: (byteCount: number) => Fed,
    write: (channels: readonly Uint8Array[], frame: FrameHeader) => void,
    fail: () => void,
    meta: (header: StreamHeader) => void,
    ogg: boolean,
  ): number;
  /** One block of metadata or one frame. */
  FLAC__stream_decoder_process_single(decoder: number): boolean;
  FLAC__stream_decoder_process_until_end_of_metadata(decoder: number): boolean;
  FLAC__stream_decoder_get_state(decoder: number): number;
  FLAC__stream_decoder_finish(decoder: number): boolean;
  FLAC__stream_decoder_delete(decoder: number): void;
  create_libflac_encoder(
    sampleRate: number,
    channels: number,
    bitsPerSample: number,
    compressionLevel: number,
    sampleCount: number,
    verify: boolean,
    blockSize: number,
  ): number;
  init_encoder_stream(encoder: number, write: (bytes: Uint8Array) => void, meta: (header: StreamHeader) => void, ogg: boolean): number;
  FLAC__stream_encoder_process_interleaved(encoder: number, samples: Int32Array, frameCount: number): boolean;
  FLAC__stream_encoder_finish(encoder: number): boolean;
  FLAC__stream_encoder_delete(encoder: number): void;
}

/** FLAC__STREAM_DECODER_END_OF_STREAM of libFLAC; states above it are failures. */
export const END_OF_STREAM = 4;

let loading: Promise<FlacLibrary> | null = null;

/**
 * The library. Its variant in plain JavaScript, not in WebAssembly: the app's policy `script-src 'self'` allows no WebAssembly.
 * 190 kB when packed, so it is imported only here and only when called.
 */
export function loadFlac(): Promise<FlacLibrary> {
  loading ??= load();
  return loading;
}

async function load(): Promise<FlacLibrary> {
  const { default: flac } = (await import('libflacjs/dist/libflac.js')) as unknown as { readonly default: FlacLibrary };
  if (!flac.isReady()) await new Promise<void>((resolve) => flac.on('ready', resolve));
  return flac;
}
