/** Help, written for a drummer and made from the same tables that read the call. */
import { commonOptions } from './arguments.ts';
import { type OptionSpec, typed, type Verb } from './verb.ts';

/** Help for everything. */
export const helpForAll = (verbs: readonly Verb[]): string =>
  [
    'Evenhand hears which strokes of a phrase fail, and how, and finds exercises for them.',
    '',
    ...verbs.map((verb) => `  evenhand ${verb.name.padEnd(13)} ${verb.summary}`),
    '',
    'A sticking is typed with R and L for the hands, K for the bass drum, H for the other foot, - for a rest:',
    '"RLRLKK". Strokes are counted from 1. More about one of them: evenhand listen --help',
    'Every one of them takes --json. evenhand --version says which version this is.',
    'It ends with 0 when done, 1 when nothing could be given, 2 when the call was wrong.',
  ].join('\n');

/** Help for one verb. */
export function helpForVerb(verb: Verb): string {
  const options = [...verb.options, ...commonOptions];
  const width = Math.max(...options.map((spec) => optionShown(spec).length));
  return [
    `evenhand ${verb.name}${filesShown(verb)}${verb.options.map(usageOf).join('')}`,
    '',
    verb.about,
    '',
    ...options.map((spec) => `  ${optionShown(spec).padEnd(width)}  ${spec.about}`),
    '',
    'For example:',
    `  ${verb.example}`,
  ].join('\n');
}

const filesShown = ({ takesFile }: Verb) => (takesFile === 'several' ? ' FILE …' : takesFile ? ' FILE' : '');
const optionShown = (spec: OptionSpec) => (spec.placeholder ? `${typed(spec)} ${spec.placeholder}` : typed(spec));
const usageOf = (spec: OptionSpec) => (spec.required ? ` ${optionShown(spec)}` : ` [${optionShown(spec)}]`);
