/** Makes adapters/src/paper/serif.generated.ts: the text face of printed pages, byte for byte as its package carries it. Run by hand: node scripts/paperfont.mjs */
import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';

const files = new URL('../node_modules/@fontsource/source-serif-4/', import.meta.url);
const paper = new URL('../adapters/src/paper/', import.meta.url);
const bytesOf = (weight) => readFileSync(new URL(`files/source-serif-4-latin-${weight}-normal.woff`, files)).toString('base64');

writeFileSync(
  new URL('serif.generated.ts', paper),
  `/**
 * The text face of printed pages, regular and semibold, as base64 of WOFF files. Made by scripts/paperfont.mjs.
 *
 * Unchanged files of the package @fontsource/source-serif-4, Latin letters only; SIL Open Font License 1.1: OFL.txt beside it.
 */
export const SERIF_REGULAR = '${bytesOf(400)}';

export const SERIF_SEMIBOLD = '${bytesOf(600)}';
`,
);
copyFileSync(new URL('LICENSE', files), new URL('OFL.txt', paper));
