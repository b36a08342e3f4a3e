/** What is doubtful about small letters: graces from the wrong hand, and soft strokes written small. */
import { GRACE_LIMIT } from './parameters.ts';
import type { StickingProblem } from './sticking.ts';
import { tokensOf } from './tokens.ts';
import type { Core, Tree } from './tree.ts';

/**
 * Small letters that were probably meant as soft strokes, capitals as accents.
 * Refused when the text has no capital, or ends in small letters, so that nothing else can be meant; doubtful when
 * two or more small letters follow a stroke without a space (`RllR`), or one between every two of the same capital (`RlRlR`),
 * and no accent is written anywhere. Text that begins with a grace, or sets a space before it (`R llR`), is taken at its word.
 */
export function meantAsSoft(text: string): StickingProblem | null {
  if (!text.includes('r') && !text.includes('l')) return null;
  const letters = tokensOf(text).filter(({ character }) => /[a-z]/i.test(character) && character !== 'z');
  const capital = letters.some(({ character }) => /[RLKH]/.test(character));
  const small = letters.find(({ character }) => /[rl]/.test(character));
  if (!small || !letters.every(({ character }) => /[rlkh]/i.test(character))) return null;
  const suggestion = capital ? accented(text) : text.toUpperCase();
  if (!capital || (!text.includes('>') && endsSmall(letters))) return problem('refused', { at: small.at, written: text, suggestion });
  if (text.includes('>') || /^\s*[rl]/.test(text)) return null;
  const run = /[RLKHz/)][rl]{2,}[RLKH(]/.exec(text);
  const alternating = /^\s*(?:R(?:lR){2,}|L(?:rL){2,})\s*$/.test(text);
  if (!run && !alternating) return null;
  const at = run ? run.index + 1 : small.at;
  return problem('doubtful', { at, written: /^[rl]+./.exec(text.slice(at))![0], suggestion });
}

/** `RllR` as `>RLL>R`. */
const accented = (text: string): string =>
  text.replace(/\([RLKH]\)|[RLKHrlkh]/g, (found) => (/^[RLKH]$/.test(found) ? `>${found}` : found.toUpperCase()));

/** The text ends in a small letter, and it is no lone slip: a stroke stands before it. */
const endsSmall = (letters: readonly { readonly character: string }[]): boolean => letters.length > 1 && /[rl]/.test(letters.at(-1)!.character);

function problem(severity: 'refused' | 'doubtful', found: { at: number; written: string; suggestion: string }): StickingProblem {
  const { at, written, suggestion } = found;
  return { code: 'sticking-reads-as-grace', severity, at, params: { written, suggestion } };
}

/** Graces by the stroke's own hand, and too many of them. */
export const problemsOfGraces = (tree: Tree): readonly StickingProblem[] =>
  tree.flatMap((part) => part.events.flatMap((event) => event.strokes.flatMap(graceProblems)));

function graceProblems({ limb, graces, at }: Core): readonly StickingProblem[] {
  const problems: StickingProblem[] = [];
  if (graces.at(-1) === limb) problems.push({ code: 'sticking-grace-own-hand', severity: 'doubtful', at, params: { limb } });
  if (graces.length > GRACE_LIMIT) {
    const params = { graceCount: graces.length, limit: GRACE_LIMIT };
    problems.push({ code: 'sticking-grace-count', severity: 'doubtful', at, params });
  }
  return problems;
}
