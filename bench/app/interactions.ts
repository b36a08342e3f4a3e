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
  for (const part of [openMarks, changeDay, seeWhatChanged, useShelf, openSettings, typeSticking, startSession]) await part(page, timed);
}

type TimeIt = (name: string, awaited: Awaited, act: () => Promise<void>, kind?: 'click' | 'input') => Promise<void>;

const mark = (page: Page, name: string) => page.getByRole('navigation').getByRole('link', { name });
const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name, ...(typeof name === 'string' ? { exact: true } : {}) });

async function openMarks(page: Page, timed: TimeIt): Promise<void> {
  for (const [index, [name, shown]] of MARKS.entries()) await timed(`${'ABCDEF'[index]} ${name}: open`, shown, () => mark(page, name).click(AT_ONCE));
}

async function changeDay(page: Page, timed: TimeIt): Promise<void> {
  await mark(page, 'Session').click();
  const feet = { selector: 'legend', text: 'What do the feet play on?' };
  await timed('Session: only a pad', feet, () => button(page, 'Only a pad').click(AT_ONCE));
  await timed('Session: as planned', { selector: 'button.start' }, () => button(page, 'As planned').click(AT_ONCE));
}

async function seeWhatChanged(page: Page, timed: TimeIt): Promise<void> {
  await mark(page, 'Diary').click();
  await timed('Diary: what changed over the days', { selector: '.picture' }, () => button(page, 'What changed over the days').click(AT_ONCE));
}

/** Three are in the session from the start, so one is put back and taken again. What is kept and dropped is taken back for the next walk. */
async function useShelf(page: Page, timed: TimeIt): Promise<void> {
  await mark(page, 'Shelf').click();
  const sheet = page
    .getByRole('article')
    .filter({ has: page.getByRole('checkbox', { name: /^In the session/, checked: true }) })
    .first();
  await sheet.scrollIntoViewIfNeeded();
  const title = (await sheet.getByRole('heading').textContent()) ?? '';
  const box = (name: string) => page.getByRole('checkbox', { name: `${name}: ${title}`, exact: true });
  for (const what of ['put back', 'taken'])
    await timed(`Shelf: exercise ${what}`, { selector: 'article' }, () => box('In the session').click(AT_ONCE));
  for (const what of ['kept', 'not kept']) await timed(`Shelf: exercise ${what}`, { selector: 'article' }, () => box('Keep').click(AT_ONCE));
  await timed('Shelf: listen', { selector: 'button[aria-pressed=true]' }, () => button(page, `Listen: ${title}`).click(AT_ONCE));
  await button(page, `Listen: ${title}`).click();
  await timed('Shelf: change it', { selector: 'article form' }, () => button(page, `Change it: ${title}`).click(AT_ONCE));
  await button(page, 'Leave it').click();
  await timed('Shelf: drop', { selector: 'li', text: 'Dropped.' }, () => button(page, `Drop: ${title}`).click(AT_ONCE));
  await timed('Shelf: bring it back', { selector: 'article' }, () => button(page, /^Bring it back/).click(AT_ONCE));
  await timed('Shelf: write one', { selector: 'section form' }, () => button(page, 'Write one').click(AT_ONCE));
  await button(page, 'Leave it').click();
  const kind = page.getByRole('combobox', { name: /^Kind/ });
  await timed('Shelf: only in music', { selector: 'article' }, async () => void (await kind.selectOption('use')), 'input');
}

async function openSettings(page: Page, timed: TimeIt): Promise<void> {
  await timed('Settings: open', { selector: 'h2', text: 'Settings' }, () => button(page, 'Settings').click(AT_ONCE));
  await button(page, 'Settings').click();
}

async function typeSticking(page: Page, timed: TimeIt): Promise<void> {
  await mark(page, 'Phrase').click();
  const field = page.getByLabel('Sticking, one cycle');
  await field.fill('');
  for (const letter of TYPED) await timed('Phrase: one key of a sticking', { selector: '#sticking' }, () => field.press(letter), 'input');
}

async function startSession(page: Page, timed: TimeIt): Promise<void> {
  await mark(page, 'Session').click();
  await timed('Session: start', { selector: 'main', text: 'Get ready' }, () => button(page, 'Start').click(AT_ONCE));
}
