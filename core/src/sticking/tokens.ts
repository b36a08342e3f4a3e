/** Written characters of a sticking, spaces left out, each with its place. */

/** One character (a whole code point), its offset, and whether a space stood before it. */
export interface Token {
  readonly character: string;
  readonly at: number;
  readonly afterSpace: boolean;
}

/** Signs of the language. Digits are known everywhere so that a stray one is called stray, not unknown. */
const KNOWN: ReadonlySet<string> = new Set('RLKHrl>+-/z(){}:0123456789');
const SPACE = /^\s$/u;

/** Every character of the text but its spaces. */
export function tokensOf(text: string): readonly Token[] {
  const tokens: Token[] = [];
  let at = 0;
  let afterSpace = true;
  for (const character of text) {
    const space = !KNOWN.has(character) && SPACE.test(character);
    if (!space) tokens.push({ character, at, afterSpace });
    afterSpace = space;
    at += character.length;
  }
  return tokens;
}

/** Whether a character belongs to the language. */
export const isKnown = (character: string): boolean => KNOWN.has(character);

/** What people type for something else; a space means "leave it out". */
const MEANT: Readonly<Record<string, string>> = {
  k: 'K',
  h: 'H',
  Z: 'z',
  b: 'K',
  B: 'K',
  f: 'K',
  F: 'K',
  '.': '-',
  _: '-',
  '–': '-',
  '—': '-',
  '−': '-',
  '^': '>',
  '!': '>',
  '\\': '/',
  '[': '(',
  ']': ')',
  '|': ' ',
  ',': ' ',
  ';': ' ',
};

/** What was probably meant by an unknown character; empty when there is no guess. */
export const suggestionFor = (character: string): string => MEANT[character] ?? '';
