/** What documents and comments point at is there. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';

const root = join(import.meta.dirname, '..');
const read = (file) => readFileSync(join(root, file), 'utf8');

const within = (folder) =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => !/(^|\/)(node_modules|dist)\//.test(name))
    .map((name) => `${folder}/${name}`);
const files = ['docs', 'bench', 'core', 'adapters', 'cli', 'web', 'scripts'].flatMap(within);
const pages = [...readdirSync(root), ...files].filter((name) => name.endsWith('.md'));

/** As sites that show Markdown make it: small letters, blanks as hyphens, other signs gone. */
const anchorOf = (heading) =>
  heading
    .replace(/\[([^\]]*)\]\([^)]*\)/g, '$1')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}_\- ]/gu, '')
    .replaceAll(' ', '-');
const anchorsOf = (page) => [...read(page).matchAll(/^#+ (.+)$/gm)].map((match) => anchorOf(match[1].trim()));

function isDead(page, link) {
  const [path, anchor] = link.split('#');
  const file = path === '' ? page : join(dirname(page), decodeURI(path));
  if (!existsSync(join(root, file))) return true;
  return anchor !== undefined && file.endsWith('.md') && !anchorsOf(file).includes(anchor);
}

test('every relative link of a document leads to a file, and to a heading in it', () => {
  const links = pages.flatMap((page) => [...read(page).matchAll(/\]\(([^)\s]+)\)/g)].map((match) => ({ page, link: match[1] })));
  const relative = links.filter(({ link }) => !/^[a-z]+:/.test(link));
  expect(relative.length).toBeGreaterThan(50);
  expect(relative.filter(({ page, link }) => isDead(page, link))).toEqual([]);
});

const decisions = readdirSync(join(root, 'docs/decisions')).filter((name) => /^\d{4}-/.test(name));
const numbers = decisions.map((name) => name.slice(0, 4));

test('decisions have a number each, and docs/decisions/README.md lists all of them by their titles', () => {
  expect(numbers).toEqual([...new Set(numbers)]);
  const listed = [...read('docs/decisions/README.md').matchAll(/^\| \[(\d{4})\]\(([^)]+)\) \| (.+) \|$/gm)].map(([, number, name, title]) => ({
    name,
    heading: `# ${number} ${title}`,
  }));
  expect(listed).toEqual(decisions.map((name) => ({ name, heading: read(`docs/decisions/${name}`).split('\n')[0] })));
});

test('decisions, documents and benches that code and documents name are there', () => {
  const sources = [...pages, ...files.filter((name) => /\.(ts|svelte|mjs|css)$/.test(name) && name !== 'scripts/docs.test.mjs')];
  const named = sources.flatMap((file) => {
    const text = read(file);
    const notes = [...text.matchAll(/\bdecisions? (\d{4})\b/g)].filter((match) => !numbers.includes(match[1])).map((match) => match[0]);
    const paths = [...text.matchAll(/(?<![\w./-])(?:docs|bench)\/[\w./-]+\.(?:md|ts|py)\b/g)]
      .map((match) => match[0])
      .filter((path) => !existsSync(join(root, path)) && !existsSync(join(root, dirname(file), path)));
    return [...notes, ...paths].map((name) => `${file}: ${name}`);
  });
  expect(named).toEqual([]);
});
