/** Where the name of a wanted value stands in a plot over days. */
import { expect, test } from 'vitest';
import { type DaysPlot, daysPicture } from './daysplot.ts';

/** Ten days in a row, each with the same interval. */
const plot = (low: number, high: number, first?: { readonly low: number; readonly high: number }): DaysPlot => ({
  ...{ widthPx: 700, id: 'p', title: 't', desc: 'd', up: 'u', none: 'n', unknownDays: [], changes: [] },
  marks: Array.from({ length: 10 }, (_, k) => ({
    day: `2026-03-${String(10 + k)}`,
    value: (low + high) / 2,
    ...(k < 3 && first ? first : { low, high }),
  })),
  wanted: { value: 100, label: 'as written' },
});

/** Left edge and baseline of the name, and where its line runs from and to. */
function nameIn(svg: string) {
  const [, x1, y1, x2] = /class="picture-wanted"><line x1="([\d.]+)" y1="([\d.]+)" x2="([\d.]+)"/.exec(svg)!.map(Number);
  const [, x, y] = /<text x="([\d.]+)" y="([\d.]+)"[^>]*>as written</.exec(svg)!.map(Number);
  return { x: x!, y: y!, left: x1!, right: x2!, line: y1! };
}

test('at the foot of the plot it stands above its line, not on the axis (says: an outsider who read it)', () => {
  const { y, line } = nameIn(daysPicture(plot(104, 108)));
  expect(y).toBeLessThan(line);
});

test('where marks stand in its way at the left it goes to the right (arithmetic: three of ten days reach through 100)', () => {
  const { x, left, right } = nameIn(daysPicture(plot(120, 130, { low: 80, high: 125 })));
  expect(x - left).toBeGreaterThan((right - left) / 2);
  const alone = nameIn(daysPicture(plot(120, 130)));
  expect(alone.x - alone.left).toBeLessThan(10);
});
