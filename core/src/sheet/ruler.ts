/** How large glyphs are, told to VexFlow from the same table that is drawn, so that Node and browser agree; and once, where VexFlow asks for every note anew. */
import { Element, Font, type FontInfo, Metrics, MetricsDefaults } from 'vexflow/core';
import { InvariantError } from '../errors.ts';
import { PIT_GLYPHS } from './glyphs.generated.ts';
import { TUPLET_SIZE } from './parameters.ts';

/** The em that glyph outlines are stored for, px. */
export const EM = 40;

/** The outline of a music glyph. */
export function outlineOf(code: string) {
  const found = PIT_GLYPHS[code];
  if (!found) throw new InvariantError(`no outline for ${code.codePointAt(0)?.toString(16)}; add it to scripts/glyphs.mjs`);
  return found;
}

/** Advance and extent of some glyphs; letters that are no music glyphs are never measured. */
export function measure(text: string, size: number) {
  const glyphs = Array.from(text, (code) => PIT_GLYPHS[code]).filter((found) => found !== undefined);
  const width = glyphs.reduce((sum, found) => sum + found.width, 0) * size;
  const top = Math.min(...glyphs.map(({ box }) => box[1]), glyphs.length ? Infinity : 0) * size;
  const bottom = Math.max(...glyphs.map(({ box }) => box[3]), glyphs.length ? -Infinity : 0) * size;
  return {
    width,
    actualBoundingBoxLeft: 0,
    actualBoundingBoxRight: width,
    actualBoundingBoxAscent: -top,
    actualBoundingBoxDescent: bottom,
    fontBoundingBoxAscent: -top,
    fontBoundingBoxDescent: bottom,
    emHeightAscent: -top,
    emHeightDescent: bottom,
    alphabeticBaseline: 0,
    hangingBaseline: 0,
    ideographicBaseline: 0,
  };
}

let prepared = false;

/** Sets what is global to VexFlow, before the first sheet: what it measures glyphs with, sizes, and that it remembers what it has looked up. */
export function prepareVexFlow(): void {
  if (prepared) return;
  prepared = true;
  MetricsDefaults.Tuplet.fontSize = TUPLET_SIZE;
  rememberMetrics();
  const measured = new Map<string, ReturnType<typeof measure>>();
  const ruler = {
    font: '',
    measureText: (text: string) => {
      const key = `${ruler.font} ${text}`;
      const known = measured.get(key) ?? measure(text, Font.convertSizeToPixelValue(sizeIn(ruler.font)) / EM);
      measured.set(key, known);
      return known;
    },
  };
  const canvas = { getContext: () => ruler };
  Element.setTextMeasurementCanvas(canvas as unknown as Parameters<typeof Element.setTextMeasurementCanvas>[0]);
}

/**
 * VexFlow walks its table of sizes along a text like `Stave.StaveConnector.fontSize` for each of the dozen elements of every note, and clones what it
 * finds with `structuredClone`: half the time of a sheet. The table does not change any more, so answers are remembered and copied plainly.
 */
function rememberMetrics(): void {
  const look = Metrics.get.bind(Metrics);
  const found = new Map<string, unknown>();
  Metrics.get = (key, otherwise) => {
    if (!found.has(key)) found.set(key, look(key));
    return found.get(key) ?? otherwise;
  };
  const [fontOf, styleOf] = [Metrics.getFontInfo.bind(Metrics), Metrics.getStyle.bind(Metrics)];
  const fonts = new Map<string, Required<FontInfo>>();
  const styles = new Map<string, ReturnType<typeof Metrics.getStyle>>();
  Metrics.getFontInfo = (key) => ({ ...kept(fonts, key, fontOf) });
  Metrics.getStyle = (key) => ({ ...kept(styles, key, styleOf) });
}

function kept<Value>(known: Map<string, Value>, key: string, find: (key: string) => Value): Value {
  const value = known.get(key) ?? find(key);
  known.set(key, value);
  return value;
}

/** The size in a CSS font text such as `30pt Name`. */
const sizeIn = (font: string): string => /[\d.]+(?:pt|px)/.exec(font)?.[0] ?? '30pt';
