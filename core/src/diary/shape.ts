/** What a saved value must look like, as data: checked once at the door, trusted inside. */

/** A name of a simple type (`?` after it allows null), a list of one shape, an object by field, an object that may be null, or a field that may be missing. Fields not named are let through. */
export type Shape =
  | 'text'
  | 'text?'
  | 'number'
  | 'number?'
  | 'flag'
  | 'any'
  | 'plain'
  | { readonly list: Shape }
  | { readonly fields: Fields }
  | { readonly maybe: Shape }
  | { readonly perhaps: Shape };

export type Fields = Readonly<Record<string, Shape>>;

/** Whether a value read from outside has a shape. */
export function fits(value: unknown, shape: Shape): boolean {
  if (typeof shape === 'string') return SIMPLE[shape](value);
  if ('maybe' in shape) return value === null || fits(value, shape.maybe);
  if ('perhaps' in shape) return value === undefined || fits(value, shape.perhaps);
  if ('list' in shape) return Array.isArray(value) && value.every((item) => fits(item, shape.list));
  return isObject(value) && Object.entries(shape.fields).every(([name, field]) => fits(value[name], field));
}

/** Whether a value is an object with fields, neither null nor a list. */
export const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const isText = (value: unknown): boolean => typeof value === 'string';
const isNumber = (value: unknown): boolean => typeof value === 'number' && Number.isFinite(value);

const SIMPLE: Readonly<Record<Extract<Shape, string>, (value: unknown) => boolean>> = {
  text: isText,
  'text?': (value) => value === null || isText(value),
  number: isNumber,
  'number?': (value) => value === null || isNumber(value),
  flag: (value) => typeof value === 'boolean',
  any: (value) => value !== undefined,
  plain: (value) => value === null || ['string', 'number', 'boolean'].includes(typeof value),
};
