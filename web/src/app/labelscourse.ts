/** Labels of the course of a tempo and of what stands beside it; fetched with their screen. */
import type { SetupChange } from '@evenhand/core/progress';
import { gearLabels } from './labelsheard.ts';

export const courseLabels = {
  setup: 'Set-up',
  /** What a set-up became from a day on. */
  became: ({ names, values }: SetupChange) =>
    names.map((name, k) => `${(gearLabels.parts as Readonly<Record<string, string>>)[name] ?? name}: ${values[k]}`).join(', '),
} as const;

export const risenLabels = {
  title: 'What rose with what',
  hint: 'Each week is held against the week before by its own results. That two rose together does not say that one lifted the other.',
  against: 'Held against',
  working: 'Looking through the weeks …',
  none: 'There are no weeks yet in which both are known. It takes some weeks with runs that are not all clean.',
  family: (name: string) => `all of ${name.toLowerCase()}`,
  rose: 'weeks in which the phrase rose',
  columns: {
    name: 'Exercise',
    steps: 'Weeks compared',
    togetherSteps: 'Both rose',
    whileRising: 'A week, while the phrase rose',
    otherwise: 'In the other weeks',
    word: 'In a word',
  },
  of: (both: number, rose: number) => `in ${both} of ${rose}`,
  words: { together: 'rose together more often than by chance', notSure: 'no more than chance would give', few: 'too few weeks to say' },
  save: 'Save the table (CSV)',
  sort: (column: string) => `Sort by: ${column}`,
} as const;
