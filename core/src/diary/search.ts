/** Finding days again by words. */
import type { DiaryDay } from './fold.ts';
import type { KnownRecord } from './record.ts';

/** What else is said of a block, or of a day, in words. */
export interface SearchedIn {
  readonly ofBlock: (block: KnownRecord<'block'>) => string;
  readonly ofDay?: (day: DiaryDay) => string;
}

/**
 * Days on which every word that is asked for stands: in notes, days, stickings and what else is said of blocks and days. Capitals and accents do not count.
 * @param asked words between blanks; none give all days.
 */
export function searchDays(days: readonly DiaryDay[], asked: string, { ofBlock, ofDay = () => '' }: SearchedIn): readonly DiaryDay[] {
  const wanted = plain(asked)
    .split(/\s+/)
    .filter((word) => word !== '');
  if (wanted.length === 0) return days;
  return days.filter((entry) => {
    const { day, notes, sessions } = entry;
    const blocks = sessions.flatMap((session) => session.blocks);
    const text = plain(
      [day, ofDay(entry), ...notes.map(({ body }) => body.text), ...blocks.flatMap((block) => [block.body.exercise.sticking, ofBlock(block)])].join(
        '\n',
      ),
    );
    return wanted.every((word) => text.includes(word));
  });
}

const plain = (text: string): string => text.normalize('NFKD').replaceAll(/\p{M}/gu, '').toLowerCase();
