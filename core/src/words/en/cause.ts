/** English names of causes, as the subject of a sentence. */
import type { CauseName } from '../../finding/index.ts';
import { limbName } from './counted.ts';
import { limbNoun } from './limbs.ts';

/** "the second kick", "the left everywhere else than …": lower case, with its article. */
export function causeNoun(name: CauseName): string {
  const [kind = '', ...rest] = name.what.split(':');
  const detail = rest.join(':');
  if (name.index >= 0 && ONE_STROKE.has(kind)) return strokeNoun(name);
  return NOUNS[kind]?.(detail) ?? name.what;
}

/** A cause beside others: what it says of other phrases, so that "this stroke" and "the second of kick doubles" differ even where they touch one stroke. */
export function causeApart(name: CauseName): string {
  const [kind = '', detail = ''] = name.what.split(':');
  if (kind === 'place' && name.index >= 0) return `stroke ${name.index + 1} (${name.limb}) of this phrase only`;
  return ONE_STROKE.has(kind) ? NOUNS[kind]!(detail) : causeNoun(name);
}

/** Causes that name a single stroke by its number when they touch no other. */
const ONE_STROKE = new Set(['place', 'second-of-double', 'first-of-double']);

function strokeNoun({ limb, index, partner, ofDouble, only }: CauseName): string {
  if (ofDouble !== '' && only) return `the ${ofDouble} ${limbNoun(limb) ?? 'stroke'}`;
  if (ofDouble !== '') {
    const [first, second] = ofDouble === 'first' ? [index, partner] : [partner, index];
    return `of strokes ${first + 1} and ${second + 1} (${limb} ${limb}), the ${ofDouble}`;
  }
  return only ? limbName(limb) : `stroke ${index + 1} (${limb})`;
}

const DOUBLES: Readonly<Record<string, string>> = {
  R: 'right-hand doubles',
  L: 'left-hand doubles',
  K: 'kick doubles',
  H: 'hi-hat foot doubles',
  hands: 'doubles of the hands',
  all: 'doubles',
};

const AFTER: Readonly<Record<string, string>> = {
  'foot>hand': 'the stroke after the foot',
  'hand>foot': 'the foot after a hand',
  'hand>hand': 'the stroke after a change of hands',
};

const NOUNS: Readonly<Record<string, (detail: string) => string>> = {
  'second-of-double': (who) => `the second stroke of the ${DOUBLES[who] ?? 'doubles'}`,
  'first-of-double': (who) => `the first stroke of the ${DOUBLES[who] ?? 'doubles'}`,
  limb: (limb) => limbName(limb),
  after: (change) => {
    const [from = '', to = ''] = change.split('>');
    return AFTER[change] ?? `${limbName(to)} after ${limbName(from)}`;
  },
  'after-move': () => 'the stroke after a change of drum',
  'into-accent': () => 'the stroke before an accent',
  'out-of-accent': () => 'the stroke after an accent',
  accent: () => 'the accented stroke',
  grace: () => 'the stroke with a grace note',
  together: () => 'strokes meant together',
  bounce: (of) => `a bounce after ${NOUNS[of.split(':')[0]!]?.(of.split(':')[1] ?? '') ?? 'a stroke'}`,
  'bar-place': barNoun,
  fill: () => 'the fill',
  tiring: (who) => (who === 'all' ? 'the whole take growing tired' : `${limbName(who)} growing tired`),
  rushing: () => 'the tempo as a whole',
};

const IN_BEAT: Readonly<Record<string, string>> = {
  0: 'the stroke on the beat',
  25: 'the e of the beat',
  50: 'the & of the beat',
  75: 'the a of the beat',
  33: 'the second triplet',
  67: 'the third triplet',
};

function barNoun(detail: string): string {
  const [kind = '', value = ''] = detail.split(':');
  if (kind === 'beat') return `beat ${value} of the bar`;
  if (kind === 'bar') return 'the first stroke of the bar';
  return IN_BEAT[Math.round(100 * Number(value))] ?? 'one place of the beat';
}
