/** The page of the weeks and the line for a parent, from an invented diary, as someone reads it who did not live it. */
import { describe, expect, it } from 'vitest';
import type { RecordDraft } from '../diary/index.ts';
import { say } from '../words/index.ts';
import { parentLine } from './parentline.ts';
import { dayAt, heardAs, invented, type Played } from './weeks.case.ts';
import { weeksPage } from './weekspage.ts';
import type { OnWeeksPage } from './weekssaid.ts';

const text = (statements: readonly OnWeeksPage[]): string => statements.map((one) => say(one)).join('\n');

/** Monday to Friday of weeks 1, 2 and 4; week 3 away but for its Friday. Week 2 begins on its Tuesday. */
const DAYS = [0, 1, 2, 3, 4, 8, 9, 10, 11, 18, 21, 22, 23, 24];
const played: readonly Played[] = DAYS.map((n) => ({
  n,
  minutes: 8,
  ...(n === 1 ? { heard: heardAs(-25, 4), reference: true } : {}),
  ...(n === 24 ? { heard: heardAs(-3, 19), reference: true } : {}),
}));
const view = invented({ played, byHand: [12], missed: [7, 14, 15, 16, 17] });
const page = weeksPage(view, { today: dayAt(28) })!;

describe('the page of the weeks, of an invented diary (says: issue 9, what was aimed at, done, heard; the decision and why)', () => {
  it('aims at the phrase, its tempo, the weeks, days and minutes', () => {
    expect(text(page.aimed)).toBe(
      'RLRLKK, wanted at 16ths at 96.\nPlanned: 15 sessions of 8 minutes, 5 days a week, from Monday, 5 October, to Friday, 30 October.',
    );
  });

  it('counts each week as the test counts it from its own calendar (arithmetic: days 0 to 27 from a Monday, by Date)', () => {
    const byHand = [12];
    const all = [...DAYS, ...byHand];
    const weekOf = (k: number, days: readonly number[]) => days.filter((n) => Math.floor(n / 7) === k).length;
    const minutes = (k: number) => 8 * weekOf(k, DAYS) + 20 * weekOf(k, byHand);
    expect(page.weeks).toEqual(
      [0, 1, 2, 3].map((k) => ({
        ...{ from: dayAt(7 * k), days: weekOf(k, all), sessions: weekOf(k, all), plannedDays: 5, minutes: minutes(k), byHand: weekOf(k, byHand) },
      })),
    );
    expect(text(page.done)).toContain('Played: 15 sessions on 15 days, 132 minutes in all; one of them written down by hand.');
  });

  it('tells what was skipped and where the days away were (arithmetic: 13 to 17 is Sunday to Thursday)', () => {
    // Planned and not played: days 7, 14 to 17, and 25, the last Friday.
    expect(text(page.done)).toContain('Planned and not played: 6 days.');
    expect(text(page.done)).toContain('18 Oct to 22 Oct 2026: 5 days away.');
    expect(text(page.done).match(/days away/g)).toHaveLength(1);
  });

  it('tells what changed for sure between the two takes, and only that (arithmetic: 25 ms early, then 3, each ± 2)', () => {
    const heard = text(page.heard);
    expect(heard).toContain('The phrase at 16ths at 80, then (Tuesday, 6 October) against now (Thursday, 29 October):');
    expect(heard).toContain('Stroke 6 (kick)');
    expect(heard).not.toMatch(/Stroke [1-5] /);
  });

  it('goes on while the tempo wanted was not held, and says what is missing', () => {
    expect(text(page.decision)).toMatch(
      /^It goes on\. The weeks that were planned are over\.\nStill missing:\nThe phrase itself: not yet clean at 96, the tempo wanted\./,
    );
  });

  it('ends with the closing of a closed phrase: what was written down by hand weeks later is not of it, nor are the days until then days away', () => {
    const closed = weeksPage(invented({ played, byHand: [60], state: { is: 'closed', day: dayAt(25) } }), { today: dayAt(70) })!;
    expect(closed.to).toBe(dayAt(25));
    expect(text(closed.done)).toContain('Played: 14 sessions on 14 days');
    expect(text(closed.done)).not.toContain('35 days away');
    const open = weeksPage(invented({ played, byHand: [60] }), { today: dayAt(70) })!;
    expect(text(open.done)).toContain(': 35 days away.');
  });

  it('counts nothing as not played once the phrase was closed or put aside, and ends there (says: issue 9, read by somebody who did not live it)', () => {
    for (const is of ['closed', 'paused'] as const) {
      const ended = weeksPage(invented({ played: played.filter(({ n }) => n < 12), state: { is, day: dayAt(14) } }), { today: dayAt(70) })!;
      expect(ended.to).toBe(dayAt(14));
      // Of days 0 to 11 and 14, fourteen sessions were planned before the 14th; 7 was the only one not played.
      expect(text(ended.done)).toContain('Planned and not played: Monday 12 October');
      expect(ended.parent).toBeNull();
    }
  });

  it('counts practice by hand for the phrase that was open on that day, or for none (says: issue 9, ten minutes on tour went to a phrase put aside)', () => {
    const other: RecordDraft = {
      ...{ kind: 'stickingPoint', id: '0b'.repeat(16), atMs: 1, zone: 'UTC', day: dayAt(40) },
      body: { name: 'Another', sticking: 'RLL', surfaces: ['snare', 'snare', 'snare'], perBeat: 3, tempoBpm: 100, cell: null },
    };
    const byHand = [12, 33, 45];
    const of = (state?: { is: 'paused'; day: string }) =>
      weeksPage(invented({ played, byHand, more: [other], ...(state ? { state } : {}) }), { today: dayAt(50) })!.done;
    // The first while it was open alone, the second after it was put aside and before the other, the third with the other.
    expect(text(of({ is: 'paused', day: dayAt(28) }))).toContain('Played: 15 sessions on 15 days, 132 minutes in all; one of them written');
    // Both open: nobody can tell which the third was for.
    expect(text(of())).toContain('Played: 16 sessions on 16 days');
  });

  it('tells days away whole and as the diary does, when they began before the plan or with another phrase; and what was played before it', () => {
    const before = [-20, -12, -11].map((n) => ({ n, minutes: 10 }));
    const late = weeksPage(invented({ played: [...before, ...played.filter(({ n }) => n > 7)] }), { today: dayAt(28) })!;
    expect(text(late.done)).toContain('25 Sept to 12 Oct 2026: 18 days away.');
    expect(text(late.done)).toContain('Before this plan: 3 sessions on 3 days since Tuesday, 15 September 2026, 30 minutes.');
  });

  it('says of the course of the tempo what the results carry: a phrase clean at 96 that was at 70 two weeks before (says: planted)', () => {
    const steps = Array.from({ length: 20 }, (_, k): Played => {
      const n = 7 * Math.floor(k / 5) + (k % 5);
      return { n, minutes: 8, tempoBpm: n < 14 ? 70 : 96, heard: heardAs(-5, 17) };
    });
    const told = text(weeksPage(invented({ played: steps }), { today: dayAt(28) })!.heard);
    const [, before, last] = /Clearly faster since about Monday, 19 October: 16ths at about (\d+) just before, at about (\d+) at last/.exec(told)!;
    // Every run at 70 and at 96 was clean, so the clean tempo lies there or above, by less than a step of tempo that anybody would take (a tenth).
    for (const [bpm, played] of [
      [before, 70],
      [last, 96],
    ] as const) {
      expect(Number(bpm)).toBeGreaterThanOrEqual(played);
      expect(Number(bpm)).toBeLessThan(1.1 * played);
    }
    expect(text(page.heard)).not.toMatch(/Held|faster since|It rose/);
  });

  it('names the years where there are two (calendar)', () => {
    const [from, to] = ['2025-11-26', '2026-05-22'];
    expect(say({ code: 'weeks-title', params: { from, to } })).toBe(
      'The weeks of one plan, from Wednesday, 26 November 2025, to Friday, 22 May 2026',
    );
  });

  it('does not go on without a word where the tempo wanted is not in sight, and says what could be tried; not after something hurt (says: issue 9, read by somebody who did not live it)', () => {
    // 17 of 20 runs clean at 60 for three weeks: it stays there, and 96 is wanted.
    const still = Array.from({ length: 20 }, (_, n) => n)
      .filter((n) => n % 7 < 5)
      .map((n) => ({ n, minutes: 8, tempoBpm: 60, heard: heardAs(0, 17) }));
    const decided = (ended?: 'hurt') =>
      text(
        weeksPage(invented({ played: still.map((one, k) => (k === still.length - 1 && ended ? { ...one, ended } : one)) }), { today: dayAt(19) })!
          .decision,
      );
    expect(decided()).toContain('Going on like this, 96 is not in sight within 26 weeks.');
    expect(decided()).toContain('What could be tried: the phrase at the tempo wanted, a moment at a time');
    expect(decided('hurt')).not.toContain('What could be tried');
  });

  it('tells of a phrase that was closed or put aside, and when', () => {
    const decided = (is: 'closed' | 'paused') => text(weeksPage(invented({ played, state: { is, day: dayAt(25) } }), { today: dayAt(28) })!.decision);
    expect(decided('closed')).toMatch(
      /^Closed on Friday, 30 October\.\nClosed by your own decision, without:\nThe phrase itself: not yet clean at 96,/,
    );
    expect(decided('closed')).not.toContain('A check comes');
    expect(decided('paused')).toMatch(/^Put aside on Friday, 30 October\./);
  });

  it('of a closed phrase: what was planned until then, and when it was to be tried again and was not (says: issue 9, read by somebody who did not live it)', () => {
    const missed = [2, 46, 81];
    const { aimed, decision } = weeksPage(invented({ played, missed, state: { is: 'closed', day: dayAt(25) } }), { today: dayAt(70) })!;
    expect(text(aimed)).toContain(
      'Planned until it was closed: 20 sessions of 8 minutes, 5 days a week, from Monday, 5 October, to Friday, 30 October.',
    );
    expect(text(decision)).toContain('It was to be tried again on Friday 20 November, and was not.');
  });

  it('marks a change of sticks within the weeks, not the first word about them', () => {
    const setup = (n: number, sticks: string): RecordDraft => ({
      kind: 'setup',
      atMs: n,
      zone: 'UTC',
      day: dayAt(n),
      body: { sticks, drums: 'pad', pedal: '', heel: '', phonePlace: '' },
    });
    const told = weeksPage(invented({ played, more: [setup(0, 'thin'), setup(9, 'thick')] }), { today: dayAt(28) })!;
    expect(text(told.setup)).toBe('From Wednesday, 14 October, on: sticks thick.');
    expect(text(page.setup)).toContain('No change');
  });

  it('leaves out what comes after the day it is told for', () => {
    const early = weeksPage(view, { today: dayAt(4) })!;
    expect(early.weeks.map(({ days }) => days)).toEqual([5]);
    expect(text(early.decision)).toMatch(/^It goes on: there is a plan until Friday, 30 October\./);
  });

  it('is none without a plan', () => {
    expect(weeksPage({ ...view, plans: [] }, { today: dayAt(28) })).toBeNull();
    expect(parentLine({ ...view, plans: [] }, { today: dayAt(28) })).toBeNull();
  });
});

describe('the line for a parent (says: JOB.md, practised four of five days, eight minutes, listen for two equal kicks)', () => {
  const lineFor = (of: Parameters<typeof invented>[0], n: number) => say(parentLine(invented(of), { today: dayAt(n) })!);

  it('is one kind sentence', () => {
    // The seven days to day 27: 21 to 24 were played, 25 was not.
    expect(lineFor({ played }, 28)).toBe('Practised four of five days in the past week, eight minutes a day, listen for two equal kicks.');
    expect(lineFor({ played: [{ n: 21, minutes: 12 }] }, 28)).toBe('Practised one day in the past week, twelve minutes a day.');
  });

  it('does not count today against anybody before it was played', () => {
    expect(lineFor({ played: played.filter(({ n }) => n < 5) }, 5)).toMatch(/^Practised five days in the past week,/);
    expect(lineFor({ played: played.filter(({ n }) => n < 4) }, 4)).toMatch(/^Practised four days in the past week,/);
  });

  it('never holds what was missed against anybody, and names no figure of time or volume', () => {
    expect(lineFor({ played: [] }, 28)).toMatch(/any day is a good day to begin again/);
    expect(lineFor({ played: [{ n: 21, minutes: 5 }] }, 28)).toBe('Practised one day in the past week, five minutes a day.');
    for (const n of [5, 12, 19, 28]) expect(lineFor({ played }, n)).not.toMatch(/\bms\b|dB|\d|missed|only|late|early/);
  });

  it('puts pain first, and asks for no sound then (says: JOB.md, pain is never progress)', () => {
    const line = lineFor({ played: [...played.slice(0, 13), { n: 24, minutes: 3, ended: 'hurt', heard: heardAs(-25, 4) }] }, 28);
    expect(line).toMatch(/something hurt, so ask how it feels before the next time, and see a licensed clinician/);
    expect(line).not.toContain('listen');
  });

  it('asks for no evenness where something else is meant (says: JOB.md, even is not always right)', () => {
    expect(lineFor({ played, shapes: ['leaning'] }, 28)).toContain('listen for the phrase as it is meant to sound');
  });
});
