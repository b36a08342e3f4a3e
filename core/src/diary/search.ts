/** Finding days again by words. */
import type { DiaryDay } from './fold.ts';
import type { KnownRecord } from './record.ts';

/**
 * Days on which every word that is asked for stands: in notes, days, stickings and what else `textOf` says of a block. Capitals and accents do not count.
 * @param asked words between blanks; none give all days.
 * @param textOf what a block is called, in words.
 */
export function searchDays(days: readonly DiaryDay[], asked: string, textOf: (block: KnownRecord<'block'>) => string): readonly DiaryDay[] {
  const wanted = plain(asked)
    .split(/\s+/)
    .filter((word) => word !== '');
  if (wanted.length === 0) return days;
  return days.filter(({ day, notes, sessions }) => {
    const blocks = sessions.flatMap((entry) => entry.blocks);
    const text = plain(
      [day, ...notes.map(({ body }) => body.text), ...blocks.flatMap((block) => [block.body.exercise.sticking, textOf(block)])].join('\n'),
    );
    return wanted.every((word) => text.includes(word));
  });
}

const plain = (text: string): string => text.normalize('NFKD').replaceAll(/\p{M}/gu, '').toLowerCase();
