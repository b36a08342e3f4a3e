/** The columns of EAR.md for one detector over a set of takes. */
import { median } from '../../core/src/quantiles.ts';
import { constantMs, filledMisses, type Judged, levelErrorsDb, madOf, scoreWindow, slotBiasMs } from './scorer.ts';

/** One row of the table; times in ms, levels in dB. */
export interface Row {
  readonly constant: number;
  readonly f25: number;
  readonly f10: number;
  readonly f5: number;
  readonly f5Heard: number;
  readonly slotBias: number;
  readonly slotBiasSure: number;
  readonly mad: number;
  readonly filled: number;
  readonly levelError: number | null;
}

/** Every column, after one constant of the detector is taken out. */
export const columnsOf = (takes: readonly Judged[]): Row => {
  const shiftMs = constantMs(takes);
  const wide = scoreWindow(takes, 25, { shiftMs });
  const levels = levelErrorsDb(takes);
  return {
    constant: shiftMs,
    f25: wide.f,
    f10: scoreWindow(takes, 10, { shiftMs }).f,
    f5: scoreWindow(takes, 5, { shiftMs }).f,
    f5Heard: scoreWindow(takes, 5, { shiftMs, minSmrDb: 0 }).f,
    slotBias: slotBiasMs(takes, { shiftMs }),
    slotBiasSure: slotBiasMs(takes, { shiftMs, minConfidence: 0.5, average: 'median' }),
    mad: madOf(wide.errorsMs),
    filled: filledMisses(takes, shiftMs).filled,
    levelError: levels.length > 0 ? median(levels.map(Math.abs)) : null,
  };
};
