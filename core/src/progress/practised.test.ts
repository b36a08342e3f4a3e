/** Days and minutes, and days away. */
import { describe, expect, it } from 'vitest';
import { say } from '../words/index.ts';
import { awayIn, daysAway, everyAway, practised, practisedByWeek, welcomeBack } from './practised.ts';

const session = (day: string, minutes = 12) => ({ day, minutes });

describe('days and minutes (arithmetic and the Gregorian calendar)', () => {
  const sessions = [session('2025-03-28'), session('2025-03-31', 8), session('2025-03-31', 4), session('2025-04-01')];

  it('are plain sums, a day counted once', () => {
    expect(practised(sessions, { from: '2025-03-31', to: '2025-04-06' })).toEqual({ sessions: 3, days: 2, minutes: 24 });
  });

  it('by week, weeks without practice among them, across a clock change and a month', () => {
    expect(practisedByWeek(sessions, { today: '2025-04-15' })).toEqual([
      { from: '2025-03-24', sessions: 1, days: 1, minutes: 12 },
      { from: '2025-03-31', sessions: 3, days: 2, minutes: 24 },
      { from: '2025-04-07', sessions: 0, days: 0, minutes: 0 },
      { from: '2025-04-14', sessions: 0, days: 0, minutes: 0 },
    ]);
    expect(practisedByWeek(sessions, { today: '2025-04-01', weekStart: 7 }).map(({ from }) => from)).toEqual(['2025-03-23', '2025-03-30']);
    expect(practisedByWeek([], { today: '2025-04-01' })).toEqual([]);
  });

  it.each([
    { today: '2025-04-01', days: 0 },
    { today: '2025-04-04', days: 3 },
    { today: '2025-04-05', days: 4 },
    { today: '2025-03-30', days: 2 },
  ])('days away on $today: $days', ({ today, days }) => {
    expect(daysAway(sessions, today)).toBe(days);
  });

  it('a kind word only past the days allowed, and none before the first session', () => {
    expect(welcomeBack(sessions, '2025-04-04')).toBeNull();
    expect(say(welcomeBack(sessions, '2025-04-05')!)).toBe('Good to see you again after 4 days.');
    expect(welcomeBack([], '2025-04-05')).toBeNull();
    expect(welcomeBack(sessions, '2025-04-05', 7)).toBeNull();
  });

  it('days away are told whole on every page: from the first session to yesterday, and in a span where more than are allowed lie in it', () => {
    const some = [session('2026-10-15'), session('2026-10-25'), session('2026-10-27'), session('2026-11-02')];
    const october = { from: '2026-10-16', to: '2026-10-24', days: 9 };
    expect(everyAway(some, '2026-11-09')).toEqual([
      october,
      { from: '2026-10-28', to: '2026-11-01', days: 5 },
      { from: '2026-11-03', to: '2026-11-08', days: 6 },
    ]);
    expect(awayIn(some, { from: '2026-10-20', to: '2026-10-30', today: '2026-11-09' })).toEqual([october]);
    expect(everyAway([], '2026-11-09')).toEqual([]);
  });
});
