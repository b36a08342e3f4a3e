import type { KnownRecord } from '@evenhand/core/diary';
import { expect, test } from 'vitest';
import { canComeBack, overdue } from './thinning.ts';

const thinning = (id: string, day: string, takeIds: readonly string[]) => ({ id, day, body: { takeIds, byteCount: 1 } }) as KnownRecord<'thinning'>;
const diary = { thinnings: [thinning('old', '2026-03-01', ['a']), thinning('week', '2026-03-18', ['b']), thinning('new', '2026-03-24', ['c', 'd'])] };

test('what was let go a week ago goes for good, what is younger can come back while all of it is here (arithmetic: 18 March and seven days)', () => {
  expect(overdue(diary, '2026-03-25')).toEqual(['a', 'b']);
  const back = (here: readonly string[]) => canComeBack(diary, { today: '2026-03-24', here: new Set(here) }).map(({ id }) => id);
  expect(back(['a', 'b', 'c', 'd'])).toEqual(['new', 'week']);
  expect(back(['b', 'c'])).toEqual(['week']);
});
