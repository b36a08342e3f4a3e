import { exercisesFor, readContent, readFocus } from '@evenhand/core/exercise';
import { readSticking } from '@evenhand/core/sticking';
import { expect, test } from 'vitest';
import { engraveForDesk, frameOf } from './engraver.ts';

const sticking = readSticking('RLRLKK').value!;
const content = readContent(sticking, { perBeat: 4 }).value!;
const whole = exercisesFor(content, readFocus({ first: 4, last: 5 }, sticking).value!).exercises.find((one) => one.sticking === 'RLRLKK')!;

test('the largest size is taken that fits the space', async () => {
  const page = await engraveForDesk(whole, { widthPx: 1400, heightPx: 560, label: '' });
  expect(page.scale).toBeGreaterThan(1);
  expect(page.engraving.heightPx * page.scale).toBeLessThanOrEqual(560);
  const phone = await engraveForDesk(whole, { widthPx: 360, heightPx: 420, label: '' });
  expect(phone.scale).toBeLessThanOrEqual(page.scale);
});

test('three bars hold eight cycles of six sixteenths; the ninth is framed where the first stands (arithmetic: 48/6 = 8)', async () => {
  const page = await engraveForDesk(whole, { widthPx: 900, heightPx: 900, label: '' });
  expect(page.engraving.strokes).toHaveLength(48);
  const first = frameOf(page, { cycle: 0, indices: [0] });
  expect(frameOf(page, { cycle: 8, indices: [0] })).toEqual(first);
  expect(frameOf(page, { cycle: 7, indices: [5] })).not.toEqual(first);
  expect(frameOf(page, { cycle: 0, indices: [] })).toBeNull();
});

test('strokes together are framed together', async () => {
  const both = readContent(readSticking('R+KL').value!, { perBeat: 2 }).value!;
  const page = await engraveForDesk({ ...whole, ...both }, { widthPx: 900, heightPx: 900, label: '' });
  const one = frameOf(page, { cycle: 0, indices: [0] })!;
  const two = frameOf(page, { cycle: 0, indices: [0, 1] })!;
  expect(two.x).toBe(one.x);
  expect(two.width).toBeGreaterThanOrEqual(one.width);
});
