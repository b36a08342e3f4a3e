/** One take while it is recorded: its sound goes to the ear and, in chunks, to the store. */
import type { KeepingProblem } from '@evenhand/core/diary';
import { createEar, type EarState, finish, type Heard, type Stroke, step } from '@evenhand/core/stroke';
import { joinSamples } from '@evenhand/core/take';
import type { CapturedBlock } from '../../audio/capture.ts';
import type { TakeChunk, TakeMeta } from '../../store/take-rows.ts';
import type { TakeStore } from '../../store/takes.ts';
import { createRecent, type Recent } from './recent.ts';

/** Seconds of sound in a chunk: what a killed browser can lose. */
const CHUNK_SEC = 0.5;

/** How much sound is kept in memory when it cannot be stored: ten minutes are 115 MB. Assumption: longer than any block. */
const UNSAVED_LIMIT_SEC = 600;

export interface RecorderOptions {
  /** null when nothing can be stored. */
  readonly store: TakeStore | null;
  /** Index of the first chunk; above 0 the take goes on after a break, and is heard from its stored sound in the end. */
  readonly firstIndex: number;
  readonly onStroke: (stroke: Stroke) => void;
  /** Told once when its sound can no longer be stored. */
  readonly onProblem: (problem: KeepingProblem) => void;
}

/** A take being recorded. */
export interface Recorder {
  readonly meta: TakeMeta;
  /** Sound as it comes; what lies before the take or after its end is passed over. */
  hear(block: CapturedBlock): void;
  /** Frame of the audio context up to which sound has arrived. */
  heardUntil(): number;
  /** What comes from that frame on is no part of it. */
  endsAt(toFrame: number): void;
  /** Ends it at `toFrame`, or where it is when that has passed; settles once the frames up to `toFrame` are heard, or nothing came for a second. */
  until(toFrame: number): Promise<void>;
  /** The sound from a frame of the take on, once it has arrived up to another, or nothing came for a second. */
  recent(fromFrame: number, toFrame: number): Promise<ReturnType<Recent['from']>>;
  /** Ends the take. `heard` is null when its sound must be heard again; `unsaved` are the chunks that could not be stored. */
  end(): Promise<{ readonly heard: Heard | null; readonly durationSec: number; readonly unsaved: readonly TakeChunk[] }>;
}

/** How long sound may stay away before a take that is being closed ends without it. Assumption: fifty times the usual block. */
const SILENT_LIMIT_MS = 1000;

export function createRecorder(meta: TakeMeta, options: RecorderOptions): Recorder {
  const ear = options.firstIndex === 0 ? createLiveEar(meta, options.onStroke) : null;
  const shelf = createShelf(meta, options);
  const recent = createRecent(meta.sampleRateHz);
  let heardUntil = meta.fromFrame;
  let toFrame = Number.POSITIVE_INFINITY;
  let arrived: () => void = () => {};
  const waitFor = async (frame: number): Promise<void> => {
    while (heardUntil < frame && (await soon((resolve) => (arrived = both(arrived, resolve)))));
  };
  return {
    meta,
    hear(block) {
      const samples = partWithin(block, heardUntil, toFrame);
      if (samples.length > 0) {
        const frame = Math.max(block.frame, heardUntil);
        ear?.hear(samples, frame - heardUntil);
        shelf.add(samples, frame - meta.fromFrame);
        recent.add(samples, frame - meta.fromFrame);
        heardUntil = frame + samples.length;
      }
      const tell = arrived;
      arrived = () => {};
      tell();
    },
    heardUntil: () => heardUntil,
    endsAt(frame) {
      toFrame = frame;
    },
    async until(frame) {
      toFrame = frame;
      await waitFor(frame);
    },
    async recent(from, to) {
      await waitFor(meta.fromFrame + to);
      return recent.from(from);
    },
    async end() {
      const unsaved = await shelf.close();
      return { heard: ear?.finish() ?? null, durationSec: (heardUntil - meta.fromFrame) / meta.sampleRateHz, unsaved };
    },
  };
}

const both = (first: () => void, second: () => void) => (): void => {
  first();
  second();
};

/** True when it happens within the limit. */
function soon(happen: (resolve: () => void) => void): Promise<boolean> {
  return new Promise((resolve) => {
    const limit = setTimeout(() => resolve(false), SILENT_LIMIT_MS);
    happen(() => {
      clearTimeout(limit);
      resolve(true);
    });
  });
}

/** The samples of a block from `fromFrame` on and before `toFrame`. */
function partWithin({ frame, samples }: CapturedBlock, fromFrame: number, toFrame: number): Float32Array<ArrayBuffer> {
  const from = Math.max(0, fromFrame - frame);
  const to = Math.min(samples.length, toFrame - frame);
  return from === 0 && to === samples.length ? samples : samples.subarray(from, Math.max(from, to));
}

interface LiveEar {
  /** @param missing frames that never arrived before these samples: heard as silence, so that times stay true. */
  hear(samples: Float32Array, missing: number): void;
  /** null when it failed. */
  finish(): Heard | null;
}

function createLiveEar(meta: TakeMeta, onStroke: (stroke: Stroke) => void): LiveEar {
  let state: EarState | null = createEar({ sampleRateHz: meta.sampleRateHz });
  const feed = (samples: Float32Array): void => {
    if (!state) return;
    try {
      for (const stroke of step(state, samples).strokes) onStroke(stroke);
    } catch {
      // The sound is stored all the same, and heard again in the end.
      state = null;
    }
  };
  return {
    hear(samples, missing) {
      if (missing > 0) feed(new Float32Array(missing));
      feed(samples);
    },
    finish() {
      try {
        return state && finish(state);
      } catch {
        return null;
      }
    },
  };
}

interface Shelf {
  add(samples: Float32Array<ArrayBuffer>, offsetFrames: number): void;
  /** Stores what is left, and gives back what could not be stored. */
  close(): Promise<readonly TakeChunk[]>;
}

/** Gathers chunks and stores them one after the other; once that has failed, keeps them in memory for as long as is sensible. */
function createShelf(meta: TakeMeta, { store, firstIndex, onProblem }: RecorderOptions): Shelf {
  const chunkFrames = Math.round(CHUNK_SEC * meta.sampleRateHz);
  const unsaved: TakeChunk[] = [];
  let index = firstIndex;
  let pending: Float32Array<ArrayBuffer>[] = [];
  let pendingFrames = 0;
  let pendingOffset = 0;
  let usable = store;
  let writing: Promise<unknown> = Promise.resolve();

  async function save(chunk: TakeChunk): Promise<void> {
    const { problems } = (await usable?.add(chunk)) ?? { problems: [] };
    if (usable && problems.length > 0) {
      usable = null;
      onProblem({ ...problems[0]!, severity: 'doubtful' });
    }
    if (!usable && unsaved.length * CHUNK_SEC < UNSAVED_LIMIT_SEC) unsaved.push(chunk);
  }
  const flush = (): void => {
    if (pendingFrames === 0) return;
    const chunk = { takeId: meta.takeId, index: index++, offsetFrames: pendingOffset, samples: joinSamples(pending) };
    writing = writing.then(() => save(chunk));
    pending = [];
    pendingFrames = 0;
  };
  return {
    add(samples, offsetFrames) {
      if (offsetFrames !== pendingOffset + pendingFrames) flush();
      if (pendingFrames === 0) pendingOffset = offsetFrames;
      pending.push(samples);
      pendingFrames += samples.length;
      if (pendingFrames >= chunkFrames) flush();
    },
    async close() {
      flush();
      await writing;
      return unsaved;
    },
  };
}
