import { expect, test } from 'vitest';
import { isTimeToSave } from './reminder.ts';

const DAY_MS = 86_400_000;
const NOW = 1_700_000_000_000;
const ago = (days: number): number => NOW - days * DAY_MS;

test.each([
  { says: 'nothing written yet', persistence: 'mayBeCleared', savedAtMs: null, writtenAtMs: null, remind: false },
  { says: 'the browser promised', persistence: 'kept', savedAtMs: null, writtenAtMs: ago(1), remind: false },
  { says: 'not asked: no session yet', persistence: 'notAsked', savedAtMs: null, writtenAtMs: ago(1), remind: false },
  { says: 'never saved', persistence: 'mayBeCleared', savedAtMs: null, writtenAtMs: ago(1), remind: true },
  { says: 'a browser that does not say', persistence: 'cannotTell', savedAtMs: null, writtenAtMs: ago(1), remind: true },
  { says: 'saved yesterday', persistence: 'mayBeCleared', savedAtMs: ago(1), writtenAtMs: ago(0.5), remind: false },
  { says: 'saved long ago, written since', persistence: 'mayBeCleared', savedAtMs: ago(8), writtenAtMs: ago(1), remind: true },
  { says: 'saved long ago, nothing since', persistence: 'mayBeCleared', savedAtMs: ago(60), writtenAtMs: ago(61), remind: false },
] as const)('$says: reminded $remind', ({ says: _, remind, ...keepsake }) => {
  expect(isTimeToSave({ ...keepsake, nowMs: NOW })).toBe(remind);
});
