/** Sizes as people read them. */
import { expect, test } from 'vitest';
import { sizeName } from './index.ts';

test.each([
  { byteCount: 0, says: '0 bytes' },
  { byteCount: 1, says: '1 byte' },
  { byteCount: 999, says: '999 bytes' },
  { byteCount: 1000, says: '1 kB' },
  { byteCount: 23_600, says: '24 kB' },
  { byteCount: 999_499, says: '999 kB' },
  { byteCount: 999_500, says: '1.0 MB' },
  { byteCount: 3_400_000, says: '3.4 MB' },
  { byteCount: 9_949_999, says: '9.9 MB' },
  { byteCount: 9_950_000, says: '10 MB' },
  { byteCount: 120_000_000, says: '120 MB' },
])('$byteCount bytes are $says (SI: kilo is a thousand, mega a million)', ({ byteCount, says }) => {
  expect(sizeName(byteCount)).toBe(says);
});
