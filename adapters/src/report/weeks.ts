/** The page of the weeks in words and as PDF: the apps and the command line write the same. */
import type { LifeColumn, LifePage, OnWeeksPage, PlanStage, WeekDone, WeeksColumn, WeeksPage, WeeksPart } from '@evenhand/core/plan';
import { type Language, say } from '@evenhand/core/words';
import type { PrintedAs, WeeksSheet } from '../paper/index.ts';

const COLUMNS: readonly WeeksColumn[] = ['week', 'days', 'planned', 'sessions', 'minutes', 'byHand'];

/** The page as PDF, one sheet; null gives a sheet that says that nothing was planned. Loads what it draws with when first asked. */
export async function weeksPdf(page: WeeksPage | null, printed: PrintedAs): Promise<Uint8Array> {
  const { weeksPaper } = await import('../paper/index.ts');
  const nothing = say({ code: 'weeks-none-planned', params: {} }, printed.language);
  return weeksPaper(page && weeksSheet(page, printed.language), { ...printed, nothing });
}

/** The whole way of a phrase as PDF, one sheet; null gives a sheet that says that nothing was planned. */
export async function lifePdf(page: LifePage | null, printed: PrintedAs): Promise<Uint8Array> {
  const { weeksPaper } = await import('../paper/index.ts');
  const nothing = say({ code: 'weeks-none-planned', params: {} }, printed.language);
  return weeksPaper(page && lifeSheet(page, printed.language), { ...printed, nothing });
}

const LIFE_COLUMNS: readonly LifeColumn[] = ['plan', 'days', 'planned', 'minutes', 'wanted', 'tempo'];

/** The same with its sentences. */
export function lifeSheet(page: LifePage, language: Language = 'en'): WeeksSheet {
  const { name, from, to, stages, perBeat } = page;
  const said = (statement: OnWeeksPage) => say(statement, language);
  const span = said({ code: 'life-title', params: { from, to } });
  return {
    ...(name === '' ? { title: span, under: '' } : { title: name, under: span }),
    ...partsOf(page, said),
    rowsAre: 'plans',
    table: {
      columns: LIFE_COLUMNS.map((of) => said({ code: 'life-column', params: { of } })),
      rows: stages.map((stage) => planRow(stage, perBeat, said)),
    },
  };
}

const planRow = ({ from, to, days, plannedDays, minutes, goalBpm, known }: PlanStage, perBeat: number, said: Say): readonly string[] => [
  said({ code: 'life-span', params: { from, to } }),
  ...[days, plannedDays, Math.round(minutes), goalBpm].map(String),
  known ? said({ code: 'life-known', params: { perBeat, ...known } }) : '–',
];

/** The page with its sentences. */
export function weeksSheet(page: WeeksPage, language: Language = 'en'): WeeksSheet {
  const { name, from, to, weeks } = page;
  const said = (statement: OnWeeksPage) => say(statement, language);
  const span = said({ code: 'weeks-title', params: { from, to } });
  return {
    ...(name === '' ? { title: span, under: '' } : { title: name, under: span }),
    ...partsOf(page, said),
    rowsAre: 'weeks',
    table: {
      columns: COLUMNS.map((of) => said({ code: 'weeks-column', params: { of } })),
      rows: weeks.map((week) => rowOf(week, said)),
    },
  };
}

type Say = (statement: OnWeeksPage) => string;
type Parts = Pick<WeeksPage, 'aimed' | 'done' | 'heard' | 'setup' | 'decision'> & Partial<Pick<WeeksPage, 'parent'>>;

/** What both pages have, in words. */
function partsOf({ aimed, done, heard, setup, decision, parent }: Parts, said: Say): Pick<WeeksSheet, 'aimed' | 'done' | 'others'> {
  const part = (of: WeeksPart, statements: readonly OnWeeksPage[]) => ({
    heading: said({ code: 'weeks-heading', params: { of } }),
    lines: paragraphs(statements).map((together) => together.map(said).join(' ')),
  });
  return {
    aimed: part('aimed', aimed),
    done: part('done', done),
    others: [part('heard', heard), part('setup', setup), part('decision', decision), ...(parent ? [part('parent', [parent])] : [])],
  };
}

/** What is there and what is missing reads on after its word; all else stands by itself. */
function paragraphs(statements: readonly OnWeeksPage[]): readonly (readonly OnWeeksPage[])[] {
  const all: OnWeeksPage[][] = [];
  let reading = false;
  for (const statement of statements) {
    if (reading && statement.code !== 'weeks-why') all.at(-1)!.push(statement);
    else all.push([statement]);
    reading ||= statement.code === 'weeks-why';
  }
  return all;
}

const rowOf = ({ from, days, plannedDays, sessions, minutes, byHand }: WeekDone, said: (statement: OnWeeksPage) => string): readonly string[] => [
  said({ code: 'weeks-day', params: { day: from } }),
  ...[days, plannedDays, sessions, Math.round(minutes), byHand].map(String),
];
