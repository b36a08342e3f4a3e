/** One way to write a value as JSON, so that what is equal is equal byte for byte. */

/**
 * JSON without blanks, the fields of every object sorted by code unit, numbers and text as ECMAScript writes them.
 * @param value anything JSON can hold; fields that are undefined are left out.
 * @example canonicalJson({ b: 1, a: [true, 'é'] }) // '{"a":[true,"é"],"b":1}'
 * @source [RFC8785]
 * @departs a lone half of a surrogate pair is written as `\uD83E` instead of refused, so that odd text survives.
 */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'null';
  const fields = Object.entries(value).filter(([, field]) => field !== undefined);
  return `{${fields
    .sort(byName)
    .map(([name, field]) => `${JSON.stringify(name)}:${canonicalJson(field)}`)
    .join(',')}}`;
}

const byName = ([a]: readonly [string, unknown], [b]: readonly [string, unknown]): number => Number(a > b) - Number(a < b);
