/** What is there and what is missing before a sticking point is closed, and what comes of it weeks later. */
import { describe, expect, it } from 'vitest';
import { say } from '../words/index.ts';
import { cameBack, readyToClose } from './ready.ts';
import type { ExerciseResult } from './tempocurve.ts';

describe('ready to close', () => {
  const phrase = { exerciseId: 'phrase', goalBpm: 96 };
  const chosen = [
    { exerciseId: 'pad', family: 'pad', goalBpm: 96 },
    { exerciseId: 'use', family: 'use', goalBpm: 96 },
  ] as const;
  const day = (exerciseId: string, date: string, changes: Partial<ExerciseResult> = {}): ExerciseResult => ({
    exerciseId,
    day: date,
    tempoBpm: 96,
    clean: 9,
    runs: 10,
    ...changes,
  });
  const bothDays = (id: string) => [day(id, '2025-02-03'), day(id, '2025-02-05')];
  const held = [...bothDays('phrase'), ...bothDays('pad'), ...bothDays('use')];
  const codes = (results: readonly ExerciseResult[]) => {
    const { ready, there, missing } = readyToClose({ phrase, chosen, results });
    return { ready, there: there.map(({ code }) => code), missing: missing.map(({ code }) => code) };
  };

  it('not before anything was played', () => {
    expect(codes([])).toEqual({
      ready: false,
      there: [],
      missing: ['progress-phrase-not-tried', 'progress-family-not-tried', 'progress-family-not-tried', 'progress-check-later'],
    });
  });

  it('the phrase itself counts apart from the kinds made of it (says: issue 9, read by somebody who did not live it)', () => {
    const others = [...bothDays('pad'), ...bothDays('use')];
    expect(codes([...others, day('phrase', '2025-02-03', { tempoBpm: 80 })]).missing).toEqual(['progress-phrase-not-yet', 'progress-check-later']);
    expect(codes([...others, day('phrase', '2025-02-03')]).missing).toEqual(['progress-phrase-once', 'progress-check-later']);
    expect(codes(bothDays('phrase')).there).toEqual(['progress-phrase-holds']);
  });

  it('each family on two days, use among them; then a check from three weeks after the later of them (arithmetic: 2025-02-05 + 21 days)', () => {
    const { ready, missing } = readyToClose({ phrase, chosen, results: held });
    expect(ready).toBe(false);
    expect(missing).toEqual([{ code: 'progress-check-due', params: { from: '2025-02-26' } }]);
  });

  it('the check weeks later closes it; a day early does not', () => {
    expect(codes([...held, day('phrase', '2025-02-25')]).ready).toBe(false);
    expect(codes([...held, day('phrase', '2025-02-26')])).toEqual({
      ready: true,
      there: ['progress-phrase-holds', 'progress-family-holds', 'progress-family-holds', 'progress-check-held'],
      missing: [],
    });
  });

  it.each([
    { name: 'too slow', change: { tempoBpm: 92 } },
    { name: 'too few runs', change: { clean: 7, runs: 7 } },
    { name: 'not clean enough (8 of 10)', change: { clean: 8 } },
  ])('a second day that was $name does not count', ({ change }) => {
    const results = [...bothDays('use'), day('pad', '2025-02-03'), day('pad', '2025-02-05', change)];
    expect(codes(results).missing).toContain('progress-family-once');
  });

  it('without the phrase in music it cannot be closed, whatever else holds', () => {
    const { ready, missing } = readyToClose({ phrase, chosen: [chosen[0]], results: [...held, day('phrase', '2025-03-26')] });
    expect([ready, missing.map(({ code }) => code)]).toEqual([false, ['progress-use-not-chosen', 'progress-check-later']]);
  });

  it.each([
    { families: undefined, missing: ['progress-family-not-tried'] },
    { families: ['pad', 'use'], missing: [] },
    { families: ['pad'], missing: [] },
    { families: [], missing: [] },
    { families: ['pad', 'fill'], missing: ['progress-family-not-tried'] },
  ] as const)('a groove that never held counts only when chosen, use always: $families (says: issue 7, every family chosen, use included)', (row) => {
    const withGroove = [...chosen, { exerciseId: 'groove', family: 'groove', goalBpm: 96 }] as const;
    const counting = row.families ? { families: row.families } : {};
    const told = readyToClose({ phrase, chosen: withGroove, results: [...held, day('phrase', '2025-02-26')], ...counting });
    expect(told.missing.map(({ code }) => code).filter((code) => code !== 'progress-check-later')).toEqual(row.missing);
    expect(told.ready).toBe(row.missing.length === 0);
    const withoutUse = readyToClose({ phrase, chosen: withGroove, results: [...bothDays('phrase'), ...bothDays('pad')], ...counting });
    expect(withoutUse.missing).toContainEqual({ code: 'progress-family-not-tried', params: { family: 'use' } });
  });

  it('a kind that was played and never came clean is not yet clean, one never played not yet tried (says: issue 9, read by somebody who did not live it)', () => {
    const { missing } = readyToClose({ phrase, chosen, results: [...bothDays('phrase'), day('pad', '2025-03-01', { clean: 1 })] });
    expect(missing.map(({ code }) => code)).toEqual(['progress-family-not-yet', 'progress-family-not-tried', 'progress-check-later']);
    expect(missing.map((statement) => say(statement)).slice(0, 2)).toEqual([
      'Pad work: not yet clean at the tempo wanted.',
      'The phrase in music: not yet tried.',
    ]);
  });

  it('a kind of which other exercises were played is not called untried', () => {
    const { missing } = readyToClose({ phrase, chosen, results: bothDays('phrase'), tried: ['pad'] });
    expect(missing.map(({ code }) => code)).toEqual(['progress-family-not-yet', 'progress-family-not-tried', 'progress-check-later']);
  });

  it('the player’s word counts, and is told as such', () => {
    const { there } = readyToClose({ phrase, chosen, results: held.map((result) => ({ ...result, byEar: false })) });
    expect(there.map((statement) => say(statement)).slice(0, 2)).toEqual([
      'The phrase itself: clean at 96, the tempo wanted, on 2 days, by your word.',
      'Pad work: clean at the tempo wanted on 2 days, by your word.',
    ]);
  });

  describe('closed and come back', () => {
    const after = (clean: readonly number[]) =>
      cameBack('2025-03-01', { phrase, results: clean.map((count, k) => day('phrase', `2025-03-0${k + 2}`, { clean: count })) });

    it.each([
      { name: 'one bad day is one bad day', clean: [5], days: null },
      { name: 'a good day between counts it anew', clean: [5, 9, 5], days: null },
      { name: 'two in a row: it came back', clean: [9, 5, 6], days: 2 },
      { name: 'too few runs tell nothing', clean: [], days: null },
    ])('$name (says: issue 7, reopened if it comes back)', ({ clean, days }) => {
      expect(after(clean)?.params.days ?? null).toBe(days);
    });

    it('what was before the closing does not count, nor what was slower', () => {
      const poor = { clean: 3 };
      const results = [day('phrase', '2025-02-26', poor), day('phrase', '2025-02-27', poor), day('phrase', '2025-03-02', { ...poor, tempoBpm: 80 })];
      expect(cameBack('2025-03-01', { phrase, results })).toBe(null);
    });
  });
});
