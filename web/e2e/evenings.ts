/** How an evening is lived through the screens: a session in which the player speaks of each round, or one that the microphone hears. */
import { expect, type Page } from '@playwright/test';
import { pass, pressAfterMicrophone, type Seen } from './clock.ts';

/** What became of one block, as the player remembers it. */
export interface PlayedBlock {
  readonly title: string;
  /** "16ths at 94" */
  readonly tempo: string;
  /** Rounds by the player's own word. */
  hadIt: number;
  again: number;
}

/** What the player knows of an exercise by its title. */
export interface Sheet {
  beatsPerBar(title: string): number;
  /** Whether this round came off, by chance. */
  hadIt(title: string, tempoBpm: number): boolean;
}

export const bpmOf = (tempo: string): number => Number(/at (\d+)/.exec(tempo)?.[1]);

/** Starts today's session by the pedal, without the microphone: it is open or not as it was the last time, so mostly the pedal is enough. */
export async function startByWord(page: Page, lastTime: 'with the microphone' | 'by word'): Promise<void> {
  const listen = page.getByRole('checkbox', { name: /Listen/ });
  await expect(listen).toBeChecked({ checked: lastTime === 'with the microphone' });
  if (lastTime === 'with the microphone') await listen.uncheck();
  await page.keyboard.press('PageDown');
  await expect(page.getByText(/Block 1 of/)).toBeVisible();
}

/** From now on tempi move from block to block only: these evenings are held against what was planned and said of whole blocks. */
export async function tempiStayWithin(page: Page): Promise<void> {
  await page.getByText('How it runs').click();
  await page.getByRole('checkbox', { name: /tempo follows/ }).uncheck();
}

/**
 * Plays on until the session is done, or until `leave` says so: every round of every block to its end, and after each a word by key or pedal
 * where the screen asks for one.
 * @returns the blocks that were seen, in order.
 */
export async function playOn(
  page: Page,
  sheet: Sheet,
  leave: (seen: Seen, blocks: readonly PlayedBlock[]) => boolean = () => false,
): Promise<readonly PlayedBlock[]> {
  const blocks: PlayedBlock[] = [];
  let block = '';
  let seen = await pass(page, 0);
  while (seen.heading !== 'Done for today' && !leave(seen, blocks)) {
    if (seen.part !== 'Get ready' && seen.block !== block) {
      block = seen.block;
      blocks.push({ title: seen.title, tempo: seen.heading, hadIt: 0, again: 0 });
    }
    if (seen.part === 'Plain time' && seen.note.endsWith('again?')) {
      const word = sheet.hadIt(seen.title, bpmOf(seen.heading)) ? 'hadIt' : 'again';
      // Now by a key, now by a pedal.
      await page.keyboard.press(KEYS[word][blocks.length % 2]!);
      blocks.at(-1)![word]++;
    }
    seen = await pass(page, untilNext(seen, sheet.beatsPerBar(seen.title)));
  }
  return blocks;
}

const KEYS = { hadIt: ['h', 'ArrowUp'], again: ['a', 'ArrowDown'] } as const;

/** Seconds from what is seen to where it is worth looking again: the end of the wait or the count-in, the next plain time, or the end of the block. */
function untilNext(seen: Seen, beatsPerBar: number): number {
  const beatSec = 60 / bpmOf(seen.heading);
  if (seen.part === 'Get ready') return seen.number + 0.2;
  if (seen.bars === 0) return 0.3;
  const restBeats = (seen.bars - seen.bar) * beatsPerBar + beatsPerBar - seen.number + 1.5;
  const sec = beatSec * (seen.part === 'Plain time' ? restBeats + seen.bars * beatsPerBar : restBeats);
  return seen.part === 'Count-in' ? sec : Math.min(sec, seen.leftSec + 0.5);
}

/** Waits until all of a session, and the plan that follows from it, is written: so long it holds its lock. */
export const allWritten = (page: Page): Promise<void> =>
  expect
    .poll(() => page.evaluate(async () => (await navigator.locks.query()).held!.filter(({ name }) => name?.startsWith('evenhand:session:')).length))
    .toBe(0);

/** What is recorded of an evening. */
export interface Recorded {
  /** Blocks passed over before the one that is recorded. */
  readonly passedOver: number;
  /** Seconds after the microphone was opened at which "go on" is pressed. */
  readonly goOnSec: number;
  /** The sentence that is waited for. */
  readonly said: RegExp;
}

/** One round of one block with the microphone, steered by a pedal: next, next, pause, go on; then stop. */
export async function playByEar(page: Page, { passedOver, goOnSec, said }: Recorded): Promise<PlayedBlock> {
  await page.getByRole('checkbox', { name: /Listen/ }).check();
  await page.keyboard.press('PageDown');
  // A block begins after a breather; whoever pauses and goes on has it at once.
  const before = [...Array<string>(passedOver).fill('PageDown'), 'PageUp'];
  await pressAfterMicrophone(page, before, { key: 'PageDown', sec: goOnSec });
  const seen = await pass(page, 0);
  await expect(page.getByText('Plain time')).toBeVisible({ timeout: 30_000 });
  await page.keyboard.press('Escape');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Done for today', { timeout: 20_000 });
  await expect(page.getByRole('listitem').first()).toContainText(said);
  return { title: seen.title, tempo: seen.heading, hadIt: 0, again: 0 };
}
