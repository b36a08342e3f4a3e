/** Says what an object holds by key and kind, so that a contract can be written down and compared at once. */

/** The keys of an object with the kinds of their values, deep; of a list, the shape of its first element. */
export function shapeOf(value: unknown): unknown {
  if (value === null) return 'null';
  if (Array.isArray(value)) return value.length > 0 ? [shapeOf(value[0])] : [];
  if (typeof value !== 'object') return typeof value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, shapeOf(inner)]));
}
