/** Clean tempo over days: a mark with its interval for each day that has one. */
import type { CurvePoint } from '../progress/index.ts';
import { type Language, say } from '../words/index.ts';
import { type ChangeMark, daysPicture } from './daysplot.ts';

export interface TempoPlotOptions {
  readonly widthPx: number;
  /** Unique on its page. */
  readonly id: string;
  readonly perBeat: number;
  /** Tempo that is wanted. */
  readonly goalBpm?: number;
  /** Names of note values; default as in `say`. */
  readonly language?: Language;
  readonly changes?: readonly ChangeMark[];
}

/** The clean tempo of one exercise as SVG text. Without any known point it says so instead of drawing axes. */
export function tempoPicture(points: readonly CurvePoint[], { widthPx, id, perBeat, goalBpm, language, changes = [] }: TempoPlotOptions): string {
  const marks = points.flatMap(({ day, heard, estimate }) =>
    estimate.known ? [{ day, value: estimate.median, low: estimate.low90, high: estimate.high90, open: !heard }] : [],
  );
  const unknownDays = points.filter(({ estimate }) => !estimate.known).map(({ day }) => day);
  return daysPicture({
    ...{ widthPx, id, marks, unknownDays, changes },
    title: say({ code: 'picture-tempo-title', params: {} }),
    desc: say({ code: 'picture-tempo-desc', params: { pointCount: marks.length, unknownCount: unknownDays.length } }),
    up: say({ code: 'picture-tempo-up', params: { perBeat } }, language),
    none: say({ code: 'picture-tempo-none', params: {} }),
    ...(goalBpm === undefined ? {} : { wanted: { value: goalBpm, label: say({ code: 'picture-tempo-wanted', params: { goalBpm } }) } }),
  });
}
