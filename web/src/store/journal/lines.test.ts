import type { DiaryRecord } from '@evenhand/core/diary';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Entry, entriesIn, lineOf, recordsIn } from './lines.ts';

const note = (id: string, text: string): DiaryRecord => ({
  ...{ v: 1, id, kind: 'note', ownerId: 'o', atMs: 5, zone: 'UTC', day: '2026-01-05' },
  made: { wallMs: 5, counter: 0, deviceId: 'd' },
  body: { text, sessionId: null },
});
const identity = { deviceId: 'd', ownerId: 'o' };
/** Any code units, so that half of a letter is among them. */
const anyText = fc.array(fc.nat(0xffff), { maxLength: 8 }).map((units) => String.fromCharCode(...units));
const joined = (...entries: readonly Entry[]): Uint8Array => Uint8Array.from(entries.flatMap((entry) => [...lineOf(entry)]));

describe('the lines of a journal', () => {
  it('are text with a checksum that any ZIP tool knows (says: CRC-32 of "123456789" is cbf43926, APPNOTE 4.4.7; here of the line as printf writes it)', () => {
    // printf '{"records":[]}' | gzip -c | tail -c8 | head -c4 | od -An -tx4
    expect(new TextDecoder().decode(lineOf({ records: [] }))).toBe('8ed3d1da {"records":[]}\n');
  });

  it('hold any text, line breaks and lone surrogates too, and come back as they were (law)', () => {
    fc.assert(
      fc.property(fc.array(fc.array(anyText, { maxLength: 3 }), { maxLength: 4 }), (texts) => {
        const entries = texts.map((some, i) => ({ records: some.map((text, k) => note(`${i} ${k}`, text)) }));
        expect(entriesIn(joined({ journal: 1, identity }, ...entries))).toEqual([{ journal: 1, identity }, ...entries]);
      }),
    );
  });

  it('that were cut off anywhere give all lines before, and nothing of the last (law)', () => {
    const first = { records: [note('a', 'first'), note('b', 'first')] };
    const bytes = joined(first, { records: [note('c', 'second 🥁'), note('d', 'second')] });
    const whole = lineOf(first).length;
    for (let length = 0; length < bytes.length; length++)
      expect(recordsIn(entriesIn(bytes.subarray(0, length))).length, String(length)).toBe(length < whole ? 0 : 2);
  });

  it('that were changed in one bit are left out, the others stay (law)', () => {
    const bytes = joined({ records: [note('a', 'x')] }, { records: [note('b', 'y')] }, { records: [note('c', 'z')] });
    fc.assert(
      fc.property(fc.nat(bytes.length * 8 - 1), (bit) => {
        const changed = bytes.slice();
        changed[bit >> 3]! ^= 1 << (bit & 7);
        const ids = recordsIn(entriesIn(changed)).map(({ id }) => id);
        const text = ids.join('');
        // A line break that is gone joins two lines, so that two are left out.
        expect(['ab', 'ac', 'bc', 'a', 'c']).toContain(text);
      }),
    );
  });

  it('of a kind that a later version may write are passed over', () => {
    const later = { journal: 2, dreams: [] } as unknown as Entry;
    expect(entriesIn(joined(later, { records: [note('a', 'x')] }))).toEqual([{ records: [note('a', 'x')] }]);
  });
});
