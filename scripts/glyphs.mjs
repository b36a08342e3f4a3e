/** Makes core/src/sheet/glyphs.generated.ts: outlines of the few music glyphs the engraver draws, from the font that VexFlow carries. Run by hand: node scripts/glyphs.mjs */
import { writeFileSync } from 'node:fs';
import { create } from 'fontkit';
import { Bravura as font64 } from '../node_modules/vexflow/build/esm/src/fonts/bravura.js';

/** VexFlow draws its glyphs at 30 pt: 40 px to the em, four staff spaces of 10 px. */
const PX_PER_EM = 40;

const range = (first, last) => Array.from({ length: last - first + 1 }, (_, i) => first + i);

/** SMuFL code points. */
const wanted = [
  0xe069, // percussion clef
  ...range(0xe080, 0xe089), // time signature digits
  0xe0a2, // whole head
  0xe0a3, // half head
  0xe0a4, // black head
  0xe0a8, // half x head
  0xe0a9, // x head
  0xe0b3, // circled x head
  0xe0d9, // half diamond head
  0xe0db, // diamond head
  0xe0bc, // half triangle head
  0xe0be, // triangle head
  0xe0f5, // left parenthesis of a head
  0xe0f6, // right
  0xe220, // one tremolo stroke
  0xe22a, // buzz roll
  0xe240, // flags, eighth to 128th: up …
  0xe242,
  0xe244,
  0xe246,
  0xe248,
  0xe241, // … and down
  0xe243,
  0xe245,
  0xe247,
  0xe249,
  0xe4a0, // accent above
  0xe4a1, // accent below
  0xe500, // the bar before once more
  ...range(0xe4e3, 0xe4ea), // rests, whole to 128th
  0xe4f4, // whole rest with its line
  ...range(0xe880, 0xe88a), // tuplet digits and colon
];

const font = create(Buffer.from(font64.slice(font64.indexOf('base64,') + 7), 'base64'));
const scale = PX_PER_EM / font.unitsPerEm;
const px = (units) => Number((units * scale).toFixed(2));

/** Outline as SVG path data, y downwards from the baseline. */
function outline(path) {
  const letters = { moveTo: 'M', lineTo: 'L', quadraticCurveTo: 'Q', bezierCurveTo: 'C', closePath: 'Z' };
  return path.commands.map(({ command, args }) => letters[command] + args.map((value, i) => px(i % 2 === 0 ? value : -value)).join(' ')).join('');
}

function row(codePoint) {
  const glyph = font.glyphForCodePoint(codePoint);
  if (glyph.id === 0) throw new Error(`no glyph for ${codePoint.toString(16)}`);
  const { minX, minY, maxX, maxY } = glyph.bbox;
  const box = [minX, -maxY, maxX, -minY].map(px);
  const key = `'\\u${codePoint.toString(16)}'`;
  return `  ${key}: { width: ${px(glyph.advanceWidth)}, box: [${box.join(', ')}], outline: '${outline(glyph.path)}' },`;
}

writeFileSync(
  new URL('../core/src/sheet/glyphs.generated.ts', import.meta.url),
  `/**
 * Evenhand Pit glyphs: outlines of music glyphs in pixels at four staff spaces of 10 px, y downwards. Made by scripts/glyphs.mjs.
 *
 * Derived from a font that is Copyright 2019 Steinberg Media Technologies GmbH, under the SIL Open Font License 1.1, whose
 * Reserved Font Name this table does not use. This table stays under that licence: OFL.txt beside it.
 */
export interface Outline {
  /** How far the next glyph would stand, px. */
  readonly width: number;
  /** Left, top, right, bottom, px. */
  readonly box: readonly [number, number, number, number];
  /** SVG path data. */
  readonly outline: string;
}

export const PIT_GLYPHS: Readonly<Record<string, Outline>> = {
${wanted.map(row).join('\n')}
};
`,
);
