import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { barFrame, beatFrame, endFrameOf } from './beats.ts';
import { layoutBlock, roundBarsOf } from './block.ts';
import { presentStroke, secLeftInBlock } from './present.ts';
import { exerciseSpans } from './round.ts';
import { stepSession } from './session.ts';
import { minutesOf, newSession, type SessionEvent, type SessionState } from './state.ts';
import { blockOf, heardAt, play, ticks } from './trial.case.ts';

const RATE = 48_000;
const slot = (sec: number) => ({ fromFrame: 0, toFrame: sec * RATE });
const started = (minutes: readonly number[], letters = 'RLRLKK') =>
  newSession(
    minutes.map((m) => blockOf(letters, { minutes: m })),
    RATE,
  );
const at = (sec: number) => Math.round(sec * RATE);
const start: SessionEvent = { kind: 'start', frame: 0 };

describe('what is under the eyes', () => {
  const running = play(started([1]), [start, { kind: 'tick', frame: at(2) }]).state;
  const layout = running.layout!;

  test.each([
    { says: 'arithmetic: 16ths at 100 last 150 ms', sixteenth: 0, cycle: 0, index: 0 },
    { says: 'arithmetic: 5 of 6', sixteenth: 5, cycle: 0, index: 5 },
    { says: 'arithmetic: 6 = 1·6 + 0', sixteenth: 6, cycle: 1, index: 0 },
    { says: 'arithmetic: 16 = 2·6 + 4, over the bar line', sixteenth: 16, cycle: 2, index: 4 },
    { says: 'arithmetic: 47 = 7·6 + 5, the last of three bars', sixteenth: 47, cycle: 7, index: 5 },
  ])('sixteenth $sixteenth shows stroke $index of cycle $cycle from its own frame on: $says', ({ sixteenth, cycle, index }) => {
    const frame = barFrame(layout, 0) + Math.round(sixteenth * 0.15 * RATE);
    expect(presentStroke(running, frame)).toMatchObject({ part: 'exercise', cycle, indices: [index] });
    expect(presentStroke(running, frame + Math.round(0.15 * RATE) - 1)).toMatchObject({ cycle, indices: [index] });
  });

  test('every stroke is present exactly from the rounded frame of its beat (arithmetic)', () => {
    fc.assert(
      fc.property(fc.double({ min: 30, max: 280, noNaN: true }), fc.integer({ min: 0, max: 300 }), (tempoBpm, stroke) => {
        const state = play(newSession([blockOf('RLRRLKK', { tempoBpm, minutes: 60 })], RATE), [start, { kind: 'tick', frame: at(2) }]).state;
        const bars = roundBarsOf(7);
        const round = Math.floor(stroke / (16 * bars));
        const beat = (state.layout!.countInBars + 2 * bars * round) * 4 + (stroke % (16 * bars)) / 4;
        const frame = beatFrame(state.layout!, beat);
        const inRound = stroke % (16 * bars);
        expect(presentStroke(state, frame)).toMatchObject({ part: 'exercise', round, cycle: Math.floor(inRound / 7), indices: [inRound % 7] });
        if (inRound > 0) expect(presentStroke(state, frame - 1)).toMatchObject({ indices: [(inRound - 1) % 7] });
      }),
      { numRuns: 60, seed: 13 },
    );
  });

  test('after as many bars as the exercise had comes plain time, then the next round (JOB.md: four bars of exercise, four of plain time)', () => {
    const fourBars = play(started([2], 'RL'), [start, { kind: 'tick', frame: at(2) }]).state;
    const part = (bar: number) => presentStroke(fourBars, barFrame(fourBars.layout!, bar));
    expect(part(3)).toMatchObject({ part: 'exercise', round: 0, bar: 3, bars: 4 });
    expect(part(4)).toMatchObject({ part: 'plain', round: 0, bar: 0, beat: 0 });
    expect(part(8)).toMatchObject({ part: 'exercise', round: 1, bar: 0, cycle: 0, indices: [0] });
  });

  test('a count-in says bar and beat; before it there is waiting, after the last bar nothing', () => {
    expect(presentStroke(running, layout.startFrame - 1)).toEqual({ part: 'waiting', secLeft: 1 / RATE });
    expect(presentStroke(running, beatFrame(layout, 5))).toEqual({ part: 'countIn', bar: 1, bars: 2, beat: 1 });
    expect(presentStroke(running, endFrameOf(layout))).toEqual({ part: 'over' });
  });
});

test('time left in a block: a minute at 100 from the first click on, then less (arithmetic: 25 bars of 2.4 s)', () => {
  const { state } = play(started([1]), [start]);
  expect(secLeftInBlock(state, at(2))).toBe(60);
  expect(secLeftInBlock(state, at(2) + 1)).toBe(60);
  expect(secLeftInBlock(state, at(3.5))).toBe(59);
  expect(secLeftInBlock(state, at(62))).toBe(0);
  expect(secLeftInBlock(newSession([], RATE), 0)).toBeNull();
});

describe('a session from start to end', () => {
  const minutes = [0.5, 1, 0.5];
  const answer = (state: SessionState, sec: number): SessionState => {
    let now = state;
    for (const block of state.awaited) now = stepSession(now, { kind: 'measured', frame: at(sec), block, heard: heardAt(100) }).state;
    return now;
  };

  test('shows, clicks, records and measures each block once, and ends on time', () => {
    const { state, effects, log } = play(started(minutes), [start, ...ticks(0, 123, 0.02, RATE)]);
    const kinds = (kind: string) => effects.filter((effect) => effect.kind === kind);
    expect(kinds('show').map((effect) => 'block' in effect && effect.block)).toEqual([0, 1, 2]);
    expect(kinds('openTake')).toHaveLength(3);
    expect(kinds('closeTake')).toHaveLength(3);
    expect(kinds('measure')).toHaveLength(3);
    expect(state.phase).toBe('listening');
    const lastClose = log.filter((line) => line.effect.kind === 'closeTake').at(-1)!;
    expect(lastClose.frame).toBeLessThanOrEqual(at(2 + 60 * minutesOf(state.blocks) + 0.3));
    expect(answer(state, 123).phase).toBe('ended');
  });

  test('one late tick does what all the ticks in between would have done (a blocked page)', () => {
    const often = play(started(minutes), [start, ...ticks(0, 123, 0.02, RATE)]);
    const once = play(started(minutes), [start, { kind: 'tick', frame: at(123) }]);
    expect(once.effects).toEqual(often.effects);
  });

  test('no event is lost: whatever is pressed and however the ticks fall, every opened take is closed and every block written or asked for once', () => {
    const press = fc.constantFrom(
      'pause',
      'resume',
      'skip',
      'dontCount',
      'repeat',
      'slower',
      'faster',
      'goOn',
      'keep',
      'tick',
      'tick',
      'tick',
      'stop',
      'hurts',
    ) as fc.Arbitrary<'tick'>;
    fc.assert(
      fc.property(fc.array(fc.tuple(press, fc.double({ min: 0, max: 20, noNaN: true })), { maxLength: 40 }), (presses) => {
        let sec = 0;
        const events = presses.map(([kind, wait]): SessionEvent => {
          sec += wait;
          return { kind, frame: at(sec) };
        });
        const { state, effects } = play(started(minutes), [
          start,
          ...events,
          { kind: 'stop', frame: at(sec + 1) },
          { kind: 'stop', frame: at(sec + 2) },
        ]);
        // Each take is closed or dropped before the next is asked for, and no two that are kept have one name.
        const takes = effects.flatMap((effect) => ('take' in effect && effect.kind !== 'moveTakeEnd' ? [[effect.kind, effect.take]] : []));
        const asked = takes.filter(([kind]) => kind === 'openTake').map(([, take]) => take);
        expect(takes.filter(([kind]) => kind !== 'openTake').map(([, take]) => take)).toEqual(asked);
        expect(takes.map(([kind]) => kind === 'openTake')).toEqual(takes.map((_, k) => k % 2 === 0));
        const kept = takes.filter(([kind]) => kind === 'closeTake').map(([, take]) => take);
        expect(new Set(kept).size).toBe(kept.length);
        expect(state.phase).toBe('ended');
        expect(effects.filter((effect) => effect.kind === 'writeSession')).toHaveLength(1);
        const told = effects.flatMap((effect) =>
          effect.kind === 'measure' ? [effect.block] : effect.kind === 'writeBlock' ? [effect.outcome.block] : [],
        );
        expect(new Set(told)).toEqual(new Set(state.outcomes.map((outcome) => outcome.block)));
      }),
      { numRuns: 200, seed: 14 },
    );
  });

  test('a state stored as JSON and taken up again goes on as if nothing had happened', () => {
    const half = play(started(minutes), [start, ...ticks(0, 40, 0.1, RATE)]).state;
    const taken = JSON.parse(JSON.stringify(half)) as SessionState;
    expect(play(taken, ticks(40, 123, 0.1, RATE))).toEqual(play(half, ticks(40, 123, 0.1, RATE)));
  });
});

describe('takes are asked for by frames, while their block still waits (issue 8: a page that stands still loses nothing)', () => {
  const takesOf = ({ log }: ReturnType<typeof play>) =>
    log.flatMap(({ frame, effect }) => ('take' in effect && effect.kind !== 'closeTake' ? [{ atFrame: frame, ...effect }] : []));

  test('from the first click of the count-in to a quarter of a second after the last bar (parameters.ts)', () => {
    const played = play(started([0.5, 1]), [start, ...ticks(0, 93, 0.2, RATE)]);
    const clicks = played.effects.flatMap((effect) => (effect.kind === 'clicks' ? [effect.clicks[0]!.frame] : []));
    const closed = played.effects.flatMap((effect) => (effect.kind === 'closeTake' ? [effect.atFrame] : []));
    const asked = takesOf(played);
    expect(asked.map(({ kind }) => kind)).toEqual(['openTake', 'openTake']);
    expect(asked.map((take) => 'fromFrame' in take && take.fromFrame)).toEqual(clicks);
    expect(asked.map((take) => 'toFrame' in take && take.toFrame)).toEqual(closed);
    // Two seconds to take up the sticks, eight to look at what was heard: never less ahead than the shorter of the two.
    for (const take of asked) expect('fromFrame' in take && take.fromFrame - take.atFrame).toBeGreaterThanOrEqual(at(2));
  });

  test('a page that stands still for three seconds around the start asks for the same frames', () => {
    const still = play(started([1]), [start, ...ticks(0, 1, 0.2, RATE), ...ticks(4, 8, 0.2, RATE)]);
    expect(takesOf(still)).toEqual(takesOf(play(started([1]), [start, ...ticks(0, 8, 0.2, RATE)])));
  });

  test('a pause in a rest drops it, going on asks anew; another tempo moves its end alone', () => {
    const waiting = play(started([0.5, 1]), [start, ...ticks(0, 33, 0.2, RATE)]);
    const faster = play(waiting.state, [{ kind: 'faster', frame: at(33.5) }]);
    expect(takesOf(faster).map(({ kind, take }) => [kind, take])).toEqual([['moveTakeEnd', 'block-2-1']]);
    const paused = play(faster.state, [
      { kind: 'pause', frame: at(34) },
      { kind: 'resume', frame: at(60) },
    ]);
    expect(takesOf(paused)).toMatchObject([
      { kind: 'dropTake', take: 'block-2-1', block: 1 },
      { kind: 'openTake', take: 'block-2-1', block: 1, fromFrame: at(62) },
    ]);
  });

  test('a command that comes late finds the block begun: the take is closed, not dropped', () => {
    const late = play(started([1]), [start, { kind: 'pause', frame: at(5) }]);
    expect(late.effects.map(({ kind }) => kind)).toEqual(['show', 'clicks', 'openTake', 'cancelClicks', 'closeTake']);
  });
});

describe('steering', () => {
  const playing = play(started([1, 1]), [start, ...ticks(0, 17, 0.05, RATE)]).state;

  test('in a pause the stroke that was cut stays under the eyes, however long it lasts (says: a pause is no time, core/session)', () => {
    const { state } = play(newSession([blockOf('RLRL')], RATE), [
      { kind: 'start', frame: 0 },
      ...ticks(0, 8, 1, RATE),
      { kind: 'pause', frame: 9 * RATE },
    ]);
    const cut = presentStroke(state, 9 * RATE);
    expect(cut.part).toBe('exercise');
    expect(presentStroke(state, 500 * RATE)).toEqual(cut);
  });

  test('pause stops the click and closes the take; going on counts in again at the bar that was cut and ends that much later', () => {
    const bar = Math.floor((15 - 2 * 2.4) / 2.4);
    const { state, effects } = play(playing, [
      { kind: 'pause', frame: at(17) },
      { kind: 'resume', frame: at(47) },
    ]);
    expect(effects.map((effect) => effect.kind)).toEqual(['cancelClicks', 'closeTake', 'clicks', 'openTake']);
    expect(state.layout).toMatchObject({ firstBar: bar, startFrame: at(49) });
    expect(endFrameOf(state.layout!)).toBe(at(49 + (2 + state.layout!.barCount - bar) * 2.4));
    expect(state.originFrame - playing.originFrame).toBe(endFrameOf(state.layout!) - endFrameOf(playing.layout!));
  });

  test('skipping begins the next block now', () => {
    const { state } = play(playing, [{ kind: 'skip', frame: at(17) }]);
    expect(state.block).toBe(1);
    expect(state.layout!.startFrame).toBe(at(17 + 8));
    expect(state.outcomes[0]).toMatchObject({ ended: 'skipped', playedSec: 15 });
  });

  test('a round that does not count is left out of what the ear is asked', () => {
    const { effects } = play(playing, [{ kind: 'dontCount', frame: at(17) }, ...ticks(17, 63, 0.05, RATE)]);
    const asked = effects.flatMap((effect) => (effect.kind === 'measure' ? effect.spans.map((span) => span.round) : []));
    expect(asked).not.toContain(0);
    expect(asked.length).toBeGreaterThan(0);
  });

  test('said again, it counts again, while its block runs and after it (issue 8: undone by the next command)', () => {
    const say = (frame: number): SessionEvent => ({ kind: 'dontCount', frame });
    const asked = (events: readonly SessionEvent[]) =>
      play(playing, events).effects.flatMap((effect) => (effect.kind === 'measure' ? [effect.spans.map(({ round }) => round)] : []));
    const [all] = asked(ticks(17, 64, 0.05, RATE));
    expect(asked([say(at(17)), say(at(17.1)), ...ticks(17.2, 64, 0.05, RATE)])).toEqual([all]);
    expect(asked([...ticks(17, 64, 0.05, RATE), say(at(64)), say(at(64.1))])).toEqual([all, all!.slice(0, -1), all]);
  });

  test('said too late, the last round is taken out and the ear is asked again', () => {
    const after = play(playing, ticks(17, 64, 0.05, RATE));
    const again = play(after.state, [{ kind: 'dontCount', frame: at(64) }]).effects[0]!;
    const first = after.effects.find((effect) => effect.kind === 'measure')!;
    expect(first.kind === 'measure' && again.kind === 'measure' && again.spans).toEqual(first.kind === 'measure' && first.spans.slice(0, -1));
  });

  test('something hurts: silence, the take kept, the session over and noted, nothing asked', () => {
    const { state, effects } = play(playing, [{ kind: 'hurts', frame: at(17) }]);
    expect(effects.map((effect) => effect.kind)).toEqual(['cancelClicks', 'closeTake', 'writeBlock', 'writeSession']);
    expect(state).toMatchObject({ phase: 'ended', hurt: true });
  });

  test('stopped before a count-in, a block is not told of, and the session was stopped all the same', () => {
    const waiting = play(playing, [...ticks(17, 63, 0.05, RATE), { kind: 'measured', frame: at(63), block: 0, heard: heardAt(100) }]).state;
    expect(waiting.phase).toBe('breather');
    const { effects } = play(waiting, [{ kind: 'stop', frame: at(64) }]);
    const summary = effects.flatMap((effect) => (effect.kind === 'writeSession' ? [effect.summary] : []))[0]!;
    expect(summary).toMatchObject({ stoppedEarly: true, hurt: false });
    expect(summary.outcomes.map(({ block }) => block)).toEqual([0]);
  });

  test('stopped while the ear is still at work, the block is written at once and again when the ear is done', () => {
    const ending = play(playing, [
      { kind: 'stop', frame: at(17) },
      { kind: 'stop', frame: at(17) },
    ]);
    const late = play(ending.state, [{ kind: 'measured', frame: at(19), block: 0, heard: heardAt(98) }]);
    const heards = [...ending.effects, ...late.effects].flatMap((effect) =>
      effect.kind === 'writeBlock' ? [effect.outcome.heard?.nextTempoBpm] : [],
    );
    expect(heards).toEqual([undefined, 98]);
  });

  test('what was heard moves the tempo of the same exercise where it comes again, also while that waits for its count-in', () => {
    const waiting = play(playing, ticks(17, 63, 0.05, RATE)).state;
    expect(waiting.phase).toBe('breather');
    const { state, effects } = play(waiting, [{ kind: 'measured', frame: at(63), block: 0, heard: heardAt(104) }]);
    expect(effects.map((effect) => effect.kind)).toEqual(['writeBlock', 'cancelClicks', 'show', 'clicks', 'moveTakeEnd']);
    expect(state.layout!.tempoBpm).toBe(104);
    expect(state.outcomes[0]!.heard!.nextTempoBpm).toBe(104);
  });

  test('an ear that never answers does not hold the end: it closes after a minute (parameters.ts)', () => {
    const { state } = play(started([0.5]), [start, ...ticks(0, 94, 0.5, RATE)]);
    expect(state.phase).toBe('ended');
  });
});

test('spans of a cut round know how far into it they begin (arithmetic: bar 1 of a round begins at its beat 4)', () => {
  const layout = { ...layoutBlock(blockOf('RL'), slot(60), { sampleRateHz: RATE, first: true }), firstBar: 1 };
  const [first, second] = exerciseSpans(layout, { take: 't', block: 0, untilFrame: endFrameOf(layout) });
  expect(first).toMatchObject({ round: 0, fromBeat: 4, fromFrame: barFrame(layout, 1), toFrame: barFrame(layout, 4) });
  expect(second).toMatchObject({ round: 1, fromBeat: 0, fromFrame: barFrame(layout, 8) });
});
