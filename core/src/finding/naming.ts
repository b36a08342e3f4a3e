/** What is needed to name a cause in the words of its cycle. */
import type { ExpectedCycle } from '../exercise/index.ts';
import { eventsOf } from '../measurement/index.ts';
import type { Limb } from '../sticking/index.ts';
import { doublesOf } from './doubles.ts';
import type { Explanation } from './explanation.ts';
import type { CauseName } from './finding.ts';

/** The name of an explanation. */
export function nameOf({ key, indices }: Pick<Explanation, 'key' | 'indices'>, cycle: ExpectedCycle): CauseName {
  const limbs = new Set(indices.flatMap((index) => cycle.strokes.find((stroke) => stroke.index === index)?.limb ?? []));
  const limb: Limb | '' = limbs.size === 1 ? [...limbs][0]! : '';
  const [index] = indices.length === 1 ? indices : [];
  if (index === undefined) return { what: key, limb, index: -1, partner: -1, ofDouble: '', only: false };
  const { partner, ofDouble } = doubleWith(index, cycle);
  const ofLimb = cycle.strokes.filter((stroke) => stroke.limb === limb).length;
  return { what: key, limb, index, partner, ofDouble, only: ofLimb === (partner < 0 ? 1 : 2) };
}

/** The other stroke of the double that a stroke belongs to, the second of one before the first of another. */
function doubleWith(index: number, cycle: ExpectedCycle): Pick<CauseName, 'partner' | 'ofDouble'> {
  const { events, lengthBeats } = eventsOf(cycle);
  const doubles = doublesOf(events, lengthBeats);
  const asSecond = doubles.find(({ second }) => second === index);
  if (asSecond) return { partner: asSecond.first, ofDouble: 'second' };
  const asFirst = doubles.find(({ first }) => first === index);
  return asFirst ? { partner: asFirst.second, ofDouble: 'first' } : { partner: -1, ofDouble: '' };
}
