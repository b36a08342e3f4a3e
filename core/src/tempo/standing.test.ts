/** Where work stands: a slow day takes nothing back, a step too far goes back to what held. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { say } from '../words/index.ts';
import { nextTempo } from './nexttempo.ts';
import { standsAt } from './standing.ts';

const at = (tempoBpm: number, clean: number, runs = 40) => ({ tempoBpm, clean, runs });

describe('where work stands (says: our choice, found by living two weeks of it; steps down by arithmetic: 5 % · (clean − 5.667·not clean)/runs)', () => {
  it.each([
    { name: 'one tempo: as results there say', results: [at(80, 40)], next: 84, code: 'tempo-up' },
    { name: 'a day with tired hands, all clean: it stands where it stood', results: [at(80, 35), at(64, 40)], next: 80, code: 'tempo-kept' },
    { name: 'slower, and it fell apart there too: lower', results: [at(80, 35), at(64, 20)], next: 56, code: 'tempo-down' },
    { name: 'a step too far: back to what held', results: [at(80, 38), at(83, 22)], next: 80, code: 'tempo-back' },
    { name: 'what held falls apart too: lower', results: [at(80, 38), at(83, 22), at(80, 20)], next: 70, code: 'tempo-down' },
    { name: 'what held long below is no place to go back to', results: [at(60, 34), at(83, 22)], next: 74, code: 'tempo-down' },
    { name: 'begun too high and still falling: on from there', results: [at(100, 5), at(85, 34)], next: 85, code: 'tempo-stay' },
  ])('$name', ({ results, next, code }) => {
    const { nextTempoBpm, reason } = standsAt(results);
    expect([nextTempoBpm, reason.code]).toEqual([next, code]);
    expect(say(reason)).not.toBe(code);
  });

  it('falls no further than half of where it was begun or surely held, whatever comes out, and says that it is too hard now (law; says: issue 9, 16ths at 11)', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 30, max: 200 }),
        fc.array(fc.double({ min: 0, max: 0.7, noNaN: true }), { minLength: 15, maxLength: 40 }),
        (begun, shares) => {
          const results = [at(begun, 30)];
          for (const share of shares) results.push(at(standsAt(results).nextTempoBpm, Math.round(40 * share)));
          const { nextTempoBpm, reason } = standsAt(results);
          expect([nextTempoBpm, reason.code]).toEqual([Math.ceil(begun / 2), 'tempo-too-hard']);
          expect(say(reason)).toMatch(/^Too hard now: /);
        },
      ),
      { seed: 9, numRuns: 60 },
    );
    // It held at 120, surely: half of that.
    expect(standsAt([at(80, 40), at(120, 40), ...[100, 80, 70, 62].map((bpm) => at(bpm, 4))]).nextTempoBpm).toBe(60);
    // Slower by choice, below the floor: it is sent no lower, and up as ever.
    expect(standsAt([at(80, 4), at(30, 4)])).toMatchObject({ nextTempoBpm: 30, reason: { code: 'tempo-too-hard' } });
    expect(standsAt([at(80, 4), at(40, 4), at(40, 40), at(40, 40)]).nextTempoBpm).toBeGreaterThan(40);
  });

  it('never rises above what the best stretch allows, and one stretch alone is the step rule (law)', () => {
    const anyResult = fc.record({
      tempoBpm: fc.integer({ min: 40, max: 160 }),
      runs: fc.integer({ min: 1, max: 60 }),
      share: fc.float({ min: 0, max: 1, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(anyResult, { minLength: 1, maxLength: 12 }), (drawn) => {
        const results = drawn.map(({ tempoBpm, runs, share }) => at(tempoBpm, Math.round(runs * share), runs));
        const most = Math.max(
          ...results.map(
            (_, k) =>
              nextTempo(
                results.slice(k).filter(({ tempoBpm }) => tempoBpm === results[k]!.tempoBpm),
                results[k]!.tempoBpm,
              ).nextTempoBpm,
          ),
          ...results.map(({ tempoBpm }) => tempoBpm * 1.06),
        );
        expect(standsAt(results).nextTempoBpm).toBeLessThanOrEqual(Math.ceil(most));
        expect(standsAt([results[0]!])).toEqual(nextTempo([results[0]!], results[0]!.tempoBpm));
      }),
      { seed: 21, numRuns: 60 },
    );
  });

  it('a teacher’s cap holds', () => {
    expect(standsAt([at(80, 40)], { capBpm: 80 }).nextTempoBpm).toBe(80);
  });
});
