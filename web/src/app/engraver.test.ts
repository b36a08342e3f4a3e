import { exercisesFor, readContent, readFocus } from '@evenhand/core/exercise';
import { readSticking } from '@evenhand/core/sticking';
import { expect, test } from 'vitest';
import { type EngravedPage, engraveForDesk, engraveForShelf, frameOf, topLine } from './engraver.ts';

/** A letter of 24 px at 1.4 times its size. */
const LEAST_PX = 23;

const sticking = readSticking('RLRLKK').value!;
const content = readContent(sticking, { perBeat: 4 }).value!;
const whole = exercisesFor(content, readFocus({ first: 4, last: 5 }, sticking).value!).exercises.find((one) => one.sticking === 'RLRLKK')!;

test('the largest size is taken that fits the space', async () => {
  const page = await engraveForDesk(whole, { widthPx: 1400, heightPx: 560, label: '', leastCapPx: LEAST_PX });
  expect(page.scale).toBeGreaterThan(1);
  expect(page.engraving.heightPx * page.scale).toBeLessThanOrEqual(560);
  const phone = await engraveForDesk(whole, { widthPx: 360, heightPx: 420, label: '', leastCapPx: LEAST_PX });
  expect(phone.scale).toBeLessThanOrEqual(page.scale);
});

test('an exercise of one line is never cut, however low the desk', async () => {
  const low = readContent(readSticking('R+K K - -').value!, { perBeat: 4, surfaces: 'hi-hat kick kick' }).value!;
  for (const heightPx of [500, 400, 300, 200]) {
    const page = await engraveForDesk({ ...whole, ...low, bars: 1 }, { widthPx: 1400, heightPx, label: '', leastCapPx: LEAST_PX });
    expect(page.engraving.lineCount).toBe(1);
    expect(page.engraving.heightPx * page.scale).toBeLessThanOrEqual(heightPx);
  }
});

test('three bars hold eight cycles of six sixteenths; the ninth is framed where the first stands (arithmetic: 48/6 = 8)', async () => {
  const page = await engraveForDesk(whole, { widthPx: 900, heightPx: 900, label: '', leastCapPx: LEAST_PX });
  expect(page.engraving.strokes).toHaveLength(48);
  const first = frameOf(page, { cycle: 0, indices: [0] });
  expect(frameOf(page, { cycle: 8, indices: [0] })).toEqual(first);
  expect(frameOf(page, { cycle: 7, indices: [5] })).not.toEqual(first);
  expect(frameOf(page, { cycle: 0, indices: [] })).toBeNull();
});

test('strokes together are framed together', async () => {
  const both = readContent(readSticking('R+KL').value!, { perBeat: 2 }).value!;
  const page = await engraveForDesk({ ...whole, ...both }, { widthPx: 900, heightPx: 900, label: '', leastCapPx: LEAST_PX });
  const one = frameOf(page, { cycle: 0, indices: [0] })!;
  const two = frameOf(page, { cycle: 0, indices: [0, 1] })!;
  expect(two.x).toBe(one.x);
  expect(two.width).toBeGreaterThanOrEqual(one.width);
});

test('a long exercise on a phone keeps its size and shows some lines at a time', async () => {
  const long = readContent(readSticking('RLRRLKKRLRLLRLRRLLR').value!, { perBeat: 4 }).value!;
  const page = await engraveForDesk({ ...whole, ...long }, { widthPx: 360, heightPx: 260, label: '', leastCapPx: LEAST_PX });
  expect(page.engraving.lineCount).toBeGreaterThan(page.shownLines);
  expect(page.shownLines).toBeGreaterThanOrEqual(2);
  expect(page.shownLines * page.engraving.linePx * page.scale).toBeLessThanOrEqual(260);
});

test.each([
  { shownLines: 3, lineCount: 7, tops: [0, 0, 2, 2, 4, 4, 4] },
  { shownLines: 2, lineCount: 4, tops: [0, 1, 2, 2] },
  { shownLines: 1, lineCount: 3, tops: [0, 1, 2] },
  { shownLines: 4, lineCount: 4, tops: [0, 0, 0, 0] },
])(
  '$shownLines of $lineCount lines: the page is turned to $tops, the next line always in sight (issue 8: page turned ahead)',
  ({ shownLines, lineCount, tops }) => {
    const page = { shownLines, engraving: { lineCount } } as EngravedPage;
    expect(tops.map((_, line) => topLine(page, line))).toEqual(tops);
    for (const [line, top] of tops.entries()) expect(line >= top && line < top + shownLines).toBe(true);
  },
);

test('large type is half as large again, and rows under the notes are drawn when they are asked for', async () => {
  const look = { rows: { counts: 'en', strokeTypes: true }, large: true } as const;
  const [usual, large] = [await engraveForShelf(whole, { widthPx: 600, label: '' }), await engraveForShelf(whole, { widthPx: 600, label: '', look })];
  expect([usual.scale, large.scale]).toEqual([1, 1.5]);
  expect(large.engraving.widthPx * large.scale).toBeLessThanOrEqual(600);
  expect(usual.engraving.svg).not.toMatch(/class="counts"|class="types"/);
  expect(large.engraving.svg).toMatch(/class="types"[\s\S]*class="counts"/);
});
