/** The takes of a running session: each opened, closed, heard and held against its exercise by the ear. */
import type { Shape } from '@evenhand/core/finding';
import type { Problem, Reading } from '@evenhand/core/problem';
import type { AskedTake, ExerciseSpan, SessionBlock, SessionClick } from '@evenhand/core/session';
import { secOfFrames } from '@evenhand/core/units';
import type { Engine } from '../audio/engine.ts';
import type { MeasuredTake, TakeSpan, ToldClicks } from '../worker/protocol.ts';
import { clickWayOf } from './clickway.ts';
import { toldAs } from './recording.ts';
import type { Room } from './room.ts';

interface BlockTake {
  readonly takeId: string;
  readonly fromFrame: number;
  /** Only whether it was heard: an hour of strokes stays with the ear. */
  closed: Promise<Reading<true>> | null;
  /** Every beat of it, clicked or not. */
  beatsSec: readonly number[];
}

/** What sounded while a take was open, in frames. */
export interface Sounded {
  readonly clicks: readonly SessionClick[];
  /** Every beat, clicked or not. */
  readonly beats: readonly number[];
}

/** What came of a block: all of it, and where the tempo moved within it each tempo by itself, in turn. */
export interface MeasuredBlock {
  readonly whole: Reading<MeasuredTake>;
  readonly stretches: readonly { readonly tempoBpm: number; readonly measured: MeasuredTake }[];
}

/** Keeps the takes of one session apart by the names the session gives them. */
export interface BlockTakes {
  /** Asks for a take by its frames, which may lie ahead: it holds them however late the page comes round to anything. */
  open(asked: Omit<AskedTake, 'block'>, sessionId: string): void;
  /** Another end of a take that goes on. */
  moveEnd(name: string, toFrame: number): void;
  /** Forgets a take that is not to be: nothing of it is kept. */
  drop(name: string): void;
  close(name: string, toFrame: number, sounded: Sounded): void;
  /** A stretch of a take, in seconds of it; null without such a take. */
  partOf(name: string, fromFrame: number, toFrame: number): { readonly takeId: string; readonly fromSec: number; readonly toSec: number } | null;
  /** Ids of the takes with these names, in order; names without a take are left out. */
  idsOf(names: readonly string[]): readonly string[];
  /** Holds the longest of the takes in `spans` against the block; a pause cuts a block into several. */
  measure(block: SessionBlock, spans: readonly ExerciseSpan[], shapes?: readonly Shape[]): Promise<MeasuredBlock>;
  /** The same for one round of a take that goes on. */
  glance(block: SessionBlock, span: ExerciseSpan, heard: Sounded & { readonly shapes: readonly Shape[] }): Promise<Reading<MeasuredTake>>;
  /** Settles when every take that was closed is stored and heard. */
  allClosed(): Promise<void>;
}

/** @param tell told of what goes wrong while takes are opened and closed. */
export function blockTakes(room: Room, engine: Engine, tell: (problems: readonly Problem[]) => void): BlockTakes {
  const takes = new Map<string, BlockTake>();
  const secOf = (take: BlockTake, frame: number): number => secOfFrames(frame - take.fromFrame, engine.sampleRateHz);
  const spanIn = (take: BlockTake, { fromFrame, toFrame, fromBeat, tempoBpm }: ExerciseSpan): TakeSpan => ({
    fromSec: secOf(take, fromFrame),
    toSec: secOf(take, toFrame),
    fromBeat,
    tempoBpm,
  });
  const askOf = ({ takeId }: BlockTake, { cycle, tempoBpm }: SessionBlock, shapes: readonly Shape[]) => ({ takeId, cycle, tempoBpm, shapes });
  const toldClicks = (take: BlockTake, clicks: readonly SessionClick[], toFrame: number): ToldClicks => {
    const within = clicks.filter((click) => click.frame >= take.fromFrame && click.frame < toFrame);
    return toldAs(
      within.map((click) => ({ sec: secOf(take, click.frame), click })),
      engine,
    );
  };
  return {
    open({ take: name, fromFrame, toFrame }, sessionId) {
      const takeId = room.newId();
      takes.set(name, { takeId, fromFrame, closed: null, beatsSec: [] });
      const clock = {
        sampleRateHz: engine.sampleRateHz,
        fromFrame,
        wallMs0: engine.wallMsOf(fromFrame),
        ...clickWayOf(engine),
      };
      void room
        .ear()
        .openTake({ takeId, sessionId, toFrame, ...clock, ...room.writtenNow() })
        .then((opened) => tell(opened.problems));
    },
    moveEnd(name, toFrame) {
      const take = takes.get(name);
      if (take) void room.ear().moveTakeEnd({ takeId: take.takeId, toFrame });
    },
    drop(name) {
      const take = takes.get(name);
      if (take) void room.ear().dropTake(take.takeId);
      takes.delete(name);
    },
    close(name, toFrame, { clicks, beats }) {
      const take = takes.get(name);
      if (!take) return;
      take.beatsSec = beats.filter((frame) => frame >= take.fromFrame && frame < toFrame).map((frame) => secOf(take, frame));
      const closing = room.ear().closeTake({ takeId: take.takeId, toFrame, ...toldClicks(take, clicks, toFrame) });
      take.closed = closing.then(({ value, problems }) => ({ value: value && true, problems }));
      void take.closed.then((heard) => tell(heard.problems));
    },
    partOf(name, fromFrame, toFrame) {
      const take = takes.get(name);
      return take ? { takeId: take.takeId, fromSec: secOf(take, fromFrame), toSec: secOf(take, toFrame) } : null;
    },
    idsOf: (names) => names.flatMap((name) => takes.get(name)?.takeId ?? []),
    async measure(block, spans, shapes = []) {
      const name = longestOf(spans);
      const take = name === null ? undefined : takes.get(name);
      const heard = await take?.closed;
      if (!take || !heard?.value) return { whole: { value: null, problems: heard?.problems ?? [] }, stretches: [] };
      const inTake = spans.filter((span) => span.take === name);
      const hold = (those: readonly ExerciseSpan[]) =>
        room.ear().measureTake({
          ...askOf(take, block, shapes),
          spans: those.map((span) => spanIn(take, span)),
          clicksSec: take.beatsSec,
        });
      const whole = await hold(inTake);
      const turns = byTempo(inTake);
      const each = turns.length > 1 ? await Promise.all(turns.map(hold)) : [];
      const stretches = each.flatMap(({ value }, k) => (value ? [{ tempoBpm: turns[k]![0]!.tempoBpm, measured: value }] : []));
      return { whole, stretches };
    },
    async glance(block, span, { clicks, beats, shapes }) {
      const take = takes.get(span.take);
      if (!take) return { value: null, problems: [] };
      const sounded = toldClicks(take, clicks, span.toFrame);
      const clicksSec = beats.filter((frame) => frame >= take.fromFrame).map((frame) => secOf(take, frame));
      return room.ear().glanceTake({ ...askOf(take, block, shapes), spans: [spanIn(take, span)], clicksSec, sounded });
    },
    async allClosed() {
      await Promise.all([...takes.values()].map((take) => take.closed));
    },
  };
}

/** Spans at one tempo after each other. */
function byTempo(spans: readonly ExerciseSpan[]): readonly (readonly ExerciseSpan[])[] {
  const turns: ExerciseSpan[][] = [];
  for (const span of spans) {
    const last = turns.at(-1);
    if (last && last[0]!.tempoBpm === span.tempoBpm) last.push(span);
    else turns.push([span]);
  }
  return turns;
}

/** Name of the take that holds most of the exercise. */
function longestOf(spans: readonly ExerciseSpan[]): string | null {
  const frames = new Map<string, number>();
  for (const span of spans) frames.set(span.take, (frames.get(span.take) ?? 0) + span.toFrame - span.fromFrame);
  return [...frames].sort((a, b) => b[1] - a[1])[0]?.[0] ?? null;
}
