/** The door of this stage: what others may import. */
export { type CellPlotOptions, cellPicture } from './cellplot.ts';
export { type CyclesOptions, cyclesPicture } from './cycles.ts';
export type { ChangeMark } from './daysplot.ts';
export { type RingOptions, ringPicture, ringTimes } from './ring.ts';
export { type RingRow, ringRows } from './ringrows.ts';
export { type TempoPlotOptions, tempoPicture } from './tempoplot.ts';
export { type ShownShape, type ShownTake, type ThenNowPictureOptions, thenNowPicture } from './thennow.ts';
export { type WholePlotOptions, wholePicture } from './wholeplot.ts';
