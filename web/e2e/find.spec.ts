/** "Find my tempo" by ear: a drummer in the room plays evenly up to a tempo, and what is found lies where the playing fell apart. */
import type { BlockBody } from '@evenhand/core/diary';
import { ownExercise, readContent } from '@evenhand/core/exercise';
import { readSticking } from '@evenhand/core/sticking';
import { expect, test } from '@playwright/test';
import { seatDrummer } from './drummer.ts';
import { recordsOf } from './lived.ts';
import { plannedBefore, plannedPart } from './planned.ts';
import { microphoneOf, silentFile } from './planted.ts';
import { besideBen } from './way.ts';

test.use({
  permissions: ['microphone'],
  bypassCSP: true,
  launchOptions: async ({ launchOptions }, use) =>
    use({ ...launchOptions, args: [...(launchOptions.args ?? []), ...microphoneOf(silentFile('find-room.wav'))] }),
});

// The drummer plays in real time and the ear answers in it: where other programs take the processor for seconds, it is tried once more.
test.describe.configure({ retries: 1 });

const EXPECTED_BPM = 140;
const exercise = ownExercise(readContent(readSticking('RLRLL').value!, { perBeat: 4, surfaces: 'R=pad L=pad' }).value!, 'Five');
const even = { countIn: 4, perBeat: 4, lateMs: [] };
/**
 * The tolerance is 18 ms (JOB.md: three times 6 ms). Every sixth stroke is further from the rest (median 0, mean 6), and less than half a sixteenth at
 * 190, so that each eight strokes hold one that is late.
 */
const uneven = { ...even, lateMs: [0, 0, 0, 0, 0, 35] };

test('a tempo found by ear: even bars let it rise, bars that fall apart bring it down; meanwhile nobody changes over to another diary', async ({
  page,
}) => {
  await seatDrummer(page, { surface: 'pad', parts: [even, uneven], clicks: [] });
  await plannedBefore(page, exercise, {
    blocks: [plannedPart(exercise, 'work', { minutes: 3, tempoBpm: EXPECTED_BPM })],
    tempoBpm: EXPECTED_BPM,
    startBy: 'touch',
  });
  await page.goto('./#session');
  await page.reload();
  await besideBen(page);
  await page.locator('ol summary').first().click();
  await page.getByRole('button', { name: 'Find its tempo' }).click();
  await expect(page.getByText('Count-in')).toBeVisible();
  await page.getByRole('button', { name: 'Open Ben’s diary' }).click();
  await expect(page.getByText('A session is running, and it goes into Ada’s diary.')).toBeVisible();
  const heading = page.getByRole('heading', { level: 1 });
  const tempi: number[] = [];
  for (let step = 0; step < 3; step++) {
    // Each step stands there with its tempo until the next.
    await expect(heading).not.toHaveText(`16ths at ${tempi.at(-1)}`, { timeout: 20_000 });
    tempi.push(Number((await heading.textContent())!.replace('16ths at ', '')));
  }
  await page.getByRole('button', { name: 'Enough' }).click();
  await expect(heading).toContainText('Clean up to about 16ths at');
  const [first, second, third] = tempi as [number, number, number];
  expect(second).toBeGreaterThan(first);
  expect(third).toBeLessThan(second);

  const block = (await recordsOf(page)).find(({ kind }) => kind === 'block')!.body as BlockBody;
  // Three bars of sixteen strokes hold two runs of eight each; the third was left before its end (arithmetic).
  expect(block.search).toEqual([
    { tempoBpm: first, clean: 2, runs: 2, byEar: true },
    { tempoBpm: second, clean: 0, runs: 2, byEar: true },
  ]);
  await expect(heading).toContainText(String(block.tempoBpm));
  expect(block.tempoBpm).toBeLessThan(second);
});
