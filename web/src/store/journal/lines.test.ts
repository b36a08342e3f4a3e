import type { DiaryRecord } from '@evenhand/core/diary';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Entry, entriesIn, lineOf, recordsIn, SPACE, TAKEN_BACK } from './lines.ts';

const note = (id: string, text: string): DiaryRecord => ({
  ...{ v: 1, id, kind: 'note', ownerId: 'o', atMs: 5, zone: 'UTC', day: '2026-01-05' },
  made: { wallMs: 5, counter: 0, deviceId: 'd' },
  body: { text, sessionId: null },
});
/** After the eight digits of the checksum. */
const BLANK_AT = 8;
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

  it('that were cut off anywhere give all lines before, and nothing of the last, whatever room was made behind them (law)', () => {
    const first = { records: [note('a', 'first'), note('b', 'first')] };
    const bytes = joined(first, { records: [note('c', 'second 🥁'), note('d', 'second')] });
    const whole = lineOf(first).length;
    for (let length = 0; length < bytes.length; length++) {
      const withRoom = new Uint8Array(2 * bytes.length).fill(SPACE);
      withRoom.set(bytes.subarray(0, length));
      for (const left of [bytes.subarray(0, length), withRoom])
        expect(recordsIn(entriesIn(left)).length, String(length)).toBe(length < whole ? 0 : 2);
    }
  });

  it('that were taken back are left out, and those around them stay', () => {
    const lines = ['a', 'b', 'c'].map((id) => ({ records: [note(id, 'x')] }));
    const bytes = joined(...lines);
    bytes.set(TAKEN_BACK, lineOf(lines[0]!).length);
    expect(recordsIn(entriesIn(bytes)).map(({ id }) => id)).toEqual(['a', 'c']);
  });

  it('of which any one bit was changed lose that line, and the others stay (law, every bit)', () => {
    const lines = ['a', 'b', 'c'].map((id) => lineOf({ records: [note(id, 'x')] }));
    const bytes = Uint8Array.from(lines.flatMap((line) => [...line]));
    const each = lines[0]!.length;
    for (let bit = 0; bit < 8 * bytes.length; bit++) {
      const changed = bytes.slice();
      changed[bit >> 3]! ^= 1 << (bit & 7);
      const [line, at] = [Math.floor((bit >> 3) / each), (bit >> 3) % each];
      // A line break that is gone joins two lines, so that two are left out; the blank after the checksum holds nothing that could be lost.
      const lost = at === BLANK_AT ? [] : at === each - 1 ? [line, line + 1] : [line];
      const ids = recordsIn(entriesIn(changed)).map(({ id }) => id);
      expect(ids, `bit ${bit}`).toEqual(['a', 'b', 'c'].filter((_, i) => !lost.includes(i)));
    }
  });

  it('of a kind that a later version may write are passed over', () => {
    const later = { journal: 2, dreams: [] } as unknown as Entry;
    expect(entriesIn(joined(later, { records: [note('a', 'x')] }))).toEqual([{ records: [note('a', 'x')] }]);
  });
});
