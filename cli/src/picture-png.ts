/** A picture of core as PNG, drawn without a browser; what draws is loaded when first asked. */
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { type Attributes, type Drawn, drawnIn, numberIn, pictureSize, setText } from '@evenhand/adapters/drawn';
import { faces } from '@evenhand/adapters/paper';
import type { Canvas, CanvasKit, Paint, Typeface } from 'canvaskit-wasm';

/** The grey of what has no colour of its own, as the pictures to show say it. */
const INK = '#111';

/** Draws an SVG of a fixed size, px for px; on every machine the same, for the face of printed pages is brought along. */
export async function pngOf(svg: string): Promise<Uint8Array> {
  const kit = await loaded();
  const { widthPx, heightPx } = pictureSize(svg);
  const surface = kit.MakeSurface(widthPx, heightPx)!;
  const canvas = surface.getCanvas();
  canvas.clear(kit.WHITE);
  const { regular, semibold } = faces();
  const typefaces = {
    regular: kit.Typeface.MakeTypefaceFromData(bufferOf(regular))!,
    semibold: kit.Typeface.MakeTypefaceFromData(bufferOf(semibold))!,
  };
  for (const one of drawnIn(svg)) draw({ kit, canvas, typefaces }, one);
  const image = surface.makeImageSnapshot();
  const bytes = image.encodeToBytes()!;
  for (const each of [image, surface, typefaces.regular, typefaces.semibold]) each.delete();
  return bytes;
}

async function loaded(): Promise<CanvasKit> {
  const { default: start } = await import('canvaskit-wasm');
  const folder = dirname(createRequire(import.meta.url).resolve('canvaskit-wasm'));
  return start({ locateFile: (file) => join(folder, file) });
}

const bufferOf = (bytes: Uint8Array): ArrayBuffer => Uint8Array.from(bytes).buffer;

interface Board {
  readonly kit: CanvasKit;
  readonly canvas: Canvas;
  readonly typefaces: Readonly<Record<'regular' | 'semibold', Typeface>>;
}

function draw(board: Board, one: Drawn): void {
  const { kit, canvas } = board;
  const { x, y, scale } = one.move;
  canvas.save();
  canvas.translate(x, y);
  canvas.scale(scale, scale);
  const paint = paintFor(kit, one);
  const at = (name: string, otherwise = 0) => numberIn(one.of, name, otherwise);
  if (one.kind === 'line') canvas.drawLine(at('x1'), at('y1'), at('x2'), at('y2'), paint);
  if (one.kind === 'rect') canvas.drawRect(kit.XYWHRect(at('x'), at('y'), at('width'), at('height')), paint);
  if (one.kind === 'path') drawPath(board, one.of, paint);
  if (one.kind === 'text') drawText(board, one, paint);
  paint.delete();
  canvas.restore();
}

/** Lines are stroked, all else is filled unless it says that it is not. */
function paintFor(kit: CanvasKit, { kind, of }: Drawn): Paint {
  const strokes = kind === 'line' || of.fill === 'none';
  const colour = (strokes ? of.stroke : of.fill) ?? INK;
  const paint = new kit.Paint();
  paint.setAntiAlias(true);
  paint.setStyle(strokes ? kit.PaintStyle.Stroke : kit.PaintStyle.Fill);
  paint.setStrokeWidth(numberIn(of, 'stroke-width', 1));
  paint.setColor(kit.parseColorString(colour === 'currentColor' ? INK : colour));
  const dashes = (of['stroke-dasharray'] ?? '').split(' ').map(Number);
  if (dashes.length === 2) paint.setPathEffect(kit.PathEffect.MakeDash(dashes, 0));
  paint.setAlphaf(numberIn(of, strokes ? 'stroke-opacity' : 'fill-opacity', 1));
  return paint;
}

function drawPath({ kit, canvas }: Board, of: Attributes, paint: Paint): void {
  const path = of.d && kit.Path.MakeFromSVGString(of.d);
  if (!path) return;
  canvas.drawPath(path, paint);
  path.delete();
}

function drawText({ kit, canvas, typefaces }: Board, one: Drawn, paint: Paint): void {
  const { letters, sizePx, weight, leftShare, xPx, baselinePx } = setText(one);
  const font = new kit.Font(typefaces[weight], sizePx);
  font.setSubpixel(true);
  const widthPx = font.getGlyphWidths(font.getGlyphIDs(letters)).reduce((sum, width) => sum + width, 0);
  canvas.drawText(letters, xPx - leftShare * widthPx, baselinePx, paint, font);
  font.delete();
}
