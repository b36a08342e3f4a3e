/** One text for one value. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { canonicalJson, sameJson } from './canonical.ts';

it.each([
  [{ b: 1, a: [true, 'é'] }, '{"a":[true,"é"],"b":1}'],
  // RFC 8785, 3.2.3: names by code unit; numbers among them are names like any other.
  [{ '€': 1, '\r': 2, \ufb33: 3, '1': 4, '😀': 5, '\u0080': 6, ö: 7 }, '{"\\r":2,"1":4,"\u0080":6,"ö":7,"€":1,"😀":5,"\ufb33":3}'],
  [{ '10': 1, '9': { b: 1, a: undefined } }, '{"10":1,"9":{"b":1}}'],
  [JSON.parse('{"b":1,"__proto__":{"a":2}}'), '{"__proto__":{"a":2},"b":1}'],
  [[undefined, null, -0, 1e21], '[null,null,0,1e+21]'],
])('says: RFC 8785 | %j is %s', (value, text) => {
  expect(canonicalJson(value)).toBe(text);
});

it('says: RFC 8785 | law: it reads back the same, the order of fields is nothing, and sameJson tells exactly what the texts tell', () => {
  const turned = (value: unknown): unknown =>
    typeof value !== 'object' || value === null || Array.isArray(value) ? value : Object.fromEntries(Object.entries(value).reverse());
  fc.assert(
    fc.property(fc.jsonValue(), fc.jsonValue(), (a, b) => {
      expect(JSON.parse(canonicalJson(a))).toEqual(JSON.parse(JSON.stringify(a)));
      expect(canonicalJson(turned(a))).toBe(canonicalJson(a));
      expect(sameJson(a, turned(a))).toBe(true);
      expect(sameJson(a, b)).toBe(canonicalJson(a) === canonicalJson(b));
    }),
  );
});
