/** The strokes that fail over the weeks: how close the second of a double comes, or how loud, with the range over the blocks of each week. */
import type { CellWeek } from '../progress/index.ts';
import { say } from '../words/index.ts';
import { type ChangeMark, daysPicture } from './daysplot.ts';

export interface CellPlotOptions {
  readonly widthPx: number;
  /** Unique on its page. */
  readonly id: string;
  /** space: between the two strokes, in hundredths of what is written. volume: of the second against the first, dB. */
  readonly of: 'space' | 'volume';
  readonly changes?: readonly ChangeMark[];
}

/** One of the two figures by the first day of each week, as SVG text; a dashed line where both strokes are alike. */
export function cellPicture(weeks: readonly CellWeek[], { widthPx, id, of, changes = [] }: CellPlotOptions): string {
  const times = of === 'space' ? 100 : 1;
  const told = weeks.map(({ from, space, stepDb }) => ({ day: from, figure: of === 'space' ? space : stepDb }));
  const marks = told.flatMap(({ day, figure }) =>
    figure ? [{ day, value: times * figure.value, low: times * figure.low, high: times * figure.high }] : [],
  );
  const unknownDays = told.filter(({ figure }) => figure === null).map(({ day }) => day);
  return daysPicture({
    ...{ widthPx, id, marks, unknownDays, changes },
    title: say({ code: 'picture-cell-title', params: { of } }),
    desc: say({ code: 'picture-cell-desc', params: { of, weekCount: marks.length, unknownCount: unknownDays.length } }),
    up: say({ code: 'picture-cell-up', params: { of } }),
    none: say({ code: 'picture-cell-none', params: {} }),
    wanted: { value: of === 'space' ? 100 : 0, label: say({ code: 'picture-cell-even', params: { of } }) },
  });
}
