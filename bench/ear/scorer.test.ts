/** Holds the scorer to worked cases of an independent evaluator. */
import { describe, expect, it } from 'vitest';
import { filledMisses, fOfTimes, matchTimes, type Truth } from './scorer.ts';

describe('F of two lists of times', () => {
  it.each([
    { id: 'A', reference: [0, 0.5, 1, 1.5], estimate: [0.01, 0.52, 1.2, 1.49], window: 0.05, f: 0.75, precision: 0.75, recall: 0.75 },
    { id: 'B double trigger', reference: [1, 2], estimate: [0.98, 1.02, 2], window: 0.05, f: 0.8, precision: 2 / 3, recall: 1 },
    { id: 'C matching trap', reference: [1, 1.06], estimate: [0.96, 1.02], window: 0.05, f: 1, precision: 1, recall: 1 },
    { id: 'D window', reference: [0, 0.125, 0.25, 0.375], estimate: [0.03, 0.14, 0.24, 0.42], window: 0.05, f: 1, precision: 1, recall: 1 },
    { id: 'D′ window', reference: [0, 0.125, 0.25, 0.375], estimate: [0.03, 0.14, 0.24, 0.42], window: 0.025, f: 0.5, precision: 0.5, recall: 0.5 },
    { id: 'E missed', reference: [0.1, 0.2, 0.3, 0.4, 0.5], estimate: [0.1, 0.2, 0.3], window: 0.05, f: 0.75, precision: 1, recall: 0.6 },
    { id: 'F empty', reference: [1], estimate: [], window: 0.05, f: 0, precision: 0, recall: 0 },
  ])('$id gives $f (says mir_eval 0.8.2, FACTS.md 3)', ({ reference, estimate, window, f, precision, recall }) => {
    const score = fOfTimes(reference, estimate, window);
    expect(score.f).toBeCloseTo(f, 10);
    expect(score.precision).toBeCloseTo(precision, 10);
    expect(score.recall).toBeCloseTo(recall, 10);
  });

  it('takes the nearer of two that would both do (arithmetic)', () => {
    expect(matchTimes([1], [0.98, 1.01], 0.05)).toEqual([[0, 1]]);
  });
});

describe('filled misses', () => {
  const stroke = { index: 0, cycle: 0, surface: 'snare', level: 'tap', grace: false, extra: false, rms20Dbfs: -20, smrDb: 10 };
  const truth: Truth = {
    id: 'made',
    clicks: [],
    strokes: [
      { ...stroke, onset: 1, missed: false, gridTime: 1 },
      { ...stroke, onset: null, missed: true, gridTime: 1.1 },
      { ...stroke, onset: null, missed: true, gridTime: 1.2 },
    ],
  };
  it('are missed strokes with a detection near their grid time that belongs to no other (arithmetic)', () => {
    expect(filledMisses([{ truth, detections: [{ timeSec: 1 }, { timeSec: 1.09 }] }])).toEqual({ missed: 2, filled: 1 });
  });
});
