/** Practice days held against dates that GNU date and the zone tables of Debian give. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addDays, daysBetween, isDay, practiceDay } from './day.ts';

/** Says: GNU date 9.1 with tzdata 2025b, `TZ=… date -d @… '+%F %H:%M'`. The practice day follows from date and hour by the rule. */
const MOMENTS = [
  { atSec: 1711846740, zone: 'Europe/Berlin', wall: '2024-03-31 01:59', day: '2024-03-30', why: 'a minute before the clocks go forward' },
  { atSec: 1711846800, zone: 'Europe/Berlin', wall: '2024-03-31 03:00', day: '2024-03-30', why: 'a minute later, an hour skipped' },
  { atSec: 1711854000, zone: 'Europe/Berlin', wall: '2024-03-31 05:00', day: '2024-03-31', why: 'after the cut-over of that morning' },
  { atSec: 1711850399, zone: 'Europe/Berlin', wall: '2024-03-31 03:59', day: '2024-03-30', why: 'the last second before the cut-over' },
  { atSec: 1729990800, zone: 'Europe/Berlin', wall: '2024-10-27 02:00', day: '2024-10-26', why: 'the hour that comes twice' },
  { atSec: 1730611800, zone: 'America/New_York', wall: '2024-11-03 01:30', day: '2024-11-02', why: 'half past one for the first time' },
  {
    atSec: 1730620800,
    zone: 'America/New_York',
    wall: '2024-11-03 03:00',
    day: '2024-11-02',
    why: 'four hours after midnight, but the clock shows three',
  },
  { atSec: 1711846740, zone: 'America/New_York', wall: '2024-03-30 20:59', day: '2024-03-30', why: 'an evening' },
  { atSec: 1711846740, zone: 'Asia/Kolkata', wall: '2024-03-31 06:29', day: '2024-03-31', why: 'the same moment, half an hour off the whole' },
  { atSec: 1709167500, zone: 'Europe/Berlin', wall: '2024-02-29 01:45', day: '2024-02-28', why: 'the night before a leap day' },
  { atSec: 1709167500, zone: 'Pacific/Auckland', wall: '2024-02-29 13:45', day: '2024-02-29', why: 'a leap day' },
  { atSec: 1728142200, zone: 'Australia/Lord_Howe', wall: '2024-10-06 02:30', day: '2024-10-05', why: 'clocks forward by half an hour' },
  { atSec: 1325239199, zone: 'Pacific/Apia', wall: '2011-12-29 23:59', day: '2011-12-29', why: 'before a day that was left out' },
  { atSec: 1704016800, zone: 'Pacific/Kiritimati', wall: '2024-01-01 00:00', day: '2023-12-31', why: 'midnight of the new year' },
  { atSec: 1704016800, zone: 'Asia/Kathmandu', wall: '2023-12-31 15:45', day: '2023-12-31', why: 'the same moment, an afternoon' },
] as const;

describe('the practice day', () => {
  it.each(MOMENTS)('is $day at $wall in $zone: $why (says: GNU date 9.1, tzdata 2025b)', ({ atSec, zone, day }) => {
    expect(practiceDay(atSec * 1000, zone, 4)).toBe(day);
  });

  it.each(MOMENTS)(
    'is the civil date of $wall in $zone when the cut-over is midnight (says: GNU date 9.1, tzdata 2025b)',
    ({ atSec, zone, wall }) => {
      expect(practiceDay(atSec * 1000, zone, 0)).toBe(wall.slice(0, 10));
    },
  );

  it('is told that a zone or an hour does not exist', () => {
    expect(() => practiceDay(0, 'Europe/Nowhere', 4)).toThrow(/IANA/);
    expect(() => practiceDay(0, 'UTC', 4.5)).toThrow(/whole hour/);
  });

  it('holds for 24 hours after every cut-over in a zone without clock changes', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 40_000 }), fc.integer({ min: 0, max: 12 }), fc.integer({ min: 0, max: 86_399_999 }), (days, hour, ms) => {
        const start = days * 86_400_000 + hour * 3_600_000;
        expect(practiceDay(start + ms, 'UTC', hour)).toBe(practiceDay(start, 'UTC', hour));
      }),
    );
  });
});

describe('civil dates', () => {
  it.each([
    { from: '2024-02-28', days: 1, to: '2024-02-29', says: 'FACTS.md, check values: 2024-02-28/29' },
    { from: '2024-02-29', days: 1, to: '2024-03-01', says: 'FACTS.md, check values: 2024-02-28/29' },
    { from: '2024-02-25', days: 9, to: '2024-03-05', says: 'FACTS.md 10: DAILY;COUNT=10 from 2024-02-25 crosses Feb 29' },
    { from: '2025-01-06', days: 9, to: '2025-01-15', says: 'FACTS.md 10: 2025-01-06 WEEKLY gives Jan 15' },
    { from: '1997-08-05', days: 26, to: '1997-08-31', says: 'FACTS.md 10: RFC 5545 WKST example' },
    { from: '2024-03-30', days: 1, to: '2024-03-31', says: 'arithmetic: a day on which clocks change is a day' },
    { from: '2100-02-28', days: 1, to: '2100-03-01', says: 'arithmetic: 2100 is no leap year' },
    { from: '2024-01-01', days: -1, to: '2023-12-31', says: 'arithmetic' },
  ])('$from and $days days is $to (says: $says)', ({ from, days, to }) => {
    expect(addDays(from, days)).toBe(to);
    expect(daysBetween(from, to)).toBe(days);
  });

  it.each(['2023-02-29', '2024-13-01', '2024-1-1', '24-01-01', '2024-04-31', ''])('%j is no date (says: arithmetic)', (text) => {
    expect(isDay(text)).toBe(false);
  });
});
