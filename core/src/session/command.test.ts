import { describe, expect, test } from 'vitest';
import { barFrame, endFrameOf } from './beats.ts';
import { saidBySticks } from './command.ts';
import { newSession, type SessionEvent, type SessionState } from './state.ts';
import { blockOf, heardAt, play, ticks } from './trial.case.ts';

const RATE = 48_000;
const at = (sec: number) => Math.round(sec * RATE);
const start: SessionEvent = { kind: 'start', frame: 0 };
const tempi = ({ blocks }: SessionState) => blocks.map(({ tempoBpm }) => tempoBpm);
/* A minute at 100 in 4/4: the first click at 2 s, bars of 2.4 s, two of them count-in; then eight seconds to rest. */
const two = play(newSession([blockOf('RLRL'), blockOf('RLRR')], RATE), [start, ...ticks(0, 15, 0.1, RATE)]).state;
const resting = play(two, [...ticks(15, 63, 0.1, RATE), { kind: 'measured', frame: at(63), block: 0, heard: heardAt(104) }]).state;
const plain = play(two, ticks(15, 18, 0.1, RATE)).state;

describe('again', () => {
  test('while a block waits, the one before comes once more, at the tempo that follows from it; said again, it is taken back (issue 8)', () => {
    const once = play(resting, [{ kind: 'repeat', frame: at(63.5) }]);
    expect(once.state.blocks.map(({ exercise }) => exercise.id)).toEqual(['RLRL', 'RLRL', 'RLRR']);
    expect(tempi(once.state)).toEqual([100, 104, 100]);
    expect(once.state.blocks.map(({ place }) => place)).toEqual([0, 0, 1]);
    expect(once.effects.map(({ kind }) => kind)).toEqual(['cancelClicks', 'show', 'clicks', 'moveTakeEnd']);
    const back = play(once.state, [{ kind: 'repeat', frame: at(64) }]).state;
    expect(back.blocks).toEqual(resting.blocks);
    expect(back.layout).toEqual(resting.layout);
  });

  test('while a block runs, its round is counted in once more, and the end moves by what that takes (arithmetic: bars of 2.4 s)', () => {
    const { state } = play(plain, [{ kind: 'repeat', frame: at(18) }]);
    expect(state.layout).toMatchObject({ firstBar: 0, startFrame: at(20) });
    expect(endFrameOf(state.layout!) - endFrameOf(plain.layout!)).toBe(at(18));
  });

  test('before anything was played it does nothing', () => {
    const begun = play(newSession([blockOf('RLRL')], RATE), [start]);
    expect(play(begun.state, [{ kind: 'repeat', frame: at(1) }]).effects).toEqual([]);
  });
});

describe('slower and faster', () => {
  test('a block that waits moves by a twentieth, at once, and back (arithmetic: 100 ± 5)', () => {
    const faster = play(resting, [{ kind: 'faster', frame: at(63) }]).state;
    expect(tempi(faster)).toEqual([100, 105]);
    expect(faster.layout).toMatchObject({ tempoBpm: 105, startFrame: resting.layout!.startFrame });
    expect(tempi(play(faster, [{ kind: 'slower', frame: at(64) }]).state)).toEqual([100, 99]);
  });

  test('a block that runs changes at the next bar line: what was played is told at its tempo, the rest goes on at the other (issue 8)', () => {
    const { state, effects } = play(plain, [{ kind: 'slower', frame: at(18) }]);
    const line = barFrame(plain.layout!, 5);
    expect(line).toBe(at(2 + 7 * 2.4));
    expect(effects.filter(({ kind }) => kind !== 'show').map(({ kind }) => kind)).toEqual([
      'cancelClicks',
      'closeTake',
      'measure',
      'clicks',
      'openTake',
    ]);
    expect(state.layout).toMatchObject({ tempoBpm: 95, startFrame: line });
    expect(state.outcomes).toMatchObject([{ tempoBpm: 100, ended: 'full', playedSec: 7 * 2.4 }]);
    expect(state.blocks.map(({ place, joined }) => [place, joined])).toEqual([
      [0, undefined],
      [0, true],
      [1, undefined],
    ]);
    expect(state.blocks[0]!.minutes + state.blocks[1]!.minutes).toBeCloseTo(1, 12);
  });

  test('never over a cap, and never where the tempo is the same every week (JOB.md: a teacher’s word)', () => {
    const capped = newSession([blockOf('RLRL', { capBpm: 102 }), blockOf('RLRR', { fixedTempo: true })], RATE);
    expect(tempi(play(capped, [start, { kind: 'faster', frame: at(1) }]).state)).toEqual([102, 100]);
    const fixed = newSession([blockOf('RLRR', { fixedTempo: true })], RATE);
    expect(tempi(play(fixed, [start, { kind: 'tempo', frame: at(1), tempoBpm: 60 }]).state)).toEqual([100]);
  });

  test('a tempo that was clicked is taken as a whole number', () => {
    expect(tempi(play(resting, [{ kind: 'tempo', frame: at(63), tempoBpm: 87.6 }]).state)).toEqual([100, 88]);
  });
});

test('“go on” begins the block that waits after two seconds, and the session ends that much earlier', () => {
  const { state } = play(resting, [{ kind: 'goOn', frame: at(64) }]);
  expect(state.layout!.startFrame).toBe(at(66));
  expect(endFrameOf(resting.layout!) - endFrameOf(state.layout!)).toBe(resting.layout!.startFrame - at(66));
});

describe('“keep that”', () => {
  test('keeps the last eight whole bars of the take, fewer where there are fewer, and lets go of them when it is said again', () => {
    const early = play(plain, [{ kind: 'keep', frame: at(18) }]);
    expect(early.effects).toEqual([
      {
        kind: 'keep',
        part: { block: 0, take: 'block-1-1', fromFrame: barFrame(plain.layout!, 0), toFrame: barFrame(plain.layout!, 4), tempoBpm: 100 },
      },
    ]);
    const late = play(resting, [{ kind: 'keep', frame: at(63) }]);
    const part = late.effects.flatMap((effect) => (effect.kind === 'keep' ? [effect.part] : []))[0]!;
    expect(part.toFrame - part.fromFrame).toBe(at(8 * 2.4));
    expect(play(late.state, [{ kind: 'keep', frame: at(63.5) }]).effects).toEqual([{ kind: 'letGo', part }]);
  });
});

describe('said with the sticks', () => {
  const count = (clicks: number, sec: number) => ({ count: clicks, fromFrame: at(sec), toFrame: at(sec + 1), tempoBpm: 90 });
  const paused = play(plain, [{ kind: 'pause', frame: at(18) }]).state;

  test.each([
    { says: 'our own choice, docs/sticks.md', clicks: 2, command: 'dontCount' },
    { says: 'our own choice, docs/sticks.md', clicks: 3, command: 'repeat' },
    { says: 'JOB.md: a count-in of four', clicks: 4, command: 'goOn' },
    { says: 'our own choice, docs/sticks.md', clicks: 5, command: 'slower' },
    { says: 'our own choice, docs/sticks.md', clicks: 6, command: 'faster' },
    { says: 'our own choice, docs/sticks.md', clicks: 7, command: 'keep' },
    { says: 'our own choice, docs/sticks.md', clicks: 8, command: 'pause' },
    { says: 'our own choice, docs/sticks.md', clicks: 11, command: 'pause' },
    { says: 'our own choice, docs/sticks.md', clicks: 12, command: 'hurts' },
  ])('$clicks clicks in a rest mean $command ($says)', ({ clicks, command }) => {
    expect(saidBySticks(resting, count(clicks, 64), 'go')).toEqual({ command, tempoBpm: null });
  });

  test('four give a tempo only by choice; in plain time they mean the next block, in a pause go on; a second stop is one', () => {
    expect(saidBySticks(resting, count(4, 64), 'tempo')).toEqual({ command: 'goOn', tempoBpm: 90 });
    expect(saidBySticks(plain, count(4, 17), 'go')?.command).toBe('skip');
    expect(saidBySticks(paused, count(4, 20), 'go')?.command).toBe('resume');
    expect(saidBySticks(paused, count(8, 20), 'go')?.command).toBe('stop');
    expect([11, 12, 16].map((clicks) => saidBySticks(paused, count(clicks, 20), 'go')?.command)).toEqual(['stop', 'hurts', 'hurts']);
  });

  test('nothing is listened for while the exercise is to be played, in a count-in, or after the end', () => {
    expect(saidBySticks(two, count(4, 14), 'go')).toBe(null);
    expect(saidBySticks(two, count(4, 4), 'go')).toBe(null);
    expect(saidBySticks({ ...two, phase: 'ended' }, count(4, 64), 'go')).toBe(null);
  });
});
