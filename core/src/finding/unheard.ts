/** Strokes that were heard too seldom to be judged: of them nothing is claimed, and it is said what to do. */
import type { MeasuredStroke } from '../measurement/index.ts';
import type { Finding, NotHeardParams } from './finding.ts';

/**
 * Strokes of the cycle that went unheard more often than they were heard, though they may have been played: those that were heard are the loud
 * ones among them, so even they tell nothing of the rest.
 * @param strokes of a measurement.
 * @returns ascending by index; empty when all can be judged.
 */
export function unheardOf(strokes: readonly MeasuredStroke[]): readonly Unheard[] {
  const indices = [...new Set(strokes.map(({ index }) => index))].sort((a, b) => a - b);
  return indices.flatMap((index) => {
    const here = strokes.filter((stroke) => stroke.index === index);
    const count = (status: MeasuredStroke['status']) => here.filter((stroke) => stroke.status === status).length;
    const unheard = { index, limb: here[0]!.limb, heard: count('played'), unheard: count('notAudible') };
    return unheard.unheard > unheard.heard ? [unheard] : [];
  });
}

interface Unheard {
  readonly index: number;
  readonly limb: string;
  readonly heard: number;
  readonly unheard: number;
}

/** The statement about strokes that could not be judged. @param rest what can be said of all others. */
export function notHeard(unheard: readonly Unheard[], rest: NotHeardParams['rest']): Finding {
  const sum = (of: 'heard' | 'unheard') => unheard.reduce((total, one) => total + one[of], 0);
  const params = {
    indices: unheard.map(({ index }) => index),
    limbs: unheard.map(({ limb }) => limb),
    heardCount: sum('heard'),
    strokeCount: sum('heard') + sum('unheard'),
    rest,
  };
  return { code: 'strokes-not-heard', params, cause: 'none', indices: [], weight: 0 };
}
