/** Every verb and every option stands in docs/formats/command-line.md, and no option that there is not. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { commonOptions } from '../src/arguments.ts';
import { verbs } from '../src/verbs/index.ts';

const page = readFileSync(new URL('../../docs/formats/command-line.md', import.meta.url), 'utf8');
const sections = page.split(/^## /m).slice(1);

/** What the page says of a verb, from its heading to the next. */
const sectionOf = (name: string, format: string): string => sections.find((section) => section.startsWith(`\`${format}\`: \`evenhand ${name}`)) ?? '';

/** Words that begin with dashes, as one types them. */
const optionsIn = (text: string): string[] => [...text.matchAll(/(?<![\w-])(--?[a-z][a-z-]*)/g)].map((match) => match[1]!);

/** Of all verbs, because one may speak of another. */
const known = [...commonOptions, ...verbs.flatMap(({ options }) => options)].flatMap(({ name, short }) => [
  `--${name}`,
  ...(short ? [`-${short}`] : []),
]);

test.each(verbs.map((verb) => ({ name: verb.name, verb })))(
  'evenhand $name is described with all its options, and none that is not there',
  ({ verb }) => {
    const told = optionsIn(sectionOf(verb.name, verb.format));
    const untold = verb.options.filter(({ name, short }) => !told.includes(`--${name}`) && !(short && told.includes(`-${short}`)));
    expect(sectionOf(verb.name, verb.format)).not.toBe('');
    expect({ untold: untold.map(({ name }) => name), unknown: told.filter((option) => !known.includes(option)) }).toEqual({
      untold: [],
      unknown: [],
    });
  },
);

test('every key that a verb prints on failure is named in its section', () => {
  const unnamed = verbs.flatMap(({ name, format, empty }) =>
    Object.keys(empty).flatMap((key) => (new RegExp(`\\b${key}\\b`).test(sectionOf(name, format)) ? [] : [`${name}: ${key}`])),
  );
  expect(unnamed).toEqual([]);
});
