/** Names of the kinds of exercise. */

const NAMES: Readonly<Record<string, string>> = {
  rudiment: 'A rudiment',
  pad: 'Pad work',
  groove: 'A groove',
  fill: 'A fill',
  kit: 'Around the kit',
  dynamics: 'Volume work',
  inversion: 'The phrase begun on another stroke',
  use: 'The phrase in music',
};

/** A kind of exercise, at the beginning of a sentence. */
export const familyName = (family: string): string => NAMES[family] ?? family;

/** A kind of exercise, inside a sentence. */
export const familyInside = (family: string): string => familyName(family).replace(/^./, (first) => first.toLowerCase());
