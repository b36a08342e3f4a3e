/** What a player remembers of an evening, and the diary in the browser as plain data. */
import { type DiaryRecord, fold } from '@evenhand/core/diary';
import type { Exercise } from '@evenhand/core/exercise';
import type { Plan, PlannedSession } from '@evenhand/core/plan';
import { say } from '@evenhand/core/words';
import type { Page } from '@playwright/test';
import { standingPlan } from '../src/app/savedplan.ts';
import type { Evening } from './calendar.ts';
import { databaseOf } from './database.ts';
import type { PlayedBlock } from './evenings.ts';

/** An evening that was lived. */
export interface Lived extends Evening {
  /** The session as it was planned when it began. */
  readonly planned: PlannedSession;
  readonly blocks: readonly PlayedBlock[];
}

/** The plan that stands, and its exercises by the titles on the screen. */
export interface Standing {
  readonly plan: Plan;
  readonly exercises: readonly Exercise[];
  titled(title: string): Exercise;
}

export async function standingIn(page: Page): Promise<Standing> {
  const { plan, exercises } = standingPlan(fold(await recordsOf(page)))!;
  // On a pad a title says so after a comma.
  const titled = (title: string) => exercises.find((one) => title.startsWith(say(one.title)))!;
  return { plan, exercises, titled };
}

/** All records of the drummer's own diary. */
export const recordsOf = async (page: Page): Promise<readonly DiaryRecord[]> => (await databaseOf(page, ['records'])).all[0] as DiaryRecord[];

/** A day of the diary as it is read on its page. */
export interface DayRead {
  readonly heading: string;
  readonly text: string;
  /** One for each block. */
  readonly items: readonly string[];
}

/** The diary from its page, the latest day first. */
export const daysRead = (page: Page): Promise<readonly DayRead[]> =>
  page.evaluate(() => {
    const textOf = (element: Element | null) => element?.textContent?.replaceAll(/\s+/g, ' ').trim() ?? '';
    const read = (element: Element, heading: Element | null) => ({
      heading: textOf(heading),
      text: textOf(element),
      items: [...element.querySelectorAll('li')].map(textOf),
    });
    const today = document.querySelector('section[aria-labelledby="today"]')!;
    const earlier = [...document.querySelectorAll('section[aria-labelledby="earlier"] > ol > li:not(.month)')];
    return [read(today, today.querySelector('h2')), ...earlier.map((day) => read(day, day.querySelector('h3')))];
  });
