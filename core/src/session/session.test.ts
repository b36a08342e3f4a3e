import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { barFrame, beatFrame, endFrameOf } from './beats.ts';
import { layoutBlock, roundBarsOf } from './block.ts';
import { clicksOf } from './click.ts';
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

describe('where beats fall', () => {
  test.each([
    { says: 'FACTS.md 12: a bar of 4/4 at 100 lasts 2.4 s', tempoBpm: 100, beat: 4, frame: 115_200 },
    { says: 'FACTS.md 12: four bars at 100 last 9.6 s', tempoBpm: 100, beat: 16, frame: 460_800 },
    { says: 'FACTS.md 12: two bars at 80 last 6 s', tempoBpm: 80, beat: 8, frame: 288_000 },
    { says: 'arithmetic: 60/144·48000 = 20000', tempoBpm: 144, beat: 1, frame: 20_000 },
    { says: 'arithmetic: 1000·60·48000/97 = 29690721.65 rounds up', tempoBpm: 97, beat: 1000, frame: 29_690_722 },
    { says: 'FACTS.md 12: a sixteenth at 120 lasts 125 ms', tempoBpm: 120, beat: 0.25, frame: 6_000 },
  ])('beat $beat at $tempoBpm is frame $frame: $says', ({ tempoBpm, beat, frame }) => {
    const layout = layoutBlock(blockOf('RL', { tempoBpm, minutes: 15 }), slot(900), { sampleRateHz: RATE, first: true });
    expect(beatFrame(layout, beat)).toBe(frame);
  });

  test('15 minutes of 4/4 at 100 are 375 bars, count-in inside: FACTS.md 12', () => {
    const layout = layoutBlock(blockOf('RL', { minutes: 15 }), slot(900), { sampleRateHz: RATE, first: true });
    expect(layout.countInBars + layout.barCount).toBe(375);
    expect(endFrameOf(layout)).toBe(900 * RATE);
    expect(clicksOf(layout)).toHaveLength(1500);
  });

  test('a later block leaves eight seconds to read: (60 − 8)/2.4 = 21.67, so 21 bars (arithmetic)', () => {
    const layout = layoutBlock(blockOf('RL'), slot(60), { sampleRateHz: RATE, first: false });
    expect(layout.startFrame).toBe(8 * RATE);
    expect(layout.countInBars + layout.barCount).toBe(21);
  });

  test('a slow count-in is one bar, a quick one two: two bars at 80 last 6 s (FACTS.md 12), at 79 longer', () => {
    const countIn = (tempoBpm: number) => layoutBlock(blockOf('RL', { tempoBpm }), slot(60), { sampleRateHz: RATE, first: true }).countInBars;
    expect([countIn(80), countIn(79)]).toEqual([2, 1]);
  });

  test.each([
    [1, 4],
    [2, 4],
    [3, 3],
    [4, 4],
    [5, 5],
    [6, 6],
    [7, 7],
    [9, 9],
  ])('an exercise of %i bars has rounds of %i (arithmetic: multiple of the bars nearest to four)', (bars, round) => {
    expect(roundBarsOf(bars)).toBe(round);
  });

  test('clicks: strictly later, each within half a frame of k·60/tempo, the first of each bar accented (arithmetic)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 300, noNaN: true }),
        fc.double({ min: 0.05, max: 20, noNaN: true }),
        fc.constantFrom(44_100, 48_000, 96_000),
        fc.integer({ min: 0, max: 1e9 }),
        (tempoBpm, minutes, sampleRateHz, fromFrame) => {
          const toFrame = fromFrame + Math.round(minutes * 60 * sampleRateHz);
          const layout = layoutBlock(blockOf('RLRLKK', { tempoBpm, minutes }), { fromFrame, toFrame }, { sampleRateHz, first: true });
          const clicks = clicksOf(layout);
          clicks.forEach((click, k) => {
            expect(Math.abs(click.frame - layout.startFrame - (k * 60 * sampleRateHz) / tempoBpm)).toBeLessThanOrEqual(0.5001);
            expect(click.accent).toBe(k % 4 === 0);
            if (k > 0) expect(click.frame).toBeGreaterThan(clicks[k - 1]!.frame);
          });
          const barFrames = (4 * 60 * sampleRateHz) / tempoBpm;
          const shortest = layout.countInBars + 1;
          if (layout.countInBars + layout.barCount > shortest) expect(endFrameOf(layout)).toBeLessThanOrEqual(toFrame + 1);
          expect(toFrame - endFrameOf(layout)).toBeLessThan(barFrames + 1);
        },
      ),
      { numRuns: 60, seed: 12 },
    );
  });
});

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
        const names = (kind: 'openTake' | 'closeTake') => effects.flatMap((effect) => (effect.kind === kind ? [effect.take] : []));
        expect(names('closeTake')).toEqual(names('openTake'));
        expect(new Set(names('openTake')).size).toBe(names('openTake').length);
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
    expect(effects.map((effect) => effect.kind)).toEqual(['cancelClicks', 'closeTake', 'clicks']);
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
    expect(effects.map((effect) => effect.kind)).toEqual(['writeBlock', 'cancelClicks', 'show', 'clicks']);
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
