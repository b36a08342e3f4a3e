/** What must hold of the plan on every evening, whatever happened: its minutes, its past, its days, and tempi that follow from what was played. */
import { weekdayOf } from '@evenhand/core/day';
import { say } from '@evenhand/core/words';
import { expect } from '@playwright/test';
import { EVENINGS, type Evening } from './calendar.ts';
import { bpmOf, type PlayedBlock } from './evenings.ts';
import type { DayRead, Lived, Standing } from './lived.ts';

/** Minutes a day that were asked for, and sessions in five weeks of five days. */
const [MINUTES, SESSIONS] = [12, 25];
const MONDAY_TO_SATURDAY_BUT_THURSDAY = [1, 2, 3, 5, 6];

/** On an evening before it is played: minutes exact, days kept, nothing of the past rewritten, what was missed moved on and nothing doubled. */
export function checkPlan({ plan }: Standing, evening: Evening, lived: readonly Lived[]): void {
  const { day } = evening;
  expect(plan.sessions, day).toHaveLength(SESSIONS);
  for (const { date, minutes, blocks } of plan.sessions) {
    expect([minutes, blocks.reduce((sum, block) => sum + block.minutes, 0)], `${day}: minutes of ${date}`).toEqual([MINUTES, MINUTES]);
    expect(MONDAY_TO_SATURDAY_BUT_THURSDAY, `${day}: ${date}`).toContain(weekdayOf(date));
  }
  const missed = EVENINGS.filter((one) => one.what === 'missed' && one.day < day).map((one) => one.day);
  expect(plan.away, day).toEqual(missed);
  expect(
    plan.sessions.filter(({ date }) => date < day),
    `${day}: the past`,
  ).toEqual(lived.map(({ planned }) => planned));
  expect(new Set(plan.sessions.map(({ date }) => date)).size, day).toBe(SESSIONS);
}

/** What the diary promised for next time, by title, and what the player had said until then. */
export class Promises {
  readonly #promised = new Map<string, number>();
  readonly #said = new Map<string, { bpm: number; hadIt: number; again: number; heard: boolean }[]>();
  readonly #goalBpm: number;
  rises = 0;
  falls = 0;

  constructor(goalBpm: number) {
    this.#goalBpm = goalBpm;
  }

  /** Work starts where the diary said it would, at most at the tempo wanted. */
  checkKept({ exercises }: Standing, { planned: { blocks, date } }: Pick<Lived, 'planned'>): void {
    for (const block of blocks.filter(({ part, way }) => (part === 'work' || part === 'use') && way === undefined)) {
      const exercise = exercises.find(({ id }) => id === block.exerciseId)!;
      const promised = this.#promised.get(say(exercise.title));
      const wanted = Math.floor((this.#goalBpm * 4) / exercise.perBeat);
      if (promised !== undefined) expect(block.tempoBpm, `${date}: ${say(exercise.title)} as promised`).toBe(Math.min(promised, wanted));
    }
  }

  /** Up only when more than 85 of 100 rounds at this tempo came off, down only when fewer did (JOB.md); takes down what was promised. */
  note(day: DayRead, blocks: readonly PlayedBlock[]): void {
    for (const [k, { title, tempo, hadIt, again }] of blocks.entries()) {
      const next = /Next time (.+ at \d+)/.exec(day.items[k]!)?.[1];
      if (next === undefined) continue;
      const [bpm, nextBpm] = [bpmOf(tempo), bpmOf(next)];
      const history = [...(this.#said.get(title) ?? []), { bpm, hadIt, again, heard: hadIt + again === 0 }];
      this.#said.set(title, history);
      this.#promised.set(title, nextBpm);
      const here = history.slice(history.map((one) => one.bpm === bpm).lastIndexOf(false) + 1);
      const share = sum(here, 'hadIt') / (sum(here, 'hadIt') + sum(here, 'again'));
      const where = `${day.heading}: ${title} at ${bpm}, next ${nextBpm}, ${share} of the rounds`;
      if (here.some(({ heard }) => heard)) continue;
      if (nextBpm > bpm) expect(share, where).toBeGreaterThan(0.85);
      if (nextBpm < bpm) expect(share, where).toBeLessThan(0.85);
      this.rises += Number(nextBpm > bpm);
      this.falls += Number(nextBpm < bpm);
    }
  }
}

const sum = <Name extends string>(all: readonly Record<Name, number>[], name: Name): number => all.reduce((total, one) => total + one[name], 0);
