import { describe, expect, test } from 'vitest';
import { barsPlayed, outcomeSoFar } from './saying.ts';
import type { SessionEvent } from './state.ts';
import { newSession } from './state.ts';
import { blockOf, heardAt, play, ticks } from './trial.case.ts';

const RATE = 48_000;
const at = (sec: number) => Math.round(sec * RATE);
const start: SessionEvent = { kind: 'start', frame: 0 };
const word = (kind: 'hadIt' | 'again', sec: number): SessionEvent => ({ kind, frame: at(sec) });
const tick = (sec: number): SessionEvent => ({ kind: 'tick', frame: at(sec) });

/* One minute at 100 in 4/4: 2 s of lead, two bars of count-in (4.8 s); bars of 2.4 s from 6.8 s on, four of exercise, four of plain time. */
const minute = (change = {}) => newSession([blockOf('RLRL', change), blockOf('RLRL', change)], RATE);

describe('the word for a round', () => {
  test.each([
    { sec: 8, says: 'in the first bars of the first round there is nothing to speak of', rounds: [] },
    { sec: 15, says: 'in the last bar of exercise it speaks of that round', rounds: [0] },
    { sec: 20, says: 'in plain time it speaks of the round before', rounds: [0] },
    { sec: 27, says: 'in the first bars of the next round it is late, and speaks of the one before', rounds: [0] },
    { sec: 40, says: 'in the second plain time it speaks of the second', rounds: [1] },
  ])('at $sec s: $says (arithmetic: bars of 60·4/100 s)', ({ sec, rounds }) => {
    const { state } = play(minute(), [start, ...ticks(0, sec, 1, RATE), word('hadIt', sec)]);
    expect(state.said.map(({ round }) => round)).toEqual(rounds);
  });

  test('said twice counts once, as it was said last', () => {
    const { state } = play(minute(), [start, ...ticks(0, 20, 1, RATE), word('hadIt', 20), word('again', 21), tick(63)]);
    expect(state.outcomes[0]!.rounds).toEqual({ hadIt: 0, again: 1 });
  });

  test('that comes after its block changes what was written of it, and asks for it again', () => {
    const first = play(minute(), [start, ...ticks(0, 63, 1, RATE), { kind: 'measured', frame: at(63), block: 0, heard: null }]);
    const { effects, state } = play(first.state, [word('again', 64)]);
    expect(state.outcomes[0]!.rounds).toEqual({ hadIt: 0, again: 1 });
    expect(effects.map(({ kind }) => kind)).toEqual(['measure']);
  });

  test('of a warm-up is not taken, and a warm-up is never asked about (JOB.md: never judged)', () => {
    const { effects, state } = play(minute({ judgedBy: 'nobody' }), [start, ...ticks(0, 20, 1, RATE), word('hadIt', 20), tick(63)]);
    expect(state.said).toEqual([]);
    expect(effects.map(({ kind }) => kind)).not.toContain('measure');
    expect(effects.map(({ kind }) => kind)).toContain('writeBlock');
  });
});

describe('a fixed tempo', () => {
  const fast = heardAt(120);
  const tempi = (first: object, second: object) => {
    const session = newSession([blockOf('RLRL', first), blockOf('RLRL', second)], RATE);
    return play(session, [start, ...ticks(0, 63, 1, RATE), { kind: 'measured', frame: at(63), block: 0, heard: fast }]).state.blocks[1]!.tempoBpm;
  };

  test('moves nothing and is not moved, so that weeks can be compared (JOB.md: fixed tempi)', () => {
    expect(tempi({}, {})).toBe(120);
    expect(tempi({ fixedTempo: true }, {})).toBe(100);
    expect(tempi({}, { fixedTempo: true })).toBe(100);
    expect(tempi({}, { judgedBy: 'nobody' })).toBe(100);
  });
});

describe('what is there of a block that is cut off', () => {
  test.each([
    { sec: 6, playedSec: null, rounds: 0, bars: 0, why: 'in the count-in nothing' },
    { sec: 10, playedSec: 4.8 + 2.4, rounds: 0, bars: 1, why: 'the bars that are over, with their count-in' },
    { sec: 27, playedSec: 4.8 + 8 * 2.4, rounds: 1, bars: 8, why: 'a whole round' },
    { sec: 63, playedSec: null, rounds: 0, bars: 0, why: 'after its end nothing more' },
  ])('at $sec s: $why (arithmetic: bars of 60·4/100 s)', ({ sec, playedSec, rounds, bars }) => {
    const { state } = play(minute(), [start, ...ticks(0, sec, 1, RATE), word('hadIt', Math.min(sec, 27))]);
    const outcome = outcomeSoFar(state);
    if (playedSec === null) expect(outcome).toBe(null);
    else expect(outcome!.playedSec).toBeCloseTo(playedSec, 4);
    expect(outcome?.rounds.hadIt ?? 0).toBe(rounds);
    expect(barsPlayed(state)).toBe(bars);
  });
});
