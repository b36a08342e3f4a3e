/** Then and now, first seconds and last: against closed forms, and what must not be claimed. */
import { describe, expect, it } from 'vitest';
import { measure } from '../measurement/index.ts';
import { cycleOf, play } from '../measurement/play.case.ts';
import { normal, seededRandom } from '../random.ts';
import { say } from '../words/index.ts';
import { firstAndLast } from './firstandlast.ts';
import { type MadePlace, madeMeasurement } from './made.case.ts';
import { type ReferenceTake, thenAndNow } from './thenandnow.ts';

describe('then and now', () => {
  const even: readonly MadePlace[] = [{ limb: 'R' }, { limb: 'L' }, { limb: 'K' }, { limb: 'K' }];
  const drums = ['snare', 'snare', 'kick', 'kick'];
  const take = (
    day: string,
    places: readonly MadePlace[],
    options: Parameters<typeof madeMeasurement>[1] & { readonly setup?: Record<string, string> } = {},
  ): ReferenceTake => ({
    day,
    measurement: madeMeasurement(places, options),
    drums,
    setup: options.setup ?? {},
  });
  const withKick = (kick: Partial<MadePlace>): readonly MadePlace[] => [even[0]!, even[1]!, even[2]!, { limb: 'K', ...kick }];
  const codesOf = (then: ReferenceTake, now: ReferenceTake) => thenAndNow(then, now).said.map(({ code }) => code);

  it('a second kick 30 ms early then, 4 ms now: nearer in time, and of that stroke only', () => {
    const { said, places } = thenAndNow(take('2025-01-06', withKick({ biasMs: -30 })), take('2025-02-10', withKick({ biasMs: -4 }), { seed: 2 }));
    expect(said.map((statement) => say(statement))).toEqual(['Stroke 4 (kick) is nearer in time: 30 ms early then, 4 ms early now.']);
    expect(places[3]!.biasMs.change!.value).toBeCloseTo(26, 9);
  });

  it('the interval of a difference is the root of the squares (closed form for equal halves: √2 · half)', () => {
    const { biasMs } = thenAndNow(take('a', even), take('b', even, { seed: 2 })).places[0]!;
    const half = biasMs.before!.high - biasMs.before!.value;
    expect(biasMs.change!.high - biasMs.change!.value).toBeCloseTo(Math.SQRT2 * half, 9);
  });

  it('a spread of 16 ms then and 4 now is steadier; the interval of a spread is e^±(1.96·1.1625/√20) (closed form)', () => {
    const { said, places } = thenAndNow(take('a', withKick({ spreadMs: 16 })), take('b', withKick({ spreadMs: 4 }), { seed: 2 }));
    expect(said.map(({ code }) => code)).toEqual(['progress-steadier']);
    expect(places[3]!.spreadMs.before!.high).toBeCloseTo(16 * Math.exp((1.959964 * 1.1625) / Math.sqrt(20)), 6);
  });

  it('a second kick that has come up by 6 dB is louder against the first', () => {
    const codes = codesOf(take('a', withKick({ levelDb: -26 })), take('b', withKick({ levelDb: -20 }), { seed: 2 }));
    expect(codes).toContain('progress-louder');
  });

  it('places that rest on unsure strokes are not judged by', () => {
    const unsure = (made: ReferenceTake): ReferenceTake => ({
      ...made,
      measurement: { ...made.measurement, places: made.measurement.places.map((place) => ({ ...place, unsure: true })) },
    });
    expect(codesOf(unsure(take('a', withKick({ biasMs: -30 }))), unsure(take('b', even)))).toEqual(['progress-nothing-sure']);
  });

  it('recording louder altogether changes no volume (law: compared within one take)', () => {
    const louder = even.map((place) => ({ ...place, levelDb: -5 }));
    expect(codesOf(take('a', even), take('b', louder))).toEqual(['progress-nothing-sure']);
  });

  it('volume is not told where a drum has one place only', () => {
    const measurement = madeMeasurement(even);
    const alone = { day: 'a', measurement, drums: ['snare', 'snare', 'kick', 'cymbal'], setup: {} };
    expect(thenAndNow(alone, alone).places[3]!.volumeDb).toEqual({ before: null, after: null, change: null, sure: false });
  });

  it('two takes of one player on one day are told to differ in 5 of 100 pairs at most (says: definition; 4 standard errors of 200 pairs are 6)', () => {
    const measured = (seed: number) => take('a', even, { seed, measured: true });
    const pairs = Array.from({ length: 200 }, (_, k) => codesOf(measured(2 * k + 1), measured(2 * k + 2)));
    const differing = pairs.filter((codes) => codes[0] !== 'progress-nothing-sure').length;
    expect(differing / pairs.length).toBeLessThan(0.11);
  });

  it('and a change of 30 ms is found in nearly all pairs', () => {
    const found = Array.from({ length: 50 }, (_, k) =>
      codesOf(take('a', withKick({ biasMs: -30 }), { seed: 2 * k + 1, measured: true }), take('b', even, { seed: 2 * k + 2, measured: true })),
    ).filter((codes) => codes.includes('progress-nearer-in-time'));
    expect(found.length).toBeGreaterThan(45);
  });

  it('a different set-up or tempo is said first', () => {
    const codes = codesOf(take('a', even, { setup: { sticks: '5A' } }), take('b', even, { setup: { sticks: '2B', pedal: 'felt' }, tempoBpm: 100 }));
    expect(codes).toEqual(['progress-setup-differs', 'progress-tempo-differs', 'progress-nothing-sure']);
    expect(say(thenAndNow(take('a', even, { setup: { sticks: '5A' } }), take('b', even)).said[0]!)).toContain('sticks');
  });

  it('too few cycles: nothing is claimed, and what to do is said', () => {
    const few = (seed: number) => {
      const made = take('a', even, { cycles: 4, seed });
      return {
        ...made,
        measurement: { ...made.measurement, places: made.measurement.places.map((place) => ({ ...place, biasLowMs: null, biasHighMs: null })) },
      };
    };
    expect(thenAndNow(few(1), few(2)).said.map((statement) => say(statement))).toEqual([
      'There are too few strokes in these takes to compare them. Record at least six cycles.',
    ]);
  });
});

describe('what did not change, and what cannot be said', () => {
  const drums = ['snare', 'snare'];
  const madeTake = (places: readonly MadePlace[], options: { cycles?: number; seed?: number } = {}): ReferenceTake => ({
    ...{ day: 'a', drums, setup: {} },
    measurement: madeMeasurement(places, options),
  });

  it('narrow ranges about nothing are as before, wide ones cannot be said; a change is neither (closed form: ±1.96·1.2533·σ/√n·√2 against 6 ms)', () => {
    // σ 4, n 40: ±2.2 ms; σ 16, n 12: ±16 ms.
    const steady = (biasMs: number): readonly MadePlace[] => [
      { limb: 'R', spreadMs: 4 },
      { limb: 'L', spreadMs: 4, biasMs },
    ];
    const wide: readonly MadePlace[] = [
      { limb: 'R', spreadMs: 16 },
      { limb: 'L', spreadMs: 16 },
    ];
    const restOf = (then: readonly MadePlace[], now: readonly MadePlace[], cycles: number) =>
      thenAndNow(madeTake(then, { cycles }), madeTake(now, { cycles, seed: 2 })).rest.map((said) => say(said));
    expect(restOf(steady(0), steady(0), 40)).toEqual(['Strokes 1 and 2 come as they came, as far as an ear can tell.']);
    expect(restOf(steady(-30), steady(0), 40)).toEqual(['Stroke 1 comes as it came, as far as an ear can tell.']);
    expect(restOf(wide, wide, 12)).toEqual(['Of strokes 1 and 2 it cannot be said yet: the ranges are too wide. More cycles would tell.']);
  });

  it('pad against kit is told in these words', () => {
    const { said } = thenAndNow(
      madeTake([{ limb: 'R' }, { limb: 'L', biasMs: -4 }]),
      madeTake([{ limb: 'R' }, { limb: 'L', biasMs: -30 }], { seed: 2 }),
      'drums',
    );
    expect(said.map((one) => say(one))).toEqual([
      'These takes were made with a different set-up (pad or drums); some of what changed may be that.',
      'Stroke 2 (left hand) is further off in time: 4 ms early on the pad, 30 ms early on the kit.',
    ]);
  });
});

describe('the first seconds against the last (closed form: what was planted)', () => {
  const random = seededRandom(3);
  const cycle = cycleOf('RLRLKK', 4);
  const measured = (late: (n: number, index: number) => number, cycles = 36) => {
    const candidates = play(cycle, { cycles, tempoBpm: 100, stroke: (n, index) => ({ offMs: late(n, index) + 3 * normal(random) }) });
    return measure(candidates, cycle, { tempoBpm: 100, durationSec: candidates.at(-1)!.timeSec + 2 }).value!;
  };

  it('a second kick that falls behind in the last third is told, and the rest is as before', () => {
    const told = firstAndLast(
      measured((n, index) => (index === 5 && n >= 24 ? 22 : 0)),
      cycle,
    )!;
    expect(told.said.map((said) => say(said))).toEqual([
      expect.stringMatching(/^Stroke 6 \(kick\) is further off in time: .* in the first seconds, \d+ ms late in the last\.$/),
    ]);
  });

  it('a third of fewer than six cycles is too little', () => {
    expect(
      firstAndLast(
        measured(() => 0, 17),
        cycle,
      ),
    ).toBeNull();
  });
});
