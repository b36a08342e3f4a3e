/** The page of the weeks on paper: one tagged sheet with everything on it. */
import { describe, expect, it } from 'vitest';
import { weeksPage } from '../../../core/src/plan/index.ts';
import { dayAt, heardAs, invented } from '../../../core/src/plan/weeks.case.ts';
import { lifePdf, lifeSheet, weeksPdf, weeksSheet } from './weeks.ts';

const played = [0, 1, 2, 3, 4, 8, 9, 10, 11, 18, 21, 22, 23, 24].map((n) => ({
  ...{ n, minutes: 8 },
  ...(n === 1 ? { heard: heardAs(-25, 4), reference: true } : {}),
  ...(n === 24 ? { heard: heardAs(-3, 19), reference: true } : {}),
}));
const page = weeksPage(invented({ played }), { today: dayAt(28) })!;

describe('the page of the weeks (says: issue 9, one sheet)', () => {
  it('stands in words: a row for each week, then what was heard, the decision and the line for a parent', () => {
    const sheet = weeksSheet(page);
    expect(sheet.title).toBe('The kicks at the end');
    expect(sheet.table.rows).toHaveLength(4);
    expect(sheet.table.rows[1]).toEqual(['Monday, 12 October', '4', '5', '4', '32', '0']);
    expect(sheet.others.map(({ heading }) => heading)).toEqual(['What was heard', 'What it was played with', 'The decision, and why', 'For home']);
    expect(sheet.others.at(-1)!.lines[0]).toMatch(/^Practised four of five days/);
  });

  it('is one sheet of A4, tagged with headings and a table, the same bytes each time (says: ISO 32000, structure types)', async () => {
    const bytes = await weeksPdf(page, { madeMs: 0 });
    const text = Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
    expect(text.match(/\/Type \/Page\b/g)).toHaveLength(1);
    expect(text.match(/\/S \/H2/g)).toHaveLength(6);
    expect(text.match(/\/S \/Table/g)).toHaveLength(1);
    expect(text.match(/\/S \/TR/g)).toHaveLength(5);
    expect(await weeksPdf(page, { madeMs: 0 })).toEqual(bytes);
  });

  it('stays one sheet with eight weeks, the most shown, and every line there can be (arithmetic: of each part its most)', async () => {
    const families = ['pad', 'rudiment', 'dynamics', 'inversion', 'kit', 'groove', 'fill', 'use'] as const;
    const change = { index: 5, limb: 'K', between: 'days', thenMs: -25, nowMs: -3 } as const;
    const tempo = { day: dayAt(2), perBeat: 4, bpm: 80, lowBpm: 70, highBpm: 90 };
    const line = 'Seventy letters, which is all that a line has on the page of the weeks';
    const lines = { before: [line], meanwhile: [], back: [line], hurt: true, idle: false };
    const away = { code: 'progress-away-written', params: { days: 6, from: dayAt(2), to: dayAt(9), ...lines } } as const;
    const setup = {
      code: 'weeks-setup',
      params: { day: dayAt(2), names: ['sticks', 'drums', 'pedal'], values: ['thin', 'a pad', 'the old one'] },
    } as const;
    const few = [0, 2, 4, 8].map(dayAt);
    const bytes = await weeksPdf(
      {
        ...page,
        weeks: Array.from({ length: 8 }, (_, k) => ({ ...page.weeks[0]!, from: dayAt(7 * k) })),
        done: [
          { code: 'weeks-done', params: { sessions: 40, days: 39, minutes: 320, byHand: 4 } },
          { code: 'weeks-skipped', params: { days: few } },
          ...[away, away],
          { code: 'weeks-stopped', params: { days: few } },
          { code: 'weeks-hurt', params: { days: few } },
          { code: 'weeks-before', params: { weeks: 40 } },
        ],
        heard: [
          { code: 'weeks-tempo-then', params: tempo },
          { code: 'weeks-tempo-now', params: tempo },
          { code: 'weeks-takes', params: { thenDay: dayAt(1), nowDay: dayAt(8), tempoBpm: 80, perBeat: 4 } },
          ...Array.from({ length: 5 }, () => ({ code: 'progress-nearer-in-time', params: change }) as const),
        ],
        setup: [setup, setup],
        decision: [
          { code: 'weeks-closed', params: { day: dayAt(9) } },
          { code: 'progress-came-back', params: { day: dayAt(20), days: 2 } },
          { code: 'weeks-check', params: { day: dayAt(40) } },
          { code: 'weeks-why', params: { of: 'there' } },
          ...families.slice(1).map((family) => ({ code: 'progress-family-holds', params: { family, days: 3, daysHeard: 3 } }) as const),
          { code: 'weeks-why', params: { of: 'missing' } },
          { code: 'weeks-families', params: { families: ['pad'], clean: 'not-yet' } },
          { code: 'progress-check-later', params: {} },
        ],
      },
      { madeMs: 0 },
    );
    const text = Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
    expect(text.match(/\/Type \/Page\b/g)).toHaveLength(1);
  });

  it('says so when nothing was planned', async () => {
    expect((await weeksPdf(null, { madeMs: 0 })).length).toBeGreaterThan(500);
  });

  it('of a whole way stays one sheet too, with ten plans, the most shown (arithmetic: a row each)', async () => {
    const known = { bpm: 97, lowBpm: 91, highBpm: 104 };
    const stage = { from: dayAt(0), to: dayAt(27), goalBpm: 96, days: 20, plannedDays: 20, minutes: 160, known };
    const { name, from, to, aimed, done, heard, setup, decision } = page;
    const life = { ...{ name, from, to, aimed, done, heard, setup, decision, perBeat: 4 }, stages: Array.from({ length: 10 }, () => stage) };
    const bytes = await lifePdf(life, { madeMs: 0 });
    const text = Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
    expect(text.match(/\/Type \/Page\b/g)).toHaveLength(1);
    expect(text.match(/\/S \/TR/g)).toHaveLength(11);
    const { table } = lifeSheet(life);
    expect(table.rows[0]).toEqual(['5 Oct to 1 Nov 2026', '20', '20', '160', '96', '16ths at 97 (91 to 104)']);
  });
});
