/** One way to write a value as JSON, so that what is equal is equal byte for byte. */

/**
 * JSON without blanks, the fields of every object sorted by code unit, numbers and text as ECMAScript writes them.
 * @param value anything JSON can hold; fields that are undefined are left out.
 * @example canonicalJson({ b: 1, a: [true, 'é'] }) // '{"a":[true,"é"],"b":1}'
 * @source [RFC8785]
 * @departs a lone half of a surrogate pair is written as `\uD83E` instead of refused, so that odd text survives.
 */
export const canonicalJson = (value: unknown): string => (isOdd(value) ? written(value) : JSON.stringify(inOrder(value))) ?? 'null';

/** Whether an object in it has a field that the language does not keep where it was put: whole numbers come first, and `__proto__` is none. */
function isOdd(value: unknown): boolean {
  if (typeof value !== 'object' || value === null) return false;
  if (Array.isArray(value)) return value.some(isOdd);
  const fields = value as Readonly<Record<string, unknown>>;
  return Object.keys(fields).some((name) => name === '__proto__' || (name >= '0' && name < ':') || isOdd(fields[name]));
}

/** A copy with the fields of every object in the order in which they are to be written: half the time of writing them one by one. */
function inOrder(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map(inOrder);
  const fields = value as Readonly<Record<string, unknown>>;
  const copy: Record<string, unknown> = {};
  // Without a comparison of one's own, texts are sorted by code unit.
  for (const name of Object.keys(fields).sort()) copy[name] = inOrder(fields[name]);
  return copy;
}

/** The same text of any value, field by field. */
function written(value: unknown): string | undefined {
  if (Array.isArray(value)) return `[${value.map((item) => written(item) ?? 'null').join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const fields = Object.keys(value)
    .sort()
    .map((name) => [name, written((value as Readonly<Record<string, unknown>>)[name])] as const);
  return `{${fields
    .filter(([, text]) => text !== undefined)
    .map(([name, text]) => `${JSON.stringify(name)}:${text}`)
    .join(',')}}`;
}

/** Whether two values that JSON can hold have the same canonical JSON. */
export function sameJson(a: unknown, b: unknown): boolean {
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return a === b || canonicalJson(a) === canonicalJson(b);
  if (Array.isArray(a) !== Array.isArray(b)) return false;
  const names = namesOf(a);
  return (
    names.length === namesOf(b).length &&
    names.every((name) => Object.hasOwn(b, name) && sameJson(a[name as keyof typeof a], b[name as keyof typeof b]))
  );
}

/** Fields that are undefined are not there. */
const namesOf = (value: object): readonly string[] =>
  Array.isArray(value) ? Object.keys(value) : Object.keys(value).filter((name) => value[name as keyof typeof value] !== undefined);
