/** Rounds with plain time between them: found by the click, each stroke once, whatever the latency. */
import { describe, expect, test } from 'vitest';
import { toNumber } from '../rational.ts';
import type { Candidate } from '../stroke/index.ts';
import { measure } from './measure.ts';
import { cycleOf, play } from './play.case.ts';
import { measureSpans } from './spans.ts';

const TEMPO = 100;
const BEAT_SEC = 60 / TEMPO;
const clicks = Array.from({ length: 48 }, (_, k) => 2 + k * BEAT_SEC);
const later = (candidates: readonly Candidate[], sec: number): Candidate[] => candidates.map((one) => ({ ...one, timeSec: one.timeSec + sec }));
/** A round of 16 beats from a beat of the click on; `lateSec` is the latency. */
const round = (letters: string, fromBeat: number, lateSec: number): Candidate[] => {
  const cycle = cycleOf(letters, 4);
  return play(cycle, { cycles: 16 / toNumber(cycle.lengthBeats), tempoBpm: TEMPO, startSec: 2 + fromBeat * BEAT_SEC + lateSec });
};
/** Plain quarters between the rounds. */
const plain = (fromBeat: number, lateSec: number): Candidate[] =>
  play(cycleOf('R---', 4), { cycles: 16, tempoBpm: TEMPO, startSec: 2 + fromBeat * BEAT_SEC + lateSec });
const spanOf = (fromBeat: number) => ({ fromSec: 2 + fromBeat * BEAT_SEC, toSec: 2 + (fromBeat + 16) * BEAT_SEC, fromBeat: 0 });

describe('rounds of a take', () => {
  test.each([0, 0.012, 0.09, 0.2])('are measured without the plain time between, %d s late (says: arithmetic, 2 rounds of 16 beats)', (lateSec) => {
    const letters = 'RLRRLRLL';
    const take = [...round(letters, 0, lateSec), ...plain(16, lateSec), ...round(letters, 32, lateSec)];
    const { value, problems } = measureSpans(take, cycleOf(letters, 4), { tempoBpm: TEMPO, clickTimesSec: clicks, spans: [spanOf(0), spanOf(32)] });
    expect(problems).toEqual([]);
    expect(value!.strokes.filter(({ status }) => status === 'played')).toHaveLength(2 * 64);
    expect(value!.strokes).toHaveLength(2 * 64);
    expect(value!.extra).toEqual([]);
    expect(value!.places.map(({ count }) => count)).toEqual(Array(8).fill(16));
    expect(value!.offsetMs).toBeCloseTo(1000 * lateSec, 6);
    expect(Math.max(...value!.places.map(({ biasMs }) => Math.abs(biasMs!)))).toBeLessThan(0.01);
    expect(new Set(value!.strokes.map(({ cycle }) => cycle)).size).toBe(16);
  });

  test('have no pair that reaches from one round into the next', () => {
    const take = [...round('KKRLRL', 0, 0), ...round('KKRLRL', 32, 0)];
    const { value } = measureSpans(take, cycleOf('KKRLRL', 4), { tempoBpm: TEMPO, clickTimesSec: clicks, spans: [spanOf(0), spanOf(32)] });
    const kicks = value!.pairs.find(({ limb }) => limb === 'K')!;
    expect(kicks.gapMs).toBeCloseTo(150, 6);
  });

  test('begun in the middle of a cycle keep the places of the cycle (says: arithmetic, RLRLKK is 1.5 beats long)', () => {
    const cycle = cycleOf('RLRLKK', 4);
    // The round was cut at its fourth beat: one beat into the third cycle, at the K.
    const turned = play(cycleOf('KKRLRL', 4), { cycles: 8, tempoBpm: TEMPO, startSec: 2 });
    const span = { fromSec: 2, toSec: 2 + 12 * BEAT_SEC, fromBeat: 4 };
    const { value } = measureSpans(turned, cycle, { tempoBpm: TEMPO, clickTimesSec: clicks, spans: [span] });
    const first = [...value!.strokes].sort((a, b) => a.expectedSec - b.expectedSec).slice(0, 4);
    expect(first.map(({ index, cycle: number }) => [index, number])).toEqual([
      [4, 0],
      [5, 0],
      [0, 1],
      [1, 1],
    ]);
  });

  test('between which the tempo moved are each held against their own: no error, no doubt (says: arithmetic, 100 then 112 from beat 24 on)', () => {
    const fastSec = 60 / 112;
    const secOf = (beat: number) => 2 + Math.min(beat, 24) * BEAT_SEC + Math.max(0, beat - 24) * fastSec;
    const moved = Array.from({ length: 48 }, (_, k) => secOf(k));
    const fast = play(cycleOf('RLRRLRLL', 4), { cycles: 8, tempoBpm: 112, startSec: secOf(32) });
    const spans = [
      { ...spanOf(0), tempoBpm: 100 },
      { fromSec: secOf(32), toSec: secOf(48), fromBeat: 0, tempoBpm: 112 },
    ];
    const { value, problems } = measureSpans([...round('RLRRLRLL', 0, 0), ...fast], cycleOf('RLRRLRLL', 4), {
      tempoBpm: 100,
      clickTimesSec: moved,
      spans,
    });
    expect(problems).toEqual([]);
    expect(value!.strokes.filter(({ status }) => status === 'played')).toHaveLength(2 * 64);
    expect(Math.max(...value!.strokes.map(({ errorMs }) => Math.abs(errorMs!)))).toBeLessThan(0.01);
  });

  test('of which one was cut short are enough together (says: arithmetic, RLRRLRLL is 2 beats long)', () => {
    const letters = 'RLRRLRLL';
    const short = { ...spanOf(32), toSec: 2 + 36 * BEAT_SEC };
    const of = (spans: readonly ReturnType<typeof spanOf>[]) =>
      measureSpans([...round(letters, 0, 0), ...round(letters, 32, 0)], cycleOf(letters, 4), { tempoBpm: TEMPO, clickTimesSec: clicks, spans })
        .problems;
    expect(of([spanOf(0), short])).toEqual([]);
    expect(of([short])).toEqual([{ code: 'too-few-cycles', severity: 'doubtful', params: { cycleCount: 2 } }]);
  });

  test('of which one holds something else leave it out; where most do, that is told (says: JOB.md, doubtful and still measured)', () => {
    const letters = 'RLRLKK';
    const cycle = cycleOf(letters, 4);
    const clicked = Array.from({ length: 80 }, (_, k) => 2 + k * BEAT_SEC);
    const asked = { tempoBpm: TEMPO, clickTimesSec: clicked };
    const twice = [...round(letters, 0, 0), ...round(letters, 32, 0)];
    const other = (fromBeat: number) => play(cycleOf('RLL', 3), { cycles: 16, tempoBpm: TEMPO, startSec: 2 + fromBeat * BEAT_SEC });
    const most = measureSpans([...twice, ...other(64)], cycle, { ...asked, spans: [spanOf(0), spanOf(32), spanOf(64)] });
    expect(most.problems).toEqual([]);
    expect(most.value!.strokes).toEqual(measureSpans(twice, cycle, { ...asked, spans: [spanOf(0), spanOf(32)] }).value!.strokes);
    const few = measureSpans([...round(letters, 0, 0), ...other(32), ...other(64)], cycle, { ...asked, spans: [spanOf(0), spanOf(32), spanOf(64)] });
    expect(few.problems.map(({ code }) => code)).toContain('sticking-does-not-fit');
  });

  test('that are the whole take give what measure gives', () => {
    const letters = 'RLRRLRLL';
    const take = later(round(letters, 0, 0), -2);
    const spans = [{ fromSec: 0, toSec: 10, fromBeat: 0 }];
    const whole = measure(take, cycleOf(letters, 4), { tempoBpm: TEMPO, durationSec: 10 });
    const inSpans = measureSpans(take, cycleOf(letters, 4), { tempoBpm: TEMPO, spans });
    expect(inSpans.value!.places.map(({ count }) => count)).toEqual(whole.value!.places.map(({ count }) => count));
    expect(inSpans.problems).toEqual(whole.problems);
  });

  test('of which none can be heard are refused with the reason', () => {
    const { value, problems } = measureSpans([], cycleOf('RL', 4), { tempoBpm: TEMPO, clickTimesSec: clicks, spans: [spanOf(0), spanOf(32)] });
    expect(value).toBe(null);
    expect(problems.map(({ code }) => code)).toEqual(['nothing-to-match']);
  });
});
