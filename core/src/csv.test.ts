/** Tables of comma-separated values as RFC 4180 has them. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readCsv } from './csv.ts';

const fieldsOf = (text: string) => readCsv(text).rows.map(({ fields }) => fields);

test.each([
  {
    says: 'RFC 4180, 2.1: lines end in CR LF',
    text: 'aaa,bbb\r\nzzz,yyy\r\n',
    rows: [
      ['aaa', 'bbb'],
      ['zzz', 'yyy'],
    ],
  },
  {
    says: 'RFC 4180, 2.2: the last needs no end',
    text: 'aaa,bbb\r\nzzz,yyy',
    rows: [
      ['aaa', 'bbb'],
      ['zzz', 'yyy'],
    ],
  },
  { says: 'RFC 4180, 2.4: blanks belong to the field', text: 'aaa, b ', rows: [['aaa', ' b ']] },
  {
    says: 'RFC 4180, 2.5: quotes around a field',
    text: '"aaa","bbb"\r\nzzz,yyy',
    rows: [
      ['aaa', 'bbb'],
      ['zzz', 'yyy'],
    ],
  },
  {
    says: 'RFC 4180, 2.6: an end of line and a comma in a field',
    text: '"aaa","b\r\nbb","c,c"\r\nzzz,yyy,xxx',
    rows: [
      ['aaa', 'b\r\nbb', 'c,c'],
      ['zzz', 'yyy', 'xxx'],
    ],
  },
  { says: 'RFC 4180, 2.7: a quote in a field is doubled', text: '"aaa","b""bb"', rows: [['aaa', 'b"bb']] },
  { says: 'from memory, Unicode: a byte order mark is no content', text: '\uFEFFa,b', rows: [['a', 'b']] },
  {
    says: 'common practice, no source: LF or CR alone',
    text: 'a,b\nc,d\re,f',
    rows: [
      ['a', 'b'],
      ['c', 'd'],
      ['e', 'f'],
    ],
  },
  {
    says: 'common practice, no source: empty lines hold nothing',
    text: '\na,b\n\n  \nc,d\n\n',
    rows: [
      ['a', 'b'],
      ['c', 'd'],
    ],
  },
  {
    says: 'arithmetic: two commas part three fields',
    text: ',a,\n"",,b',
    rows: [
      ['', 'a', ''],
      ['', '', 'b'],
    ],
  },
  { says: 'arithmetic: no text, no rows', text: '', rows: [] },
])('$says', ({ text, rows }) => {
  expect(fieldsOf(text)).toEqual(rows);
});

describe('lines', () => {
  test('are those of the file, also after a field of several lines: arithmetic', () => {
    expect(readCsv('a,b\r\n"1\r\n2\n3",x\r\n\r\nc,d').rows.map(({ line }) => line)).toEqual([1, 2, 6]);
  });

  test.each([
    { text: 'a,b\n"c,d\ne,f', line: 2 },
    { text: '"', line: 1 },
    { text: 'a\n"b""', line: 2 },
  ])('a quotation mark that never ends is told with its line: $text', ({ text, line }) => {
    expect(readCsv(text).openQuoteLine).toBe(line);
  });
});

test('any table written by the rules is read back: law', () => {
  const quoted = (field: string) => `"${field.replaceAll('"', '""')}"`;
  const field = fc.string({ unit: fc.constantFrom('a', '"', ',', '\r', '\n', 'é', ' ') });
  const rows = fc.array(fc.tuple(fc.constant('x'), field, field), { minLength: 1, maxLength: 5 });
  fc.assert(
    fc.property(rows, (given) => {
      expect(fieldsOf(given.map((row) => row.map(quoted).join(',')).join('\r\n'))).toEqual(given);
    }),
    { seed: 3 },
  );
});
