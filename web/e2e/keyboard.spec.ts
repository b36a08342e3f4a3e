/** Shelf, plan, today and what changed by the keyboard alone: every stop is seen, none holds the focus, and no deed loses it. */
import { expect, type Page, test } from '@playwright/test';

/** More stops than any screen has. */
const STOPS_AT_MOST = 150;

/** Where the focus is now: what it is called, and whether it is seen. */
async function stop(page: Page): Promise<{ readonly name: string; readonly fault: string | null }> {
  return page.evaluate(() => {
    const at = document.activeElement as HTMLElement;
    if (at === document.body) return { name: '', fault: null };
    const label = (at as HTMLInputElement).labels?.[0]?.textContent ?? '';
    const name = (at.getAttribute('aria-label') ?? (label || at.textContent) ?? '').replaceAll(/\s+/g, ' ').trim();
    const marked = [at, at.closest('.button')].some((one) => {
      const { outlineStyle, outlineWidth } = one ? getComputedStyle(one) : { outlineStyle: 'none', outlineWidth: '0' };
      return outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 2;
    });
    const { left, top, width, height } = at.getBoundingClientRect();
    const inside = (at.closest('label.button') ?? at) as HTMLElement;
    const onTop = document.elementFromPoint(Math.min(innerWidth - 1, left + width / 2), top + Math.min(height / 2, 12));
    const covered = !(onTop && (inside.contains(onTop) || onTop.contains(inside)));
    // The picture of a calendar inside a date is the browser's own, and marked by it.
    const isPart = !at.matches(':focus');
    return { name, fault: !marked && !isPart ? 'not marked' : covered ? 'covered' : null };
  });
}

/** The same once the page rests: sheets further up that are engraved only now move it for a moment. */
async function restedStop(page: Page): Promise<Awaited<ReturnType<typeof stop>>> {
  const first = await stop(page);
  if (first.fault === null) return first;
  await expect
    .poll(async () => (await stop(page)).fault, { timeout: 2000 })
    .toBeNull()
    .catch(() => {});
  return stop(page);
}

/** Goes on by Tab until a stop has that name; every stop on the way must be seen. */
async function tabTo(page: Page, wanted: RegExp): Promise<void> {
  const passed: string[] = [];
  for (let i = 0; i < STOPS_AT_MOST; i++) {
    await page.keyboard.press('Tab');
    const { name, fault } = await restedStop(page);
    expect(fault, `stop “${name}” on the way to ${wanted}`).toBeNull();
    if (wanted.test(name)) return;
    passed.push(name);
  }
  throw new Error(`${wanted} is not reached by Tab: ${passed.join(' | ')}`);
}

/** Round the whole page once: Tab leaves every stop and comes out at the end. */
async function expectNoTrap(page: Page): Promise<void> {
  for (let i = 0; i < STOPS_AT_MOST; i++) {
    const before = await page.evaluateHandle(() => document.activeElement);
    await page.keyboard.press('Tab');
    const { name, fault } = await restedStop(page);
    if (name === '' || name === 'To the page') return;
    expect(fault, `stop “${name}”`).toBeNull();
    expect(await before.evaluate((element) => element !== document.activeElement), `Tab is held at “${name}”`).toBe(true);
  }
  throw new Error('Tab does not come out at the end of the page');
}

const heading = (page: Page) => page.getByRole('heading', { level: 1 });
/** What the focus stands on. */
const focused = (page: Page) => page.locator(':focus');

async function press(page: Page, wanted: RegExp, key = 'Enter'): Promise<void> {
  await tabTo(page, wanted);
  await page.keyboard.press(key);
}

test('by keyboard alone: exercises taken, weeks planned, the day refitted, what changed looked through', async ({ page }) => {
  test.setTimeout(120_000);
  await page.goto('./?demo=read');
  await expect(heading(page)).toHaveText('Today’s session');

  await press(page, /^C ?Shelf$/);
  await expect(heading(page)).toHaveText('The shelf');
  await expect(heading(page)).toBeFocused();
  await press(page, /^In the session: /, ' ');
  await expect(focused(page)).not.toBeChecked();
  await page.keyboard.press(' ');
  await expect(focused(page)).toBeChecked();
  await press(page, /^Show \d+ more$/);
  await expect(page.getByRole('heading', { level: 2 }).nth(6)).toBeFocused();
  await press(page, /^To the session$/);
  await expect(heading(page)).toBeFocused();
  await expect(page.getByRole('spinbutton', { name: /^Minutes for/ })).toHaveCount(3);

  await page.reload();
  await expect(heading(page)).toHaveText('Today’s session');
  await press(page, /^D ?Plan$/);
  await expect(heading(page)).toHaveText('Your plan');
  await expect(heading(page)).toBeFocused();
  await press(page, /^Plan anew$/);
  await expect(heading(page)).toHaveText('Some weeks of it');
  await expect(heading(page)).toBeFocused();
  await press(page, /^Sun$/, ' ');
  await tabTo(page, /^Weeks/);
  await page.keyboard.type('2');
  await expect(page.getByRole('status').filter({ hasText: 'sessions' })).toBeVisible();
  await press(page, /^Keep this plan$/);
  await expect(heading(page)).toHaveText('Today’s session');
  await expect(heading(page)).toBeFocused();

  await press(page, /^Only a pad$/);
  await press(page, /^The floor/);
  // The question goes when the day is fitted, and the keyboard's place goes elsewhere with it.
  await expect(page.getByRole('button', { name: /^The floor/ })).toHaveCount(0);
  await expect(focused(page)).toHaveCount(1);
  await press(page, /^As planned$/);
  await expect(focused(page)).toHaveText('Only a pad');

  await page.reload();
  await expect(heading(page)).toHaveText('Today’s session');
  await press(page, /^F ?Diary$/);
  await press(page, /^What changed over the days$/);
  await expect(heading(page)).toHaveText('What changed');
  await expect(heading(page)).toBeFocused();
  await tabTo(page, /^Exercise/);
  const shown = page.getByRole('combobox', { name: 'Exercise' });
  const first = await shown.inputValue();
  await page.keyboard.press('ArrowDown');
  await expect(shown).not.toHaveValue(first);
  await expectNoTrap(page);

  // A box goes by space; Enter, as a pedal sends it, is the page's own.
  await press(page, /^E ?Session$/);
  await tabTo(page, /^Listen with the microphone/);
  await page.keyboard.press(' ');
  await expect(focused(page)).not.toBeChecked();
  await page.keyboard.press('Enter');
  await expect(page.getByText(/^Block 1 of/)).toBeVisible();
});
