/** Base64 against its standard and against Node's own. */
import { seededRandom } from '@evenhand/core/random';
import { expect, test } from 'vitest';
import { base64Of, bytesOfBase64 } from './base64.ts';
import { utf8Of } from './utf8.ts';

test.each([
  ['', ''],
  ['f', 'Zg=='],
  ['fo', 'Zm8='],
  ['foo', 'Zm9v'],
  ['foob', 'Zm9vYg=='],
  ['fooba', 'Zm9vYmE='],
  ['foobar', 'Zm9vYmFy'],
])('“%s” is %s (says: RFC 4648, section 10)', (text, base64) => {
  expect(base64Of(utf8Of(text))).toBe(base64);
  expect(bytesOfBase64(base64)).toEqual(utf8Of(text));
});

test('any bytes come out as Node writes them (says: Node, Buffer)', () => {
  const random = seededRandom(1);
  const bytes = Uint8Array.from({ length: 10_001 }, () => Math.floor(256 * random()));
  expect(base64Of(bytes)).toBe(Buffer.from(bytes).toString('base64'));
  expect(bytesOfBase64(base64Of(bytes))).toEqual(bytes);
});
