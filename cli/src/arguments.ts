/** From what was typed to a checked call, or to everything that is wrong with it. */
import { parseArgs } from 'node:util';
import type { SaidProblem } from '@evenhand/core/words';
import { nearest } from './nearest.ts';
import { refuse } from './problems.ts';
import { type Call, type OptionSpec, type Span, typed, type Verb } from './verb.ts';

/** Options that every verb takes. */
export const commonOptions: readonly OptionSpec[] = [
  { name: 'json', kind: 'switch', example: '', about: 'Print one JSON object, for other programs.' },
  { name: 'help', short: 'h', kind: 'switch', example: '', about: 'Show this.' },
];

/** A call, or the problems that make it wrong. */
export interface ReadCall {
  readonly call: Call;
  readonly problems: readonly SaidProblem[];
}

/**
 * @param verb whose options are looked for.
 * @param given everything typed after the verb.
 * @returns the call and every problem found, not only the first.
 */
export function readCall(verb: Verb, given: readonly string[]): ReadCall {
  const specs = [...verb.options, ...commonOptions];
  const { tokens } = parseArgs({ args: [...given], options: parserOptions(specs), strict: false, allowPositionals: true, tokens: true });
  const files: string[] = [];
  const call: Filling & Call = { files, text: {}, texts: {}, number: {}, span: {}, flag: {} };
  const problems: SaidProblem[] = [];
  const seen = new Set<string>();
  // What stands after an option that takes several belongs to it, as long as no other option comes between.
  let going: string[] | null = null;
  for (const token of tokens) {
    if (token.kind === 'positional') (going ?? files).push(token.value);
    if (token.kind !== 'option') continue;
    const spec = specs.find(({ name }) => name === token.name);
    if (!spec) problems.push(unknownOption(verb, token.rawName, specs));
    else problems.push(...takeOption(call, spec, token.value));
    going = spec?.kind === 'texts' ? (call.texts[spec.name] ?? null) : null;
    seen.add(token.name);
  }
  const missing = verb.options.filter((spec) => spec.required && !seen.has(spec.name));
  const strayed = problems.length > 0 ? [] : fileProblems(verb, files);
  return { call, problems: [...problems, ...strayed, ...missing.map(optionMissing)] };
}

const parserOptions = (specs: readonly OptionSpec[]) =>
  Object.fromEntries(
    specs.map(({ name, short, kind }) => [name, { type: kind === 'switch' ? 'boolean' : 'string', ...(short ? { short } : {}) } as const]),
  );

const exampleOf = (spec: OptionSpec) => `${typed(spec)} ${spec.example}`;
const optionMissing = (spec: OptionSpec) => refuse('call-option-missing', { option: typed(spec), example: exampleOf(spec) });

function unknownOption(verb: Verb, given: string, specs: readonly OptionSpec[]): SaidProblem {
  const name = nearest(
    given.replace(/^-+/, ''),
    specs.map((spec) => spec.name),
  );
  return refuse('call-unknown-option', { given, nearest: name ? `--${name}` : '', verb: verb.name });
}

function fileProblems(verb: Verb, files: readonly string[]): SaidProblem[] {
  const needed = verb.takesFile ? 1 : 0;
  const allowed = verb.takesFile === 'several' ? files.length : needed;
  if (files.length < needed) return [refuse('call-file-missing', { verb: verb.name })];
  return files.slice(allowed).map((given) => refuse('call-too-much', { given, verb: verb.name }));
}

interface Filling {
  text: Record<string, string>;
  texts: Record<string, string[]>;
  number: Record<string, number>;
  span: Record<string, Span>;
  flag: Record<string, boolean>;
}

/** Puts the value of one option where its kind belongs, or says why it cannot. */
function takeOption(call: Filling, spec: OptionSpec, value: string | undefined): SaidProblem[] {
  if (spec.kind === 'switch') {
    if (value !== undefined) return [refuse('call-switch-with-value', { option: typed(spec), given: value })];
    call.flag[spec.name] = true;
    return [];
  }
  if (value === undefined || value === '') return [refuse('call-option-without-value', { option: typed(spec), example: exampleOf(spec) })];
  const wanted = wants[spec.kind];
  if (wanted && !wanted.form.test(value.trim())) {
    return [refuse('call-option-not', { option: typed(spec), given: value, wanted: wanted.words, example: exampleOf(spec) })];
  }
  if (spec.kind === 'text') call.text[spec.name] = value;
  else if (spec.kind === 'texts') call.texts[spec.name] = [...(call.texts[spec.name] ?? []), value];
  else if (spec.kind === 'span') call.span[spec.name] = spanOf(value);
  else call.number[spec.name] = Number(value);
  return [];
}

/** The written form of each kind of value. Numbers are above zero: none of the options means anything at zero. */
const wants: Readonly<Record<OptionSpec['kind'], { readonly form: RegExp; readonly words: string } | null>> = {
  text: null,
  texts: null,
  switch: null,
  whole: { form: /^0*[1-9]\d{0,8}$/, words: 'a whole number from 1' },
  number: { form: /^(?=.*[1-9])\d{1,9}(\.\d+)?$/, words: 'a number above zero' },
  span: { form: /^0*[1-9]\d{0,8}(-0*[1-9]\d{0,8})?$/, words: 'one stroke or a first and a last, counted from 1' },
};

function spanOf(value: string): Span {
  const [first, last] = value.split('-').map((part) => Number(part) - 1);
  return { first: first!, last: last ?? first! };
}
