/** The whole way of a phrase over two plans, held against an invented diary of eight weeks. */
import { describe, expect, it } from 'vitest';
import type { RecordDraft } from '../diary/index.ts';
import { say } from '../words/index.ts';
import { lifePage, lifePageBy } from './index.ts';
import { dayAt, heardAs, invented, PHRASE, type Played, POINT_ID } from './weeks.case.ts';
import type { OnWeeksPage } from './weekssaid.ts';

const text = (said: readonly OnWeeksPage[]) => said.map((one) => say(one)).join('\n');
const statement = { code: 'x', params: {} };

/** Monday to Thursday of each of eight weeks, ten minutes; the phrase at its fixed tempo on Mondays. */
const played: readonly Played[] = Array.from({ length: 8 }, (_, week) =>
  [0, 1, 2, 3].map((day): Played => {
    const tempoBpm = 76 + 2 * week;
    return { n: 7 * week + day, minutes: 10, tempoBpm: day === 0 ? 80 : tempoBpm, heard: heardAs(-20 + 2 * week, 16), reference: day === 0 };
  }),
).flat();

const first = invented({ played: played.slice(0, 16) }).plans[0]!;
const planned = (days: readonly number[], replaces: string, goalBpm: number): RecordDraft => ({
  ...{ kind: 'plan', atMs: Date.UTC(2026, 10, 2, 17), zone: 'UTC', day: dayAt(days[0]!) },
  body: {
    ...{ stickingPointId: POINT_ID, goalBpm, minutes: 10, replaces, weekdays: [1, 2, 3, 4, 5], away: [] },
    sessions: days.map((n) => ({
      ...{ date: dayAt(n), minutes: 10 },
      blocks: [
        {
          exerciseId: 'phrase',
          part: 'reference',
          minutes: 8,
          tempoBpm: 80,
          aim: statement,
          reason: { code: 'plan-reason-reference', params: {} },
          tempoReason: statement,
        },
      ],
    })),
    exercises: [PHRASE],
  },
});
const SECOND = Array.from({ length: 28 }, (_, n) => 28 + n).filter((n) => n % 7 < 5);
const view = invented({ played, more: [planned(SECOND, first.id, 104)], state: { is: 'paused', day: dayAt(53) } });
const asked = { today: dayAt(60) };

describe('the whole way of a phrase (says: issue 9; what was aimed at, done, heard; the decision and why)', () => {
  const page = lifePage(view, asked, [first])!;

  it('has a row for each plan, up to the day before the next (arithmetic: 4 of 5 days a week, 10 minutes)', () => {
    expect(page.stages.map(({ known: _, ...stage }) => stage)).toEqual([
      { from: dayAt(0), to: dayAt(27), goalBpm: 96, days: 16, plannedDays: 20, minutes: 160 },
      // Put aside on the Friday of the last week: what was planned for that day is not asked after.
      { from: dayAt(28), to: dayAt(53), goalBpm: 104, days: 16, plannedDays: 19, minutes: 160 },
    ]);
    expect([page.from, page.to]).toEqual([dayAt(0), dayAt(53)]);
    const [was, is] = page.stages.map(({ known }) => known!.bpm);
    expect(is! - was!).toBeGreaterThan(4);
  });

  it('says what was aimed at, what was done in all, and what was decided', () => {
    expect(text(page.aimed)).toBe('RLRLKK, wanted at 16ths at 104.\nTwo plans; wanted was 96, then 104.');
    expect(text(page.done)).toContain('Played: 32 sessions on 32 days, 320 minutes in all.');
    expect(text(page.decision)).toContain('Put aside on');
    expect(text(page.heard)).toContain(
      `then (${say({ code: 'weeks-day', params: { day: dayAt(0) } })}) against now (${say({ code: 'weeks-day', params: { day: dayAt(49) } })})`,
    );
  });

  it('asks for each plan by the one that took its place; what is not there is left out', async () => {
    expect(await lifePageBy(view, asked, async (id) => (id === first.id ? first : null))).toEqual(page);
    const alone = (await lifePageBy(view, asked, async () => null))!;
    expect(alone.stages.map(({ from }) => from)).toEqual([dayAt(28)]);
    expect(text(alone.done)).toContain('Before the first plan: 16 sessions on 16 days');
  });

  it('a revision of some days later is the same plan', () => {
    const moved = {
      ...first,
      id: 'moved',
      made: { ...first.made, counter: first.made.counter + 0.5 },
      body: { ...first.body, replaces: first.id, sessions: first.body.sessions.slice(3) },
    };
    expect(lifePage(view, asked, [first, moved])!.stages.map(({ from }) => from)).toEqual([dayAt(0), dayAt(28)]);
  });

  it('without a plan there is none', () => {
    expect(lifePage({ ...view, plans: [] }, asked)).toBeNull();
  });
});
