/** Likely physical reasons, told as what fits and never as what is. */
import type { Cause, CauseParams, FitStatement } from './finding.ts';

const NOTHING = {};

/**
 * What fits a finding, and the gear to look at before a limb is blamed.
 * @source common practice, no source: the list of JOB.md, "Even is not always right".
 */
export function fitsOf(params: CauseParams, cause: Cause): FitStatement[] {
  const fit = fitOf(params, cause);
  const limb = params.limb !== '' && cause !== 'rushing' && cause !== 'tiring' && cause !== 'fill' && cause !== 'bar-place';
  return [...(fit ? [fit] : []), ...(limb ? [{ code: 'ask-gear' as const, params: { foot: params.limb === 'K' || params.limb === 'H' } }] : [])];
}

function fitOf({ what, time, volume, missed, ofDouble, limb }: CauseParams, cause: Cause): FitStatement | null {
  if (time === 'late' && what.startsWith('bar-place:in-beat') && !what.endsWith(':0')) return { code: 'fits-swing', params: NOTHING };
  if (cause === 'bounce') return { code: 'fits-loose', params: NOTHING };
  const second = cause === 'second-of-double' || ofDouble === 'second';
  const first = cause === 'first-of-double' || ofDouble === 'first';
  if (second && missed > 0) return { code: 'fits-low', params: NOTHING };
  if (second && volume === 'softer' && time === 'early') return { code: limb === 'K' ? 'fits-beater' : 'fits-bounced', params: NOTHING };
  if (second && volume === 'softer' && time === 'late') return { code: 'fits-dead', params: NOTHING };
  if ((first || cause === 'after-move' || cause === 'after-limb') && time === 'late') return { code: 'fits-reach', params: NOTHING };
  return null;
}
