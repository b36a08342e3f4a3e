/** English for what can be wrong in a written sticking. */
import type { StickingProblem } from '../../sticking/index.ts';
import type { Sentences } from '../sentences.ts';

const LETTERS = 'R or L for the hands, K or H for the feet, - for a rest';

export const stickingSentences: Sentences<StickingProblem> = {
  'sticking-empty': () => `There is no sticking yet. Type ${LETTERS}, as in RLRLKK.`,
  'sticking-no-stroke': () => 'There are only rests here. Type at least one stroke: R, L, K or H.',
  'sticking-unknown-character': ({ character, suggestion }) => unknown(character, suggestion),
  'sticking-stray': ({ character }) => stray(character),
  'sticking-unfinished': ({ found, missing }) =>
    missing === 'stroke'
      ? `A stroke is missing after ${found}. Type R, L, K or H there, or take ${found} out.`
      : missing === ':'
        ? 'After the count of a group comes a colon: {2:RLR} is three strokes in the time of two.'
        : `This ${found} is never closed. Type ${missing} where it ends.`,
  'sticking-group-count': ({ found }) =>
    `A group starts with the number of slots it fills${found ? `, not with ${found}` : ''}: {2:RLR} is three strokes in the time of two.`,
  'sticking-group-empty': () => 'This group is empty. Type its strokes after the colon, as in {2:RLR}, or take it out.',
  'sticking-same-limb-together': ({ limb }) =>
    `${limb} cannot play twice at once. Use another limb after the +, or ${limb}/ for two strokes in the time of one.`,
  'sticking-grace-own-hand': ({ limb }) =>
    `The grace before this ${limb} is played by the same hand. A flam comes from the other hand: ${limb === 'R' ? 'lR' : 'rL'}.`,
  'sticking-grace-count': ({ graceCount, limit }) => `${graceCount} graces before one stroke are read, but more than ${limit} are rarely meant.`,
  'sticking-too-long': ({ slotCount, limit }) => `This sticking is ${slotCount} slots long; the longest is ${limit}. Type one cycle of it only.`,
  'sticking-reads-as-grace': ({ written, suggestion }) => `Small letters are grace strokes, so ${written} reads as such. Did you mean ${suggestion}?`,
};

function unknown(character: string, suggestion: string): string {
  if (suggestion === ' ') return `Leave ${character} out: a space may stand there, and spaces only group.`;
  if (suggestion) return `${character} is not part of a sticking. Did you mean ${suggestion}?`;
  return `${character} is not part of a sticking. Type ${LETTERS}.`;
}

/** What to do about a sign of the language where it means nothing. */
function stray(character: string): string {
  if (character === '}' || character === ')') return `Nothing is open for this ${character} to close. Take it out.`;
  if (character === '{') return 'A group cannot stand inside another. Close the first with } before this one.';
  if (character === '/' || character === 'z') return `${character} belongs directly after a stroke, as in R${character}.`;
  if (character === '+') return '+ joins two strokes that are played together, as in R+K. One of them is missing.';
  if (character === '>') return 'One > is enough for an accent.';
  return `${character} means nothing here. A number stands only at the start of a group, as in {2:RLR}.`;
}
