/** The take of the phrase while it happens: microphone or file, count-in, volume, and what the ear makes of it. */
import { type ExerciseContent, expectedCycle } from '@evenhand/core/exercise';
import type { Problem } from '@evenhand/core/problem';
import type { Stroke } from '@evenhand/core/stroke';
import type { TakeSpan } from '../worker/protocol.ts';
import { drumHints } from './drumhint.ts';
import { contentOf, readingOf, tempoOf, wantedOf } from './phrase.ts';
import { heardOf, probeTempoBpm, withProbe } from './probing.ts';
import { beginRecording, countInAt, dropRecording, endRecording, LONGEST_TAKE_SEC, type Recording } from './recording.ts';
import type { Ring, RingEvent } from './ring.ts';
import type { Room } from './room.ts';
import { heldPeak } from './volume.ts';

/** How often the count-in is looked at, in milliseconds. */
const LOOK_MS = 50;

export interface Taking {
  /** Loudest of the last moments, full scale 1. */
  readonly peak: number;
  readonly strokesSoFar: number;
  readonly countIn: { readonly bar: number; readonly beat: number } | null;
  record(withClick: boolean): Promise<void>;
  stop(): Promise<void>;
  discard(): Promise<void>;
  open(file: Blob): Promise<void>;
  /** Starts the ear, because a take is about to be made. */
  prepare(): void;
}

interface Stand {
  ring(): Ring;
  turn(event: RingEvent): void;
}

/** What is asked of the ear once a take was heard. */
interface ToMeasure {
  readonly takeId: string;
  readonly strokes: readonly Stroke[];
  readonly clicksSec: readonly number[];
  readonly spans: readonly TakeSpan[] | null;
  readonly problems: readonly Problem[];
}

/** @param stand where the ring is read and turned. */
export function createTaking(room: Room, stand: Stand): Taking {
  let peak = $state(0);
  let strokesSoFar = $state(0);
  let countIn = $state.raw<{ readonly bar: number; readonly beat: number } | null>(null);
  let recording: Recording | null = null;
  let leave: (() => void)[] = [];

  const fail = (problems: readonly Problem[]) => stand.turn({ kind: 'takeFailed', problems });

  function watch(begun: Recording): void {
    const ear = room.ear();
    const looking = setInterval(() => {
      countIn = countInAt(begun, begun.engine.nextFrame());
      const playedSec = (begun.engine.nextFrame() - begun.playFrame) / begun.engine.sampleRateHz;
      if (playedSec > LONGEST_TAKE_SEC) void stop();
    }, LOOK_MS);
    leave = [
      () => clearInterval(looking),
      ear.onMeter((heard) => {
        peak = heldPeak(peak, heard.peak);
      }),
      ear.onStroke((stroke) => {
        if (stroke.takeId === begun.takeId && stroke.frame >= begun.playFrame) strokesSoFar += 1;
      }),
    ];
  }

  function forget(): Recording | null {
    for (const off of leave) off();
    leave = [];
    const had = recording;
    recording = null;
    peak = 0;
    countIn = null;
    return had;
  }

  /** What the next take is held against: the probe that was asked for, else the phrase. */
  function asked(): { readonly content: ExerciseContent; readonly tempoBpm: number } | null {
    const { phrase, probe, heard } = stand.ring();
    if (probe && heard) return { content: probe.content, tempoBpm: probeTempoBpm(probe, heard) };
    const sticking = readingOf(phrase).value;
    const tempoBpm = tempoOf(phrase);
    return sticking && tempoBpm !== null ? { content: contentOf(phrase, sticking), tempoBpm } : null;
  }

  async function record(withClick: boolean): Promise<void> {
    const tempoBpm = asked()?.tempoBpm ?? null;
    if (stand.ring().take.at !== 'idle' || tempoBpm === null) return;
    strokesSoFar = 0;
    stand.turn({ kind: 'takeMoved', take: { at: 'opening' } });
    const begun = await beginRecording(room, { tempoBpm, withClick });
    if (!begun.value) return fail(begun.problems);
    recording = begun.value;
    watch(recording);
    stand.turn({ kind: 'takeMoved', take: { at: 'recording', withClick } });
  }

  async function stop(): Promise<void> {
    const had = forget();
    if (!had) return;
    stand.turn({ kind: 'takeMoved', take: { at: 'listening' } });
    const taken = await endRecording(room, had);
    if (!taken.value) return fail(taken.problems);
    await measure({ ...taken.value, problems: taken.problems });
  }

  async function discard(): Promise<void> {
    const had = forget();
    if (had) await dropRecording(room, had);
    stand.turn({ kind: 'takeMoved', take: { at: 'idle' } });
  }

  async function open(file: Blob): Promise<void> {
    stand.turn({ kind: 'takeMoved', take: { at: 'reading' } });
    const takeId = room.newId();
    const read = await room.readSoundFile(file, takeId);
    if (!read.value) return fail(read.problems);
    const heard = await room.ear().hearFile(read.value);
    if (!heard.value) return fail([...read.problems, ...heard.problems]);
    await measure({ takeId, strokes: heard.value.strokes, clicksSec: [], spans: null, problems: [...read.problems, ...heard.problems] });
  }

  async function measure(taken: ToMeasure): Promise<void> {
    const { phrase, probe, heard } = stand.ring();
    const against = asked();
    if (!against) return fail([]);
    const reading = await room.ear().measureTake({
      takeId: taken.takeId,
      cycle: expectedCycle(against.content),
      tempoBpm: against.tempoBpm,
      ...(taken.clicksSec.length > 0 ? { clicksSec: taken.clicksSec } : {}),
      ...(taken.spans ? { spans: taken.spans } : {}),
      ...(probe ? {} : wantedOf(phrase)),
    });
    const problems = [...taken.problems, ...reading.problems];
    if (!reading.value) return fail(problems);
    if (probe && heard) return stand.turn({ kind: 'probeHeard', heard: withProbe(heard, probe, reading.value.measurement) });
    stand.turn({
      kind: 'takeHeard',
      heard: heardOf({
        takeId: taken.takeId,
        phrase,
        ...reading.value,
        hints: drumHints(reading.value.measurement.strokes, taken.strokes),
        problems,
      }),
    });
  }

  return {
    get peak() {
      return peak;
    },
    get strokesSoFar() {
      return strokesSoFar;
    },
    get countIn() {
      return countIn;
    },
    record,
    stop,
    discard,
    open,
    prepare: () => void room.ear(),
  };
}
