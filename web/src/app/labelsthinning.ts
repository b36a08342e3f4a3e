/** Labels of the room that takes need; fetched with their screen. */
import { sizeName } from '@evenhand/core/words';

const takes = (n: number): string => (n === 1 ? '1 take' : `${n} takes`);

export const thinningLabels = {
  title: 'Room for the sound of takes',
  counting: 'Counting …',
  holds: (count: number, bytes: number) =>
    count === 0
      ? 'No take has its sound here.'
      : `The sound of ${takes(count)} is here and takes ${sizeName(bytes)}. Figures are small and stay for ever.`,
  all: 'Keep the sound of every take',
  some: 'Let old sound go, as chosen here',
  how: 'What stays',
  months: 'Keep every take for',
  monthsAfter: 'months; empty: of any age',
  mostMb: 'Keep at most',
  mostMbAfter: 'MB of sound; empty: all there is room for',
  firstClean: 'The first take that was clean at a tempo stays',
  ends: 'Of each exercise',
  endsNames: { none: 'nothing more stays', week: 'the first and last take of each week stay', month: 'the first and last take of each month stay' },
  never: 'Reference takes, takes of then and now, takes with a line or an idea of yours, and those of the last seven days never go.',
  preview: 'Show what would go',
  nothing: 'By these rules nothing would go.',
  would: (count: number, bytes: number, from: string, to: string) =>
    `The sound of ${takes(count)} would go, ${sizeName(bytes)}, ${from === to ? `from ${from}` : `from ${from} to ${to}`}.`,
  wouldStay: (count: number, bytes: number) =>
    `${count === 0 ? 'No sound would stay' : `The sound of ${takes(count)} would stay, ${sizeName(bytes)}`}. Strokes, figures and lines all stay.`,
  over: 'That is more than you wanted: the rest never goes.',
  letGo: 'Let this sound go',
  leave: 'Leave everything as it is',
  gone: (count: number, bytes: number, day: string) =>
    `On ${day} the sound of ${takes(count)} was let go, ${sizeName(bytes)}. The figures stay. The sound is in no backup any more.`,
  back: 'Take it back',
  free: 'Free the room now',
  sure: 'Free it for ever',
  until: (days: number) => `It can be taken back for ${days === 1 ? 'one more day' : `${days} more days`}.`,
  cameBack: 'The sound is back.',
  freed: 'The room is free.',
  failed: 'That could not be done; nothing was changed.',
} as const;
