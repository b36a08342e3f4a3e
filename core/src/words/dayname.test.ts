import { expect, test } from 'vitest';
import { dayName } from './en/dayname.ts';
import { say } from './index.ts';

test.each([
  { day: '2024-02-29', name: 'Thursday, 29 February', says: 'the calendar of 2024' },
  { day: '2000-01-01', name: 'Saturday, 1 January', says: 'the calendar of 2000' },
  { day: 'soon', name: 'soon', says: 'no day: as it is' },
])('$day is $name: $says', ({ day, name }) => expect(dayName(day)).toBe(name));

test('what moved is told by day and month', () => {
  const params = { from: '2026-03-11', to: '2026-03-13', count: 1, until: '2026-03-11' };
  expect(say({ code: 'plan-session-moved', params })).toContain('Wednesday, 11 March is now on Friday, 13 March');
  const several = { ...params, count: 2, until: '2026-03-12', to: '2026-03-15' };
  expect(say({ code: 'plan-session-moved', params: several })).toBe(
    'Two planned sessions were not played, from Wednesday, 11 March, to Thursday, 12 March. They come first now, from Sunday, 15 March, on; the others follow.',
  );
});
