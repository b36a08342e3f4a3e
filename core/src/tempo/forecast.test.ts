/** The forecast against the worked rises of FACTS.md 5 and 7, and what it must not promise. */
import { describe, expect, it } from 'vitest';
import { addDays } from '../day.ts';
import { dayReached, forecast, type Rise, riseAt, type ToldTempo } from './forecast.ts';

describe('a rise towards a ceiling', () => {
  it.each([
    { day: 0, tempo: 80 },
    { day: 7, tempo: 97.718715 },
    { day: 14, tempo: 110.204882 },
    { day: 28, tempo: 125.204182 },
    { day: 42, tempo: 132.652614 },
  ])('140 − 60·e^−.05d on day $day is $tempo, and $tempo is reached on day $day (says: FACTS.md 5)', ({ day, tempo }) => {
    const rise = { ceiling: 140, gap: 60, rate: 0.05 };
    expect(riseAt(day, rise)).toBeCloseTo(tempo, 5);
    expect(dayReached(tempo, rise)).toBeCloseTo(day, 4);
  });

  it('95 % of a habit is there on day 66 when c = .045390 (says: FACTS.md 7, Lally 2010; ln 20 / c)', () => {
    expect(dayReached(0.95, { ceiling: 1, gap: 1, rate: 0.04539 })).toBeCloseTo(66, 2);
  });

  it('never reaches its ceiling (says: definition)', () => {
    expect(dayReached(140, { ceiling: 140, gap: 60, rate: 0.05 })).toBe(Number.POSITIVE_INFINITY);
  });
});

/** Told tempi along a rise on log tempo, every second day, ±3 %. */
function along(rise: Rise, days: number): readonly ToldTempo[] {
  return Array.from({ length: Math.ceil(days / 2) }, (_, k) => {
    const median = Math.exp(riseAt(2 * k, rise));
    return { day: addDays('2026-01-05', 2 * k), median, low90: median * 0.97, high90: median * 1.03 };
  });
}

describe('forecast', () => {
  const rise: Rise = { ceiling: Math.log(110), gap: Math.log(110 / 70), rate: 0.04 };

  it('holds the day on which the rise gets there (says: arithmetic on the rise itself)', () => {
    const told = forecast(along(rise, 24), 96, addDays('2026-01-05', 23));
    const reached = addDays('2026-01-05', Math.ceil(dayReached(Math.log(96), rise)));
    expect(told.code).toMatch(/^forecast-(between|from)$/);
    expect((told.params as { from: string }).from <= reached).toBe(true);
    expect(((told.params as { to?: string }).to ?? '9999-12-31') >= reached).toBe(true);
  });

  it('gets narrower with more days (law)', () => {
    const latest = (days: number) => (forecast(along(rise, days), 96, addDays('2026-01-05', days - 1)).params as { to?: string }).to ?? '9999-12-31';
    expect(latest(30) <= latest(16)).toBe(true);
  });

  it.each([
    { name: 'two days', told: along(rise, 4), goalBpm: 96, code: 'forecast-too-little' },
    { name: 'nothing', told: [], goalBpm: 96, code: 'forecast-too-little' },
    { name: 'already there', told: along(rise, 24), goalBpm: 80, code: 'forecast-there' },
    { name: 'three times as fast', told: along(rise, 24), goalBpm: 240, code: 'forecast-not-yet-seen' },
  ])('$name: $code (says: JOB.md, "too little yet" when so)', ({ told, goalBpm, code }) => {
    expect(forecast(told, goalBpm, addDays('2026-01-05', 24)).code).toBe(code);
  });
});
