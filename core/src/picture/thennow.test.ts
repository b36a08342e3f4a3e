/** Then and now as one picture, read back from its SVG. */
import { describe, expect, it } from 'vitest';
import { expectedCycle, readContent } from '../exercise/index.ts';
import type { ChangeStatement } from '../progress/index.ts';
import { madeMeasurement } from '../progress/made.case.ts';
import { readSticking } from '../sticking/index.ts';
import { all, numberOf, ofClass, readSvg } from './readback.case.ts';
import { thenNowPicture } from './thennow.ts';

const cycle = expectedCycle(readContent(readSticking('RLRLKK').value!, { perBeat: 4 }).value!);
const take = (biasMs: number) => madeMeasurement([...'RLRLKK'].map((limb, k) => ({ limb: limb as 'R', biasMs: k === 5 ? biasMs : 0 })));
const nearer: ChangeStatement = { code: 'progress-nearer-in-time', params: { index: 5, limb: 'K', between: 'days', thenMs: -27, nowMs: -4 } };
const differs: ChangeStatement = { code: 'progress-setup-differs', params: { names: ['pedal'] } };

const drawn = (shape: 'square' | 'wide', said: readonly ChangeStatement[]) =>
  readSvg(
    thenNowPicture(
      { day: '2026-03-03', measurement: take(-27) },
      { day: '2026-04-07', measurement: take(-4) },
      { shape, of: 'days', id: 'p', cycle, sticking: 'RLRLKK', perBeat: 4, said },
    ),
  );

describe('then and now in one picture', () => {
  for (const [shape, widthPx] of [
    ['square', 1080],
    ['wide', 1920],
  ] as const) {
    it(`${shape} is ${widthPx} by 1080, and everything lies inside (says: the issue, pictures to show)`, () => {
      const picture = drawn(shape, [differs, nearer]);
      expect([numberOf(picture, 'width'), numberOf(picture, 'height')]).toEqual([widthPx, 1080]);
      const texts = ofClass(picture, 'picture-said');
      expect(texts.map(({ text }) => text).join(' ')).toMatch(/different set-up \(pedal\).*nearer in time: 27 ms early then, 4 ms early now/);
      for (const text of texts) {
        expect(numberOf(text, 'y')).toBeLessThan(1060);
        // DejaVu Sans, one of the widest faces, takes .47 of its size a letter (measured in Chromium on such a sentence).
        expect(numberOf(text, 'x') + 0.5 * numberOf(text, 'font-size') * text.text.length).toBeLessThan(widthPx);
      }
      const captions = all(picture).filter(({ text }) => /^(Then|Now), /.test(text));
      expect(captions.map(({ text }) => text)).toEqual(['Then, 3 Mar 2026', 'Now, 7 Apr 2026']);
    });
  }

  it('a phrase of 48 strokes keeps its title within the picture, and one of 200 is cut (arithmetic: DejaVu Sans Bold, the widest capital of a sticking is K, .775)', () => {
    for (const strokes of [24, 48, 200]) {
      const picture = readSvg(
        thenNowPicture(
          { day: '2026-03-03', measurement: take(-27) },
          { day: '2026-04-07', measurement: take(-4) },
          { shape: 'square', of: 'days', id: 'p', cycle, sticking: 'RLRLKK'.repeat(34).slice(0, strokes), perBeat: 4, said: [] },
        ),
      );
      const title = all(picture).find((one) => one.text.startsWith('RLRLKK') && one.name === 'text')!;
      expect(numberOf(title, 'x') + 0.775 * numberOf(title, 'font-size') * title.text.length).toBeLessThan(1080);
      expect(title.text.endsWith('…')).toBe(strokes === 200);
    }
  });

  it('draws both rings the same number of times, the fewer of the two (arithmetic)', () => {
    const notes = ofClass(drawn('square', []), 'picture-note').map(({ text }) => text);
    expect(notes).toHaveLength(2);
    expect(notes[0]).toBe(notes[1]);
  });

  it('leaves out whole sentences that have no room (arithmetic: 270 px hold six lines of 40.5 px)', () => {
    const said = Array.from({ length: 12 }, () => nearer);
    expect(ofClass(drawn('square', said), 'picture-said').length).toBeLessThanOrEqual(6);
  });
});
