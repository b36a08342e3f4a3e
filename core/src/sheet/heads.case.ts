/** Note heads read back from an engraved sheet, for tests. */
import { PIT_GLYPHS } from './glyphs.generated.ts';

/** Heads as anyone could read them from the SVG: staff lines are the straight strokes of a staff, heads the outlines in stroke groups. */
export function headsIn(svg: string) {
  const staves = svg.split('<g class="staff">').slice(1);
  return staves.flatMap((part) => {
    const lines = [...part.matchAll(/d="M[\d.]+ ([\d.]+)L[\d.]+ \1" fill="none" stroke="currentColor" stroke-width="1"/g)].slice(0, 5);
    const middle = Number(lines[2]![1]);
    const space = Number(lines[3]![1]) - middle;
    const heads = part.matchAll(
      /<g class="stroke" data-cycle="(\d+)" data-index="(\d+)" data-drum="([^"]+)">\s*<path transform="translate\(([\d.]+) ([\d.]+)\)" d="([^"]+)"/g,
    );
    return [...heads].map(([, cycle, index, drum, x, y, d]) => ({
      cycle: Number(cycle),
      index: Number(index),
      drum: drum!,
      x: Number(x),
      /** Steps above the middle line; VexFlow centres its one-pixel lines half a pixel low, the only reason for rounding. */
      step: Math.round((middle - Number(y)) / (space / 2)),
      code: Object.entries(PIT_GLYPHS)
        .find(([, glyph]) => glyph.outline === d)![0]
        .codePointAt(0)!
        .toString(16),
    }));
  });
}
