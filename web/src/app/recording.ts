/** One take of the phrase: microphone open, click and count-in if wanted, stored while it is played. */
import type { Reading } from '@evenhand/core/problem';
import { type BlockLayout, barFrame, clicksOf, countInBarsOf, type SessionClick } from '@evenhand/core/session';
import type { Stroke } from '@evenhand/core/stroke';
import { beatsOfSec, secOfBeats, secOfFrames } from '@evenhand/core/units';
import type { Click } from '../audio/click.ts';
import type { Engine } from '../audio/engine.ts';
import type { TakeSpan, ToldClicks } from '../worker/protocol.ts';
import { clickWayOf } from './clickway.ts';
import type { Counting } from './counting.ts';
import type { Room } from './room.ts';

/** A take of the phrase ends by itself after so many seconds. Assumption: twenty cycles of two bars at 80. */
export const LONGEST_TAKE_SEC = 120;

/** From pressing to the first click, in seconds: time to take up the sticks. Assumption. */
const LEAD_SEC = 1.5;

const BEATS_PER_BAR = 4;

export interface Recording {
  readonly takeId: string;
  readonly engine: Engine;
  readonly withClick: boolean;
  /** Null without a click. */
  readonly layout: BlockLayout | null;
  /** Frame from which the phrase was to be played. */
  readonly playFrame: number;
  readonly fromFrame: number;
  readonly counting: Counting;
}

/** What a click of a session is to the click worklet. */
export const clickOf = (click: SessionClick): Click => ({
  frame: click.frame,
  voice: click.part ? 'subdivision' : click.accent ? 'bar' : 'beat',
  gainDb: click.gainDb ?? 0,
  ...(click.sound ? { sound: click.sound } : {}),
});

/** What the ear is told of clicks that sounded in a take, at seconds of it: all of a block sound alike. */
export function toldAs(clicks: readonly { readonly sec: number; readonly click: SessionClick }[], { clickSound }: Engine): Required<ToldClicks> {
  return {
    clicksSec: clicks.map(({ sec }) => sec),
    clickVoices: clicks.map(({ click }) => clickOf(click).voice),
    clickSound: clicks[0]?.click.sound ?? clickSound,
  };
}

/**
 * Opens microphone and take, and starts the click.
 * @returns refused when there is no microphone to record with; its reason is among the problems.
 */
export async function beginRecording(room: Room, asked: { readonly tempoBpm: number; readonly withClick: boolean }): Promise<Reading<Recording>> {
  const sound = await room.openEngine({ microphone: 'asked' });
  const engine = sound.value;
  if (!engine?.microphone) {
    await engine?.close();
    return { value: null, problems: sound.problems };
  }
  const ear = room.ear();
  ear.listenTo(engine);
  const fromFrame = engine.nextFrame();
  const layout = asked.withClick ? phraseLayout(engine, asked.tempoBpm) : null;
  const takeId = room.newId();
  const clock = { sampleRateHz: engine.sampleRateHz, fromFrame, wallMs0: engine.wallMsOf(fromFrame), ...clickWayOf(engine) };
  const opened = await ear.openTake({ takeId, sessionId: null, ...clock, ...room.writtenNow() });
  if (layout) engine.schedule(clicksOf(layout).map(clickOf));
  const counting = room.counting(engine);
  counting.follow(layout);
  const playFrame = layout ? barFrame(layout, 0) : fromFrame;
  const recording = { takeId, engine, withClick: asked.withClick, layout, playFrame, fromFrame, counting };
  return { value: recording, problems: [...sound.problems, ...opened.problems] };
}

/** Ends a recording: closes the take, silences and closes the sound. */
export async function endRecording(room: Room, recording: Recording): Promise<Reading<RecordedTake>> {
  const { engine, takeId } = recording;
  recording.counting.follow(null);
  const toFrame = engine.nextFrame();
  engine.cancelClicks();
  const told = clicksUntil(recording, toFrame);
  const heard = await room.ear().closeTake({ takeId, toFrame, ...told });
  await engine.close();
  if (!heard.value) return { value: null, problems: heard.problems };
  const spans = recording.layout ? [{ fromSec: secOfTake(recording, recording.playFrame), toSec: secOfTake(recording, toFrame), fromBeat: 0 }] : null;
  return { value: { takeId, clicksSec: told.clicksSec, spans, strokes: heard.value.strokes }, problems: heard.problems };
}

/** Ends a recording and keeps nothing of it. */
export async function dropRecording(room: Room, recording: Recording): Promise<void> {
  recording.counting.follow(null);
  recording.engine.cancelClicks();
  await room.ear().dropTake(recording.takeId);
  await recording.engine.close();
}

/** A take that was heard, and what is known of where the phrase lies in it. */
export interface RecordedTake {
  readonly takeId: string;
  readonly strokes: readonly Stroke[];
  readonly clicksSec: readonly number[];
  readonly spans: readonly TakeSpan[] | null;
}

/** The count-in of a running recording at a frame, or null when it is over or there is none. Bars and beats from 1. */
export function countInAt(recording: Recording, frame: number): { readonly bar: number; readonly beat: number } | null {
  const { layout } = recording;
  if (!layout || frame >= recording.playFrame) return null;
  const beats = Math.max(0, Math.floor(beatsOfSec(secOfFrames(frame - layout.startFrame, layout.sampleRateHz), layout.tempoBpm)));
  return { bar: Math.floor(beats / BEATS_PER_BAR) + 1, beat: (beats % BEATS_PER_BAR) + 1 };
}

function phraseLayout(engine: Engine, tempoBpm: number): BlockLayout {
  const barSec = secOfBeats(BEATS_PER_BAR, tempoBpm);
  return {
    sampleRateHz: engine.sampleRateHz,
    tempoBpm,
    beatsPerBar: BEATS_PER_BAR,
    startFrame: engine.nextFrame() + Math.round(LEAD_SEC * engine.sampleRateHz),
    countInBars: countInBarsOf(barSec),
    firstBar: 0,
    barCount: Math.ceil(LONGEST_TAKE_SEC / barSec),
    roundBars: 4,
  };
}

const secOfTake = (recording: Recording, frame: number): number => secOfFrames(frame - recording.fromFrame, recording.engine.sampleRateHz);

function clicksUntil(recording: Recording, toFrame: number): Required<ToldClicks> {
  const clicks = (recording.layout ? clicksOf(recording.layout) : []).filter((click) => click.frame < toFrame);
  return toldAs(
    clicks.map((click) => ({ sec: secOfTake(recording, click.frame), click })),
    recording.engine,
  );
}
