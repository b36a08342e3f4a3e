/** The diary held against what happened: its page, the command line's list of the saved file, and the figures over the weeks. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, type Page } from '@playwright/test';
import { EVENINGS } from './calendar.ts';
import { bpmOf, type PlayedBlock } from './evenings.ts';
import type { DayRead, Lived } from './lived.ts';

const nameOf = (day: string): string =>
  new Intl.DateTimeFormat('en-GB', { weekday: 'long', day: 'numeric', month: 'long', year: 'numeric', timeZone: 'UTC' }).format(Date.parse(day));

/**
 * Minutes in which a day's session can have been played: each block but the first begins after a breather of at most 8 s and ends with a whole bar
 * (JOB.md: a session that ends on time). One with the microphone is a count-in and a round: between 5 and 30 s.
 */
function minutesOf({ what, planned, blocks }: Lived): { readonly least: number; readonly most: number } {
  if (what === 'microphone') return { least: 5 / 60, most: 0.5 };
  const lostSec = planned.blocks.reduce((sum, _, k) => sum + (k === 0 ? 0 : 8) + (60 / bpmOf(blocks[k]!.tempo)) * MOST_BEATS, 0);
  return { least: planned.minutes - lostSec / 60, most: planned.minutes };
}

/** Beats of the longest bar that is played. */
const MOST_BEATS = 6;

/** The tolerance, 0.05, is that of a figure with one decimal. */
function expectMinutes(minutes: number, lived: Lived): void {
  const { least, most } = minutesOf(lived);
  expect(minutes, `${lived.day}: minutes`).toBeGreaterThanOrEqual(least - 0.05);
  expect(minutes, `${lived.day}: minutes`).toBeLessThanOrEqual(most + 0.05);
}

/** The page of the diary, day by day: nothing else stands there. */
export function checkDiary(days: readonly DayRead[], lived: readonly Lived[]): void {
  const last = lived.at(-1)!.day;
  const past = EVENINGS.filter(({ day }) => day <= last).reverse();
  const told = past.map(({ day, what }) => (what === 'missed' ? awayAround(day) : nameOf(day)));
  expect(days.map(({ heading, text }) => heading.replace('Today, ', '') || text)).toEqual(told.filter((line, k) => line !== told[k - 1]));
  for (const evening of lived) checkDay(days.find(({ heading }) => heading.endsWith(nameOf(evening.day)))!, evening);
}

/** A missed evening: by itself, or as one of more than three days away on end (arithmetic: between the evenings on either side). */
function awayAround(day: string): string {
  const played = EVENINGS.filter(({ what }) => what !== 'missed').map((evening) => Date.parse(evening.day));
  const DAY_MS = 86_400_000;
  const at = Date.parse(day);
  const [from, to] = [Math.max(...played.filter((one) => one < at)) + DAY_MS, Math.min(...played.filter((one) => one > at)) - DAY_MS];
  const count = (to - from) / DAY_MS + 1;
  const dated = (ms: number) => nameOf(new Date(ms).toISOString().slice(0, 10));
  return count > 3
    ? `${count} days away, from ${dated(from)} to ${dated(to)}. What was planned moved on.`
    : `${nameOf(day)}: a day away. What was planned moved on.`;
}

/** A day of the page against the evening that was lived. */
export function checkDay({ text, items }: DayRead, evening: Lived): void {
  const { day, what, line, blocks } = evening;
  const [, figure, unit] = /Practised ([\d.]+) (min|s)\./.exec(text) ?? [];
  expectMinutes(Number(figure) / (unit === 's' ? 60 : 1), evening);
  expect(items.length, `${day}: blocks`).toBe(blocks.length);
  for (const [k, block] of blocks.entries()) {
    expect(items[k], day).toContain(`${block.title}, ${block.tempo}.`);
    expect(/By your word: had it (\d+) of (\d+) rounds?\./.exec(items[k]!)?.slice(1).map(Number), `${day}: ${block.title}`).toEqual(wordsOf(block));
  }
  expect(text.includes('Stopped before the end.'), `${day}: stopped`).toBe(what === 'microphone');
  expect(text, day).not.toContain('Not finished.');
  if (line) expect(text, day).toContain(line);
}

const wordsOf = ({ hadIt, again }: PlayedBlock): number[] | undefined => (hadIt + again > 0 ? [hadIt, hadIt + again] : undefined);

interface Listed {
  readonly days: readonly {
    readonly day: string;
    readonly minutes: number;
    readonly notes: readonly { readonly text: string }[];
    readonly sessions: readonly {
      readonly ended: string;
      readonly plannedMinutes: number;
      readonly blocks: readonly {
        readonly title: string;
        readonly sticking: string;
        readonly tempoBpm: number;
        readonly runCount: number | null;
        readonly playerSays: string | null;
      }[];
    }[];
  }[];
  readonly problems: readonly unknown[];
}

/** What the app keeps by itself, when it has heard a clean round. */
const FIRST_CLEAN = /^The first clean round of .+, kept to be heard\.$/;

/** The saved file as the command line reads it: another way from the file to the words. */
export function checkListed(backup: Buffer, lived: readonly Lived[]): void {
  const { days, problems } = listed(backup);
  expect(problems).toEqual([]);
  expect(days.map(({ day }) => day)).toEqual(lived.map(({ day }) => day).reverse());
  for (const evening of lived) {
    const { day, what, line, blocks } = evening;
    const listedDay = days.find((one) => one.day === day)!;
    expectMinutes(listedDay.minutes, evening);
    const texts = listedDay.notes.map(({ text }) => text);
    expect(
      texts.filter((text) => !FIRST_CLEAN.test(text)),
      day,
    ).toEqual(line ? [line] : []);
    if (what !== 'microphone')
      expect(
        texts.filter((text) => FIRST_CLEAN.test(text)),
        `${day}: kept though nothing was heard`,
      ).toEqual([]);
    expect(
      listedDay.sessions.map(({ ended, plannedMinutes }) => [ended, plannedMinutes]),
      day,
    ).toEqual([[what === 'microphone' ? 'stopped' : 'done', 12]]);
    const told = listedDay.sessions[0]!.blocks;
    expect(
      told.map(({ title, tempoBpm }) => [title, tempoBpm]),
      day,
    ).toEqual(blocks.map(({ title, tempo }) => [title, bpmOf(tempo)]));
    expect(
      told.map(({ playerSays }) => playerSays),
      day,
    ).toEqual(blocks.map(({ hadIt, again }) => (hadIt + again === 0 ? null : hadIt > again ? 'hadIt' : 'again')));
    expect(
      told.some(({ runCount }) => (runCount ?? 0) > 0),
      `${day}: heard`,
    ).toBe(what === 'microphone');
    // The pad has no feet.
    if (what === 'pad') expect(told.map(({ sticking }) => sticking).join(), day).not.toMatch(/[KH]/);
  }
}

function listed(backup: Buffer): Listed {
  const folder = mkdtempSync(join(tmpdir(), 'evenhand-weeks-'));
  const evenhand = (...given: readonly string[]) =>
    execFileSync(process.execPath, [join(import.meta.dirname, '../../cli/bin/evenhand.mjs'), 'diary', ...given, '--json'], { encoding: 'utf8' });
  try {
    writeFileSync(join(folder, 'diary.zip'), backup);
    evenhand('import', '--in', join(folder, 'diary'), join(folder, 'diary.zip'));
    return JSON.parse(evenhand('list', '--in', join(folder, 'diary'))) as Listed;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Days and minutes over the weeks, and the first and the last reference take side by side. */
export async function checkProgress(page: Page, lived: readonly Lived[]): Promise<void> {
  await page.getByRole('button', { name: 'What changed over the days' }).click();
  const all = page.getByRole('table', { name: 'Days and minutes' }).locator('tfoot td');
  // One part of the page comes after the other.
  await expect(all.first()).toBeVisible();
  const [days, minutes, sessions] = (await all.allTextContents()).map(Number);
  expect([days, sessions]).toEqual([lived.length, lived.length]);
  const sum = (end: 'least' | 'most') => lived.reduce((total, evening) => total + minutesOf(evening)[end], 0);
  expect(minutes).toBeGreaterThanOrEqual(sum('least') - 0.5);
  expect(minutes).toBeLessThanOrEqual(sum('most') + 0.5);
  await expect(page.getByText('Mon 3 Mar and Sat 5 Apr, 16ths at 126.')).toBeVisible();
}
