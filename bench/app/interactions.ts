/** The interactions that are timed, one walk through the demo's diary at a time. */
import { expect, type Page } from '@playwright/test';
import { type Awaited, type Timed, type Timing, time } from './stopwatch.ts';

/** Times of each interaction, by its name. */
export type Times = Map<string, Timed[]>;

/** Playwright looks at a control over two frames before it clicks; a page at rest need not make any. */
const AT_ONCE = { force: true } as const;

const TYPED = 'RLRRLRLLK';

const heading = (text: string): Awaited => ({ selector: 'h1', text });

/** The marks as they stand on the staff, and what shows that each screen is there whole. */
const MARKS: readonly (readonly [mark: string, shown: Awaited])[] = [
  ['Phrase', heading('Which phrase will not hold?')],
  ['Heard', heading('What was heard')],
  ['Shelf', { selector: 'article svg' }],
  ['Plan', heading('Your plan')],
  ['Session', heading('Today’s session')],
  ['Diary', heading('Diary')],
];

/** One walk: the app is opened anew, so that everything is asked for the first time. */
export async function walkOnce(timing: Timing, address: string, times: Times): Promise<void> {
  const { page } = timing;
  const timed: TimeIt = async (name, awaited, act, kind = 'click') => {
    const known = times.get(name) ?? [];
    times.set(name, [...known, await time(timing, awaited, kind, act)]);
  };
  await page.goto('about:blank');
  await page.goto(`${address}?demo=read`);
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Today’s session');
  await openMarks(page, timed);
  await changeDay(page, timed);
  await seeWhatChanged(page, timed);
  await keepAndDrop(page, timed);
  await typeSticking(page, timed);
  await startSession(page, timed);
}

type TimeIt = (name: string, awaited: Awaited, act: () => Promise<void>, kind?: 'click' | 'input') => Promise<void>;

const mark = (page: Page, name: string) => page.getByRole('navigation').getByRole('link', { name });

async function openMarks(page: Page, timed: TimeIt): Promise<void> {
  for (const [index, [name, shown]] of MARKS.entries()) await timed(`${'ABCDEF'[index]} ${name}: open`, shown, () => mark(page, name).click(AT_ONCE));
}

async function changeDay(page: Page, timed: TimeIt): Promise<void> {
  await mark(page, 'Session').click();
  await timed('Session: only a pad', { selector: 'legend', text: 'What do the feet play on?' }, () =>
    page.getByRole('button', { name: 'Only a pad' }).click(AT_ONCE),
  );
  await timed('Session: as planned', { selector: 'button.start' }, () => page.getByRole('button', { name: 'As planned' }).click(AT_ONCE));
}

async function seeWhatChanged(page: Page, timed: TimeIt): Promise<void> {
  await mark(page, 'Diary').click();
  await timed('Diary: what changed over the days', { selector: '.picture' }, () =>
    page.getByRole('button', { name: 'What changed over the days' }).click(AT_ONCE),
  );
}

async function keepAndDrop(page: Page, timed: TimeIt): Promise<void> {
  await mark(page, 'Shelf').click();
  const boxes = page.getByRole('checkbox', { name: /In the session/ });
  const first = boxes.first();
  await expect(first).toBeVisible();
  const [kept, dropped] = (await first.isChecked()) ? ['dropped', 'kept'] : ['kept', 'dropped'];
  for (const done of [kept, dropped]) await timed(`Shelf: exercise ${done}`, { selector: 'article' }, () => first.click(AT_ONCE));
}

async function typeSticking(page: Page, timed: TimeIt): Promise<void> {
  await mark(page, 'Phrase').click();
  const field = page.getByLabel('Sticking, one cycle');
  await field.fill('');
  for (const letter of TYPED) await timed('Phrase: one key of a sticking', { selector: '#sticking' }, () => field.press(letter), 'input');
}

async function startSession(page: Page, timed: TimeIt): Promise<void> {
  await mark(page, 'Session').click();
  await timed('Session: start', { selector: 'main', text: 'Get ready' }, () =>
    page.getByRole('button', { name: 'Start', exact: true }).click(AT_ONCE),
  );
}
