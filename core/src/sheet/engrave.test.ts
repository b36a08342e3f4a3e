import fc from 'fast-check';
import { expect, test } from 'vitest';
import { type ExerciseContent, readContent } from '../exercise/index.ts';
import { anySticking } from '../sticking/any.case.ts';
import { readSticking } from '../sticking/index.ts';
import { drawSheet, engrave, engraveSvg } from './engrave.ts';
import { PIT_GLYPHS } from './glyphs.generated.ts';
import { headsIn } from './heads.case.ts';

interface Beside {
  readonly perBeat?: number;
  readonly surfaces?: string;
}
const contentOf = (text: string, { perBeat = 4, surfaces = '' }: Beside = {}): ExerciseContent =>
  readContent(readSticking(text).value!, { perBeat, surfaces }).value!;

/** Steps from the middle line B4 and SMuFL heads, typed in from FACTS.md 10 (Weinberg 1994; SMuFL). */
const WEINBERG: Readonly<Record<string, { readonly step: number; readonly code: string }>> = {
  kick: { step: -3, code: 'e0a4' },
  'floor-tom': { step: -1, code: 'e0a4' },
  snare: { step: 1, code: 'e0a4' },
  'mid-tom': { step: 2, code: 'e0a4' },
  'high-tom': { step: 3, code: 'e0a4' },
  ride: { step: 4, code: 'e0a9' },
  'hi-hat': { step: 5, code: 'e0a9' },
  crash: { step: 6, code: 'e0a9' },
  'hi-hat-foot': { step: -5, code: 'e0a9' },
  'cross-stick': { step: 1, code: 'e0a9' },
};

test('Weinberg 1994 (FACTS.md 10): the pitches of every drum read back from the SVG', () => {
  for (const [drum, expected] of Object.entries(WEINBERG)) {
    const heads = headsIn(engraveSvg(contentOf('RL', { surfaces: `${drum} ${drum}` })));
    expect(heads).toHaveLength(16);
    for (const head of heads) expect(head).toMatchObject({ drum, ...expected });
  }
});

test('an unknown drum stands on the middle line with a diamond, and the legend names it', () => {
  const svg = engraveSvg(contentOf('R', { surfaces: 'djembe' }));
  for (const head of headsIn(svg)) expect(head).toMatchObject({ step: 0, code: 'e0db' });
  expect(svg).toMatch(/class="legend"[\s\S]*>djembe</);
});

test('arithmetic: RLRLKK in sixteenths is three bars of sixteen heads, kicks every fifth and sixth', () => {
  const heads = headsIn(engraveSvg(contentOf('RLRLKK')));
  expect(heads).toHaveLength(48);
  expect(heads.map(({ step }) => step)).toEqual(Array.from({ length: 48 }, (_, i) => (i % 6 > 3 ? -3 : 1)));
});

test.each([
  { says: 'an accent', text: '>RLRL', code: 'e4a0', count: 4 },
  { says: 'a ghost has two parentheses', text: '(R)LRL', code: 'e0f5', count: 4 },
  { says: 'and the right one', text: '(R)LRL', code: 'e0f6', count: 4 },
  { says: 'a diddle has one slash', text: 'R/LRL', code: 'e220', count: 4 },
  { says: 'a buzz', text: 'RzLRL', code: 'e22a', count: 4 },
  { says: 'a flam is one more small head', text: 'lRLRL', code: 'e0a4', count: 20, legendHeads: 1 },
  { says: 'a drag two', text: 'llRLRL', code: 'e0a4', count: 24, legendHeads: 1 },
  { says: 'a drag has no more flags than it has', text: 'llRLRL', code: 'e240', count: 0 },
  { says: 'a flam has one flag', text: 'lRLRL', code: 'e240', count: 4 },
])('common practice: $says ($text, four times in a bar)', ({ text, code, count, legendHeads = 0 }) => {
  const { outline } = PIT_GLYPHS[String.fromCodePoint(Number.parseInt(code, 16))]!;
  expect(engraveSvg(contentOf(text)).split(`d="${outline}"`).length - 1).toBe(count + legendHeads);
});

test.each([
  { perBeat: 3, digit: 'e883' },
  { perBeat: 5, digit: 'e885' },
  { perBeat: 6, digit: 'e886' },
  { perBeat: 7, digit: 'e887' },
])('common practice: $perBeat to the beat has its number over each beat', ({ perBeat, digit }) => {
  const svg = engraveSvg(contentOf('R'.repeat(perBeat), { perBeat }));
  const { outline } = PIT_GLYPHS[String.fromCodePoint(Number.parseInt(digit, 16))]!;
  expect(svg.split(`d="${outline}"`).length - 1).toBe(4);
});

test('the same bytes twice, whatever was engraved between', () => {
  const content = contentOf('l>RLR{2:RLR}(L)Kz-R/+K', { perBeat: 4 });
  const before = engraveSvg(content, { widthPx: 500 });
  engraveSvg(contentOf('RLRLKK', { perBeat: 3 }));
  expect(engraveSvg(content, { widthPx: 500 })).toBe(before);
});

test('no ids, no colours but the page’s own, one picture with a name for screen readers', () => {
  const svg = engraveSvg(contentOf('>RLK'), { label: 'accent "right" & left' });
  expect(svg).not.toMatch(/ id=|#[0-9a-f]{3}|black|white/);
  expect(svg).toMatch(/^<svg [^>]*role="img" aria-label="accent &quot;right&quot; &amp; left"/);
  expect(svg).toContain('<title>accent &quot;right&quot; &amp; left</title>');
  expect(svg).not.toMatch(/NaN|undefined|Infinity/);
});

test('FACTS.md 8: five over sixteen need five bars; four are shown, without a repeat sign', () => {
  const sheet = engrave(contentOf('RLRRK'));
  expect(sheet).toMatchObject({ barsShown: 4, barsInAll: 5 });
  expect(sheet.svg).toContain('1–4 / 5');
  expect(engrave(contentOf('RLRRK'), { barLimit: 8 }).barsShown).toBe(5);
});

test.each([360, 700, 1100])('arithmetic: a sheet asked to fill %i px is no wider', (asked) => {
  for (const text of ['RLRLKK', '>RLRRLRLL', 'R/L-K']) expect(engrave(contentOf(text), { widthPx: asked }).widthPx).toBeLessThanOrEqual(asked);
});

test('issue 6, phone width: a bar of sixteenths stands on one line of 360 px', () => {
  const { strokes, widthPx } = engrave(contentOf('RLRLKK'), { widthPx: 360 });
  expect(widthPx).toBeLessThanOrEqual(360);
  for (const line of [0, 1, 2]) expect(strokes.filter((stroke) => stroke.line === line)).toHaveLength(16);
});

test('a diddle in a group that the bar line cuts stays on the sheet', () => {
  const sheet = engrave(contentOf('{3:RR/}', { perBeat: 1 }), { widthPx: 360 });
  for (const { x, width } of sheet.strokes) expect(x + width).toBeLessThanOrEqual(sheet.widthPx);
});

test('law: every main stroke has one frame per cycle, inside the sheet, in order along each line', () => {
  fc.assert(
    fc.property(anySticking, fc.integer({ min: 1, max: 8 }), fc.constantFrom(360, 800, 1100), (text, perBeat, widthPx) => {
      const content = contentOf(text, { perBeat });
      const sheet = engrave(content, { widthPx });
      const places = sheet.strokes.map(({ cycle, index }) => `${cycle}.${index}`);
      expect(new Set(places).size).toBe(places.length);
      if (sheet.barsShown === sheet.barsInAll) {
        const cycles = (sheet.barsInAll * 4 * perBeat) / readSticking(text).value!.slotCount;
        expect(places).toHaveLength(cycles * content.surfaces.length);
      }
      for (const { x, y, width, height } of sheet.strokes) {
        expect(Math.min(x, y, width, height)).toBeGreaterThan(0);
        expect(x + width).toBeLessThanOrEqual(sheet.widthPx);
        expect(y + height).toBeLessThanOrEqual(sheet.heightPx);
      }
    }),
    { numRuns: 30, seed: 8 },
  );
});

test('law: heads stand in their frames, at the place of their onset: further right means later', () => {
  fc.assert(
    fc.property(
      fc.string({ unit: fc.constantFrom('R', 'L', 'K', 'H', '-'), minLength: 1, maxLength: 12 }),
      fc.integer({ min: 1, max: 8 }),
      (text, perBeat) => {
        fc.pre(/[RLKH]/.test(text));
        const sheet = engrave(contentOf(text, { perBeat }));
        const heads = headsIn(sheet.svg);
        expect(heads).toHaveLength(sheet.strokes.length);
        heads.forEach(({ cycle, index, x }, i) => {
          const frame = sheet.strokes[i]!;
          expect([cycle, index]).toEqual([frame.cycle, frame.index]);
          expect(x).toBeGreaterThan(frame.x);
          expect(x).toBeLessThan(frame.x + frame.width);
          const before = sheet.strokes[i - 1];
          if (before?.line === frame.line) expect(frame.x).toBeGreaterThan(before.x);
        });
      },
    ),
    { numRuns: 30, seed: 8 },
  );
});

test.each([
  { says: 'a sixteenth', text: 'R/-', perBeat: 4, flag: '\ue242' },
  { says: 'an eighth', text: 'R/-', perBeat: 2, flag: '\ue240' },
  { says: 'an eighth that buzzes', text: '-Rz', perBeat: 2, flag: '\ue240' },
])('common practice, no source: a roll written through the stem of $says with flags stands clear of them', ({ text, perBeat, flag }) => {
  const { marks } = drawSheet(contentOf(text, { perBeat }));
  const edges = (code: string, edge: 1 | 3) => {
    const { outline, box } = PIT_GLYPHS[code]!;
    return marks.flatMap((mark) => (mark.kind === 'glyph' && mark.d === outline ? [mark.y + box[edge]] : []));
  };
  const slashTops = edges(text === '-Rz' ? '\ue22a' : '\ue220', 1);
  const flagEnds = edges(flag, 3);
  expect(flagEnds.length).toBeGreaterThan(0);
  expect(Math.max(...flagEnds)).toBeLessThan(Math.min(...slashTops));
});

/** Places of a glyph in a drawing, with the edges of its box. */
const boxesOf = ({ marks }: ReturnType<typeof drawSheet>, code: string) => {
  const { outline, box } = PIT_GLYPHS[code]!;
  return marks.flatMap((mark) => (mark.kind === 'glyph' && mark.d === outline ? [{ x: mark.x, top: mark.y + box[1], bottom: mark.y + box[3] }] : []));
};

test('common practice, no source: a sixteenth rest of the hands ends clear above the kick under it', () => {
  const drawn = drawSheet(contentOf('R+HLKR'), { legend: false });
  const rests = boxesOf(drawn, '\ue4e7');
  const heads = boxesOf(drawn, '\ue0a4');
  const under = rests.flatMap((rest) =>
    heads.filter((head) => Math.abs(head.x - rest.x) < 6 && head.top > rest.top).map((head) => head.top - rest.bottom),
  );
  expect(under.length).toBeGreaterThan(0);
  expect(Math.min(...under)).toBeGreaterThan(1);
});

test('common practice, no source: bars like the one before stand as the sign, on request, and never the first; MIDI and MusicXML still write them out', () => {
  const groove = contentOf(`${'R+K-R-R+>L-R-R+K-R-R+>L-R-'.repeat(3)}RLRLRLRLRLRLRLRL`);
  const signs = (barRepeats: boolean) => boxesOf(drawSheet(groove, { barRepeats, widthPx: 900 }), '\ue500');
  expect(signs(false)).toHaveLength(0);
  expect(signs(true)).toHaveLength(2);
  const [drawn, whole] = [true, false].map((barRepeats) => drawSheet(groove, { barRepeats, widthPx: 900 }));
  expect(drawn!.barsShown).toBe(4);
  expect(drawn!.strokes.filter(({ index }) => index < 12)).toHaveLength(12);
  expect(drawn!.lineCount).toBeLessThan(whole!.lineCount);
});

test('common practice, no source: a quarter rest of the feet begins clear below the floor tom over it', () => {
  const drawn = drawSheet(contentOf('RLRLR+KL--', { surfaces: 'R=floor-tom L=floor-tom' }), { legend: false });
  const rests = boxesOf(drawn, '\ue4e5');
  const heads = boxesOf(drawn, '\ue0a4');
  const over = rests.flatMap((rest) =>
    heads.filter((head) => Math.abs(head.x - rest.x) < 6 && head.top < rest.top).map((head) => rest.top - head.bottom),
  );
  expect(over.length).toBeGreaterThan(0);
  expect(Math.min(...over)).toBeGreaterThan(1);
});
