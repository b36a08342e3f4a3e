import { expectedCycle, readContent } from '@evenhand/core/exercise';
import { readSticking } from '@evenhand/core/sticking';
import { describe, expect, test } from 'vitest';
import { nameFontPx, underFontPx } from './standdrums.ts';
import { type LetterPage, type LetterRow, layLetters, rowDue, rowsShown } from './standletters.ts';
import { CAP_EM, standSize } from './standsize.ts';

const PHONE = standSize({ widthPx: 390, heightPx: 844 });
const LAPTOP = standSize({ widthPx: 1440, heightPx: 900 });
const phone = { leastCapPx: PHONE.readPx, glanceCapPx: PHONE.glancePx };
const upright = { widthPx: 366, heightPx: 560, ...phone };
const across = { widthPx: 816, heightPx: 270, ...phone };
const laid = (text: string, bars: number, space = upright, surfaces?: string, beats = 4) => {
  const content = readContent(readSticking(text).value!, { perBeat: 4, ...(surfaces ? { surfaces } : {}) }).value!;
  const cycle = expectedCycle(content);
  return { cycle, page: layLetters({ bars, meter: { beats, unit: 4 } }, cycle, space) };
};
const written = ({ page }: ReturnType<typeof laid>) => page.rows.map(({ letters }) => letters.map(({ text }) => text).join(''));

test('16 minutes of arc at two metres are 9.3 mm (arithmetic: 2000 mm · tan(16/60°); ISO 9241-303)', () => {
  expect(PHONE.readPx * PHONE.mmPerPx).toBeCloseTo(9.308, 3);
  expect((60 * 180 * Math.atan((PHONE.readPx * PHONE.mmPerPx) / 2000)) / Math.PI).toBeCloseTo(16, 9);
  expect(standSize({ widthPx: 820, heightPx: 1180 }).phone).toBe(false);
});

function expectApart({ letters }: LetterRow, page: LetterPage, widthPx: number): void {
  const at = [...new Set(letters.map(({ beat }) => beat))].sort((a, b) => a - b);
  for (const [k, beat] of at.slice(1).entries()) expect((beat - at[k]!) * page.pxPerBeat).toBeGreaterThanOrEqual(page.capPx);
  expect(page.firstPx + Math.max(0, ...at) * page.pxPerBeat + page.capPx / 2).toBeLessThanOrEqual(widthPx - page.leftPx + 0.01);
}

describe('letters in rows', () => {
  test('a bar of sixteenths stands whole on a phone, a beat a row upright, two across (arithmetic: 16 = 4 · 4 = 2 · 8)', () => {
    expect(written(laid('RLRRLRLL', 1))).toEqual(['RLRR', 'LRLL', 'RLRR', 'LRLL']);
    expect(written(laid('RLRRLRLL', 1, across))).toEqual(['RLRRLRLL', 'RLRRLRLL']);
    for (const space of [upright, across]) {
      const { page } = laid('RLRRLRLL', 1, space);
      expect(page.shownRows).toBe(page.rows.length);
      expect(page.capPx).toBeGreaterThanOrEqual(PHONE.readPx);
    }
  });

  test('a bar of three beats stands whole on a phone laid across, half of it a row (arithmetic: 12 = 2 · 6)', () => {
    const three = laid('RLRLK-RLRL-K', 1, across, undefined, 3);
    expect(written(three)).toEqual(['RLRLK', 'RLRLK']);
    expect(three.page.shownRows).toBe(2);
    expect(three.page.capPx).toBeGreaterThanOrEqual(PHONE.readPx);
  });

  test('six sixteenths meet the bar line after three bars: whole bars at a time, each letter once (arithmetic: 48 = 8 · 6)', () => {
    const { page } = laid('RLRLKK', 3);
    expect(page.rows.flatMap(({ letters }) => letters)).toHaveLength(48);
    expect(page.shownRows % (4 / page.beatsPerRow)).toBe(0);
    expect(page.shownRows).toBeLessThan(page.rows.length);
    expect(page.rows[0]!.beats.map(({ number }) => number)).toEqual([1]);
    expect(page.rows[7]!.beats.map(({ number }) => number)).toEqual([4]);
  });

  test.each(['RLRLKK', 'lR(L)>RLrLRK-', 'R+KLRL', 'R/L/RL', '{2:RLR}LR'])(
    'the letters of %s never leave their rows, nor touch, however low or narrow (arithmetic)',
    (text) => {
      const spaces = [320, 366, 600, 816].flatMap((widthPx) => [150, 270, 560].map((heightPx) => ({ widthPx, heightPx, ...phone })));
      for (const space of spaces) {
        const { page } = laid(text, 12, space);
        expect(page.shownRows * page.rowPx).toBeLessThanOrEqual(space.heightPx + 0.01);
        for (const row of page.rows) expectApart(row, page, space.widthPx);
      }
    },
  );

  test('a lane for each of two drums and the feet; of more the name stands where it changes', () => {
    const groove = laid('R+KLR+KL', 1, upright, 'hi-hat kick snare hi-hat kick snare').page;
    expect(groove.lanes).toEqual(['HH', 'SD', '']);
    const round = laid('RLRL', 1, upright, 'snare tom1 tom2 floor-tom').page;
    expect(round.lanes).toEqual([]);
    expect(round.rows[0]!.letters.map(({ drum }) => drum)).toEqual(['SD', 'T1', 'T2', 'FT']);
    const large = { widthPx: 1400, heightPx: 700, leastCapPx: LAPTOP.readPx, glanceCapPx: LAPTOP.glancePx };
    expect(laid('R+KLR+KL', 1, large, 'hi-hat kick snare hi-hat kick snare').page.lanes).toEqual(['hi-hat', 'snare', '']);
  });
});

test('names of drums, or their marks, are as tall as what is glanced at on every screen, and never run into the first letter (ISO 8596: 10′)', () => {
  const surfaces = 'hi-hat kick floor-tom hi-hat kick floor-tom';
  for (const [widthPx, screenPx, heightPx] of [
    [366, 390, 844],
    [816, 844, 390],
    [780, 820, 1180],
    [1400, 1440, 900],
  ] as const) {
    const size = standSize({ widthPx: screenPx, heightPx });
    const { page } = laid('R+KLR+KL', 1, { widthPx, heightPx: 560, leastCapPx: size.readPx, glanceCapPx: size.glancePx }, surfaces);
    const px = nameFontPx(page, size.glancePx);
    // Letters of the sans serif fonts of systems are half an em wide on average, capitals seven tenths; nine in "floor-tom".
    expect(page.marked ? 0.7 * 2 * px : 0.5 * 9 * px).toBeLessThan(page.leftPx + page.firstPx - page.capPx / 2);
    expect(px).toBeLessThanOrEqual(size.glancePx / CAP_EM);
    expect(px).toBeGreaterThanOrEqual(0.999 * (size.glancePx / CAP_EM));
    expect(page.capPx).toBeGreaterThanOrEqual(size.readPx);
  }
});

test('names under letters are as tall, and no two of them touch (ISO 8596: 10′; capitals are seven tenths of an em wide)', () => {
  for (const space of [upright, across]) {
    const { page } = laid('RLRL', 1, space, 'snare tom1 tom2 floor-tom');
    const px = underFontPx(page, PHONE.glancePx);
    expect(px * CAP_EM).toBeGreaterThanOrEqual(0.99 * PHONE.glancePx);
    expect(0.7 * 2 * px).toBeLessThan(page.pxPerBeat / 4);
  }
});

test('what comes is in sight before it is due, and nothing moves that is not over (issue 8: page turned ahead)', () => {
  const { page, cycle } = laid('RLRLKK', 3);
  const count = page.rows.length;
  for (let row = 0; row < 2 * count; row++) {
    const now = rowsShown(page, row);
    for (let ahead = 0; ahead < page.shownRows; ahead++) expect(now).toContain((row + ahead) % count);
    const next = rowsShown(page, row + 1);
    expect(now.filter((one, place) => next[place] !== one)).toEqual([row % count]);
  }
  expect(rowDue(page, cycle, { cycle: 9, indices: [0] })).toBe(13);
  expect(rowDue(page, cycle, null)).toBe(0);
});
