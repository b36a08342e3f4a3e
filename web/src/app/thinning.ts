/** Letting the sound of takes go, as the screens see it: what is about to go for good, and what can be taken back. */
import { daysBetween } from '@evenhand/core/day';
import type { DiaryView, KnownRecord } from '@evenhand/core/diary';
import { say } from './said.ts';

/** So many days sound that was let go can be taken back, unless it is let go for good before. Assumption: long enough to miss it, short enough to have the room. */
export const BACK_DAYS = 7;

/** Takes whose sound was let go so long ago that it goes for good. @param today practice day. */
export const overdue = ({ thinnings }: Pick<DiaryView, 'thinnings'>, today: string): readonly string[] =>
  thinnings.filter(({ day }) => daysBetween(day, today) >= BACK_DAYS).flatMap(({ body }) => body.takeIds);

/** What was let go and is still here, the latest first. @param here takes with sound. */
export const canComeBack = (
  { thinnings }: Pick<DiaryView, 'thinnings'>,
  { today, here }: { readonly today: string; readonly here: ReadonlySet<string> },
): readonly KnownRecord<'thinning'>[] =>
  thinnings.filter(({ day, body }) => daysBetween(day, today) < BACK_DAYS && body.takeIds.every((takeId) => here.has(takeId))).reverse();

/** A day of any year: "3 Feb 2026". */
export const dayWithYear = (day: string): string => say({ code: 'picture-day', params: { day, withYear: true } });
