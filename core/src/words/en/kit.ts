/** English for what a player reaches so far: never that something is impossible. */
import type { ReachStatement } from '../../kit/index.ts';
import type { Sentences } from '../sentences.ts';
import { capital, drumName, limbName, strokesOf } from './counted.ts';

const rate = (perSec: number): string => perSec.toFixed(perSec < 10 ? 1 : 0);

export const kitSentences: Sentences<ReachStatement> = {
  'reach-burst': ({ limb, burst, perSec, soFarPerSec, played }) =>
    `Faster than ${played ? 'yours so far' : 'is usual at first'}: ${burst === 8 ? `${limbName(limb)} on and on` : `${strokesOf(burst, limb)} in a row`}, ${rate(perSec)} a second; ${played ? 'so far' : 'usual is'} ${rate(soFarPerSec)}.`,
  'reach-travel': ({ limb, from, to, gapSec }) =>
    `A longer way than is assumed of you so far: ${limbName(limb)} from ${drumName(from)} to ${drumName(to)} in ${gapSec.toFixed(2)} s.`,
  'reach-crossed': ({ right, left }) =>
    `Hands crossed further than is assumed of you so far: right on the ${drumName(right)}, left on the ${drumName(left)}.`,
  'reach-so-far': ({ limb, perSec, played }) => {
    const [two, three, four, on] = perSec.map(rate);
    return `${capital(limbName(limb))}: two in a row at ${two} a second, three at ${three}, four at ${four}, on and on at ${on}; ${played ? 'yours so far' : 'usual figures, until takes of yours say more'}.`;
  },
};
