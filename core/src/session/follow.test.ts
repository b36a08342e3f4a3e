import { describe, expect, test } from 'vitest';
import { seededRandom } from '../random.ts';
import { standsAt, type TempoResult } from '../tempo/index.ts';
import { barFrame, endFrameOf } from './beats.ts';
import { presentStroke, temposAt } from './present.ts';
import { outcomeSoFar } from './saying.ts';
import { newSession, type SessionEvent, type SessionState, type TempoStretch } from './state.ts';
import { blockOf, heardAt, play, ticks } from './trial.case.ts';

const RATE = 48_000;
const at = (sec: number) => Math.round(sec * RATE);
const start: SessionEvent = { kind: 'start', frame: 0 };

/* At 100 in 4/4: the first click at 2 s, bars of 2.4 s, two of them count-in; four bars of exercise until 16.4 s, four of plain time until 26 s. */
const session = (change: Parameters<typeof blockOf>[1] = {}) => newSession([blockOf('RLRL', { minutes: 3, follows: true, ...change })], RATE);
const playing = (change: Parameters<typeof blockOf>[1] = {}) => play(session(change), [start, ...ticks(0, 17, 0.1, RATE)]);
const heard = (nextTempoBpm: number, clean = 8, runs = 8) => ({ ...heardAt(nextTempoBpm), clean, runs });
const glance = (sec: number, nextTempoBpm: number, { round = 0, clean = 8, runs = 8, byEar = true } = {}): SessionEvent => ({
  kind: 'glanced',
  frame: at(sec),
  block: 0,
  round,
  byEar,
  heard: heard(nextTempoBpm, clean, runs),
});
const changesOf = ({ layout }: SessionState) => layout!.changes ?? [];

describe('after each round', () => {
  test('the ear is asked about it once its last stroke has rung out, and not about the last (arithmetic: 16.4 s and a quarter)', () => {
    const { log } = play(session(), [start, ...ticks(0, 183, 0.05, RATE)]);
    const asked = log.flatMap(({ frame, effect }) => (effect.kind === 'glance' ? [{ frame, ...effect.span }] : []));
    expect(asked[0]).toMatchObject({ round: 0, fromFrame: at(6.8), toFrame: at(16.4), tempoBpm: 100 });
    expect(asked[0]!.frame).toBe(at(16.65));
    // 180 s hold 75 bars, two of them count-in: rounds begin at bars 0, 8 … 72 of 73.
    expect(asked.map(({ round }) => round)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8]);
  });

  test('nobody asks about a warm-up', () => {
    expect(playing({ judgedBy: 'nobody' }).effects.filter(({ kind }) => kind === 'glance')).toEqual([]);
  });

  test('a round that is played once more is asked about once more', () => {
    const { effects } = play(playing().state, [{ kind: 'repeat', frame: at(17) }, ...ticks(17, 35, 0.1, RATE)]);
    expect(effects.flatMap((effect) => (effect.kind === 'glance' ? [effect.span.round] : []))).toEqual([0]);
  });
});

describe('the tempo follows at a bar line of plain time', () => {
  const { state, effects } = play(playing().state, [glance(17.4, 105)]);

  test('from the next bar line on, told beforehand, with a bar or more of plain time at it (arithmetic: 17.4 s lies in bar 4; bar 5 begins at 18.8 s)', () => {
    expect(changesOf(state)).toEqual([{ bar: 5, tempoBpm: 105 }]);
    expect(effects.map(({ kind }) => kind)).toEqual(['cancelClicks', 'clicks', 'tempo', 'moveTakeEnd']);
    expect(effects.at(-2)).toEqual({ kind: 'tempo', block: 0, fromBpm: 100, tempoBpm: 105, atFrame: at(18.8) });
    expect(temposAt(state, at(18))).toEqual({ nowBpm: 100, comingBpm: 105 });
    expect(temposAt(state, at(18.8))).toEqual({ nowBpm: 105, comingBpm: null });
  });

  test('every click is where the seconds of the bars before it put it, and bars are counted on (arithmetic, seconds times the rate)', () => {
    const before = playing()
      .effects.flatMap((effect) => (effect.kind === 'clicks' ? effect.clicks : []))
      .filter(({ frame }) => frame < at(18.8));
    const after = effects.flatMap((effect) => (effect.kind === 'clicks' ? effect.clicks : []));
    const ideal = (beat: number) => Math.round(RATE * (2 + (beat < 28 ? (beat * 60) / 100 : (28 * 60) / 100 + ((beat - 28) * 60) / 105)));
    expect([...before, ...after].map(({ frame }) => frame)).toEqual(Array.from({ length: before.length + after.length }, (_, beat) => ideal(beat)));
    expect([...before, ...after].every(({ accent }, beat) => accent === (beat % 4 === 0))).toBe(true);
    // 180 s: seven bars of 2.4 s, then 71 whole ones of 240/105 s in 163.2 s; the block ends with its slot.
    expect((before.length + after.length) / 4).toBe(7 + Math.floor(163.2 / (240 / 105)));
    expect(endFrameOf(state.layout!)).toBeLessThanOrEqual(at(182));
  });

  test('the stroke under the eyes is that of the new tempo (arithmetic: sixteenths at 105)', () => {
    const round1 = barFrame(state.layout!, 8);
    for (const k of [0, 1, 7, 30, 63]) {
      const frame = Math.round(RATE * (18.8 + (3 * 240) / 105 + (k * 15) / 105));
      expect(presentStroke(state, frame)).toMatchObject({ part: 'exercise', round: 1, cycle: Math.floor(k / 4), indices: [k % 4] });
      if (k > 0) expect(presentStroke(state, frame - 1)).not.toMatchObject({ cycle: Math.floor(k / 4), indices: [k % 4] });
    }
    expect(round1).toBe(Math.round(RATE * (18.8 + (3 * 240) / 105)));
  });

  test('the round after is asked about at its tempo, and each tempo has its own runs', () => {
    const later = play(state, ticks(17.5, 36, 0.1, RATE));
    const span = later.effects.flatMap((effect) => (effect.kind === 'glance' ? [effect.span] : []))[0]!;
    expect(span).toMatchObject({ round: 1, tempoBpm: 105, fromFrame: barFrame(state.layout!, 8), toFrame: barFrame(state.layout!, 12) });
    const told = play(later.state, [glance(36, 100, { round: 1, clean: 2 })]);
    expect(outcomeSoFar(told.state)!.glanced).toEqual([
      { tempoBpm: 100, clean: 8, runs: 8, byEar: true },
      { tempoBpm: 105, clean: 2, runs: 8, byEar: true },
    ]);
    expect(changesOf(told.state)).toMatchObject([{ tempoBpm: 105 }, { tempoBpm: 100 }]);
    const ended = play(told.state, ticks(36, 185, 0.5, RATE));
    const measure = ended.effects.flatMap((effect) => (effect.kind === 'measure' ? [effect.spans] : []))[0]!;
    expect(measure.map(({ tempoBpm }) => tempoBpm).slice(0, 3)).toEqual([100, 105, 100]);
  });

  test('in a pause it waits: the click counts in again at the new tempo', () => {
    const paused = play(playing().state, [{ kind: 'pause', frame: at(17.2) }, glance(17.4, 105)]);
    expect(paused.effects.map(({ kind }) => kind)).toEqual(['cancelClicks', 'closeTake', 'tempo']);
    const { state: again } = play(paused.state, [{ kind: 'resume', frame: at(30) }]);
    // Two bars of 240/105 s of count-in, from two seconds later on.
    expect(again.layout).toMatchObject({ firstBar: 4, startFrame: at(32) });
    expect(barFrame(again.layout!, 4)).toBe(Math.round(RATE * (32 + 480 / 105)));
  });
});

describe('it stays', () => {
  const changed = (change: Parameters<typeof blockOf>[1], ...events: readonly SessionEvent[]) => changesOf(play(playing(change).state, events).state);

  test.each([
    { says: 'decision 0075: by choice', change: { follows: false } },
    { says: 'JOB.md: a reference take has a fixed tempo', change: { fixedTempo: true } },
    { says: 'JOB.md: the warm-up is never judged', change: { judgedBy: 'nobody' as const } },
    { says: 'JOB.md: a teacher’s cap', change: { capBpm: 100 } },
    { says: 'issue 8: fewer clicks first, as it goes well', change: { fewerClicks: true } },
  ])('$says', ({ change }) => expect(changed(change, glance(17.4, 105))).toEqual([]));

  test('where the answer comes too late for a bar of plain time (arithmetic: the last begins at 23.6 s)', () => {
    expect(changed({}, glance(23.2, 105))).toEqual([{ bar: 7, tempoBpm: 105 }]);
    expect(changed({}, glance(23.4, 105))).toEqual([]);
  });

  test('where no whole round is left at it (our choice: a few runs judge no tempo)', () => {
    const rounds = (minutes: number) => changed({ minutes }, glance(17.4, 105));
    // Round 1 is bars 8 to 11 after two of count-in: 14 bars, 7 at 2.4 s and 7 at 240/105 s, are 32.8 s.
    expect([rounds(32.7 / 60), rounds(32.9 / 60)]).toEqual([[], [{ bar: 5, tempoBpm: 105 }]]);
  });

  test('taken back: “don’t count that one”, or another word for the round, brings the tempo back at the next bar line (issue 8)', () => {
    const told = play(playing().state, [glance(17.4, 105)]).state;
    expect(changesOf(play(told, [{ kind: 'dontCount', frame: at(17.6) }]).state)).toEqual([{ bar: 5, tempoBpm: 100 }]);
    expect(changesOf(play(told, [{ kind: 'dontCount', frame: at(19) }]).state)).toEqual([
      { bar: 5, tempoBpm: 105 },
      { bar: 6, tempoBpm: 100 },
    ]);
  });

  test('of a round that does not count', () => expect(changed({}, { kind: 'dontCount', frame: at(17.2) }, glance(17.4, 105))).toEqual([]));

  test('after a word or a few runs that failed: down only on eight runs, or two words (our choice, FOLLOW)', () => {
    expect(changed({}, glance(17.4, 90, { clean: 0, runs: 7 }))).toEqual([]);
    expect(changed({}, glance(17.4, 90, { clean: 0, runs: 8 }))).toHaveLength(1);
    expect(changed({}, glance(17.4, 90, { clean: 0, runs: 1, byEar: false }))).toEqual([]);
  });

  test('after the player’s own “slower”: what is heard does not lift it again, “faster” lets it (issue 8)', () => {
    const slower = play(playing().state, [{ kind: 'slower', frame: at(17) }, ...ticks(17, 34, 0.1, RATE)]).state;
    expect(slower).toMatchObject({ block: 1, layout: { tempoBpm: 95 } });
    const lifted = (state: SessionState, sec: number) =>
      changesOf(play(state, [...ticks(34, sec, 0.1, RATE), { ...glance(sec, 100), block: 1 } as SessionEvent]).state);
    // Count-in and four bars at 95 from 18.8 s on are over at 34 s.
    expect(lifted(slower, 35)).toEqual([]);
    const faster = play(slower, [{ kind: 'faster', frame: at(34.5) }, ...ticks(34.6, 52.5, 0.1, RATE)]).state;
    const { state } = play(faster, [{ ...glance(52.6, 105), block: 2 } as SessionEvent]);
    expect(changesOf(state)).toHaveLength(1);
  });
});

describe('players whose runs fail more and more with the tempo (says: FACTS.md 6, the falling logistic)', () => {
  const S = 3;
  /** 85 % of runs are clean at 100: 1/(1 + e^((T − α)/s)). */
  const ALPHA = 100 + S * Math.log(0.85 / 0.15);

  /** Twelve minutes in one block: the tempo of each round, the ear answering a second after it. */
  function tempi(fromBpm: number, seed: number, capBpm?: number): readonly number[] {
    const random = seededRandom(seed);
    const block = blockOf('RLRL', { minutes: 12, follows: true, tempoBpm: fromBpm, ...(capBpm === undefined ? {} : { capBpm }) });
    let state = play(newSession([block], RATE), [start]).state;
    const rounds: number[] = [];
    for (let sec = 2; sec < 725; sec += 1) {
      const step = play(state, [{ kind: 'tick', frame: at(sec) }]);
      state = step.state;
      for (const effect of step.effects) {
        if (effect.kind !== 'glance') continue;
        const { round, tempoBpm } = effect.span;
        const odds = 1 / (1 + Math.exp((tempoBpm - ALPHA) / S));
        const clean = Array.from({ length: 8 }, () => random() < odds).filter(Boolean).length;
        rounds.push(tempoBpm);
        const results: readonly TempoResult[] = [...(outcomeSoFar(state)?.glanced ?? ([] as TempoStretch[])), { tempoBpm, clean, runs: 8 }];
        const { nextTempoBpm, reason } = standsAt(results, { capBpm });
        const answer = { ...heardAt(nextTempoBpm), clean, runs: 8, why: reason };
        state = play(state, [{ kind: 'glanced', frame: at(sec + 1), block: 0, round, byEar: true, heard: answer }]).state;
      }
    }
    return rounds;
  }
  const mean = (list: readonly number[]) => list.reduce((sum, one) => sum + one, 0) / list.length;
  const players = Array.from({ length: 8 }, (_, seed) => seed + 1);

  test.each([{ fromBpm: 84 }, { fromBpm: 116 }])(
    'begun at $fromBpm it comes near the tempo that holds, and stays without going up and down',
    ({ fromBpm }) => {
      const runs = players.map((seed) => tempi(fromBpm, seed));
      const late = mean(runs.map((rounds) => mean(rounds.slice(-12))));
      // Within one step of 5 % (core/tempo) of where 85 % of the runs are clean.
      expect(late).toBeGreaterThan(95);
      expect(late).toBeLessThan(105);
      const turns = runs.map((rounds) => {
        const steps = rounds
          .slice(1)
          .map((tempo, i) => Math.sign(tempo - rounds[i]!))
          .filter((sign) => sign !== 0);
        return steps.slice(1).filter((sign, i) => sign !== steps[i]).length;
      });
      // A fall rests on eight runs and a rise on twelve: two rounds at least, and the way there takes some more.
      expect(Math.max(...turns)).toBeLessThanOrEqual(33 / 6);
    },
  );

  test('a cap holds whatever comes out (JOB.md: a teacher’s word)', () => {
    expect(Math.max(...tempi(80, 5, 88))).toBe(88);
  });
});
