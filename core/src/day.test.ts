/** Civil days against published calendars. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, dayNumber, dayOfNumber, daysBetween, isDay, startOfWeek, type Weekday, weekdayOf } from './day.ts';

describe('days that exist', () => {
  it.each([
    { text: '2024-02-29', exists: true, says: 'Gregorian calendar: 2024 is a leap year' },
    { text: '2023-02-29', exists: false, says: 'Gregorian calendar: 2023 is not' },
    { text: '1900-02-29', exists: false, says: 'Gregorian calendar: centuries are not' },
    { text: '2000-02-29', exists: true, says: 'Gregorian calendar: every fourth century is' },
    { text: '2025-04-31', exists: false, says: 'Gregorian calendar: thirty days has April' },
    { text: '2025-13-01', exists: false, says: 'Gregorian calendar: twelve months' },
    { text: '2025-1-01', exists: false, says: 'ISO 8601: two digits' },
  ])('$text exists: $exists ($says)', ({ text, exists }) => {
    expect(isDay(text)).toBe(exists);
  });

  it('throws when asked to count from a day that does not exist', () => {
    expect(() => dayNumber('2023-02-29')).toThrow('a day that exists');
  });
});

describe('day arithmetic', () => {
  it.each([
    { day: '1970-01-01', number: 0, weekday: 4, says: 'POSIX: the epoch, a Thursday' },
    { day: '2000-01-01', number: 10957, weekday: 6, says: 'POSIX: 946684800 s, a Saturday' },
    { day: '1997-08-05', number: 10078, weekday: 2, says: 'RFC 5545 3.8.5.3: a Tuesday' },
  ])('$day is day $number ($says)', ({ day, number, weekday }) => {
    expect([dayNumber(day), dayOfNumber(number), weekdayOf(day)]).toEqual([number, day, weekday]);
  });

  it('agrees with the platform calendar (ECMAScript Date in UTC, an independent implementation) from 1600 to 2400', () => {
    fc.assert(
      fc.property(fc.integer({ min: -135140, max: 157054 }), (number) => {
        const date = new Date(number * 86_400_000);
        expect(dayOfNumber(number)).toBe(date.toISOString().slice(0, 10));
        expect(weekdayOf(dayOfNumber(number)) % 7).toBe(date.getUTCDay());
      }),
      { numRuns: 500 },
    );
  });

  it('crosses the leap day and both clock changes without losing or doubling a day (FACTS.md check values: consecutive civil dates)', () => {
    for (const [start, count] of [
      ['2024-02-25', 10],
      ['2025-03-28', 5],
      ['2025-10-24', 5],
    ] as const) {
      const days = Array.from({ length: count }, (_, i) => addDays(start, i));
      expect(new Set(days).size).toBe(count);
      expect(days.slice(1).map((day, i) => daysBetween(days[i]!, day))).toEqual(Array(count - 1).fill(1));
    }
    expect(addDays('2024-02-28', 1)).toBe('2024-02-29');
  });

  it.each([
    { weekStart: 1, expected: ['1997-08-05', '1997-08-10', '1997-08-19', '1997-08-24'], says: 'RFC 5545, WKST=MO' },
    { weekStart: 7, expected: ['1997-08-05', '1997-08-17', '1997-08-19', '1997-08-31'], says: 'RFC 5545, WKST=SU' },
  ] as const)('every other week, Tuesday and Sunday, depends on where weeks begin ($says)', ({ weekStart, expected }) => {
    expect(everyOtherWeek('1997-08-05', [2, 7], weekStart).slice(0, 4)).toEqual(expected);
  });

  it('every other week, Monday, Wednesday and Friday from 2025-01-06 (says: FACTS.md 10, RFC 5545 with dateutil: INTERVAL=2)', () => {
    const days = ['06', '08', '10', '20', '22', '24'].map((day) => `2025-01-${day}`);
    expect(everyOtherWeek('2025-01-06', [1, 3, 5], 1).slice(0, 6)).toEqual(days);
  });

  it('the first four months of 2025 that have a 31st (says: FACTS.md 10, RFC 5545 with dateutil: BYMONTHDAY=31;COUNT=4)', () => {
    const months = Array.from({ length: 12 }, (_, k) => `2025-${String(k + 1).padStart(2, '0')}-31`).filter(isDay);
    expect(months.slice(0, 4)).toEqual(['2025-01-31', '2025-03-31', '2025-05-31', '2025-07-31']);
  });
});

/** The RFC's rule from the pieces under test: days of the given weekdays, in weeks an even number of weeks after the first. */
function everyOtherWeek(start: string, weekdays: readonly Weekday[], weekStart: Weekday): string[] {
  const first = startOfWeek(start, weekStart);
  return Array.from({ length: 60 }, (_, i) => addDays(start, i)).filter(
    (day) => weekdays.includes(weekdayOf(day)) && (daysBetween(first, startOfWeek(day, weekStart)) / 7) % 2 === 0,
  );
}
