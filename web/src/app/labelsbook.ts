/** Labels of writing in the diary by hand, of corrections, search and tables; fetched with the diary. */
import type { Felt } from '@evenhand/core/diary';
import { counted } from './counted.ts';

/** A line about days away, offered and never asked for. */
export const awayLineLabels = {
  offer: 'Was something in the way? A line about it, if you like',
  label: 'A line about the days away',
  write: 'Write it down',
  written: 'Written down; it stands beside those days.',
  failed: 'It could not be written; the reason stands above.',
} as const;

export const bookLabels = {
  longerAway: (from: string, to: string, { days, noted, moved }: { readonly days: number; readonly noted: boolean; readonly moved: boolean }) =>
    `${days} days away, from ${from} to ${to}.${noted ? ' You wrote on one of them all the same; it stands below.' : ''}${moved ? ' What was planned moved on.' : ''}`,
  ahead: 'This day has not begun here yet. Where or when this was written, days began earlier.',
  asBefore: 'Heard as the last time it was played:',
  phrase: {
    begun: (name: string) => `Begun: ${name}.`,
    closed: (name: string) => `Closed: ${name}.`,
    paused: (name: string) => `Put aside for now: ${name}.`,
    open: (name: string) => `Taken up again: ${name}.`,
  },
  setup: (became: string) => `The set-up changed. ${became}.`,
  search: 'Find days',
  searchHint: 'a word, a title, a sticking, 2026-02',
  searchWhere: 'In your own lines, phrases, exercises, stickings, set-ups and dates; not in what was heard.',
  found: (n: number) => (n === 0 ? 'No day has all of these words.' : `${counted(n, 'day')} found.`),
  moreDays: (n: number) => `Show earlier days (${n} more)`,
  felt: 'How it felt',
  feltNames: { easy: 'easy', asUsual: 'as usual', hard: 'hard work', tired: 'tired' } satisfies Record<Felt, string>,
  notSaid: 'not said',
  hand: 'Practice without Evenhand',
  handHint: 'Minutes, a line, or both.',
  day: 'Day',
  minutes: 'Minutes',
  line: 'A line about it',
  write: 'Write it down',
  written: 'Written down.',
  byHand: 'Written down by hand.',
  wrong: 'Choose a day that is not to come, and minutes up to 1440, a line, or how it felt.',
  failed: 'It could not be written; the reason stands above.',
  hear: 'Hear it',
  hush: 'Stop',
  hearName: (playing: boolean, text: string) => `${playing ? 'Stop' : 'Hear'} “${text.slice(0, 60)}”`,
  correct: 'Correct',
  correctName: (text: string) => `Correct “${text.slice(0, 40)}”`,
  keep: 'Keep the correction',
  leave: 'Leave it',
  strike: 'Strike it out',
  history: 'What stood there before',
  struck: 'It was struck out.',
  brought: 'It was taken back in.',
  undo: 'Take it back in',
  table: 'As a table',
  tableHint: 'For a spreadsheet: sessions, blocks and notes. Sound, plans and corrections are in the file above alone.',
  tableSave: 'Save a table (CSV)',
  tableBring: 'Bring a table in',
  tableSaved: (name: string) => `Saved as ${name}.`,
  tableAsk: 'Bring this table in?',
  wouldCome: (sessions: number, blocks: number, notes: number, known: number) =>
    `${counted(sessions, 'session')}, ${counted(blocks, 'block')} and ${counted(notes, 'note')} would come in.${known > 0 ? ` ${counted(known, 'row')} ${known === 1 ? 'is' : 'are'} here already.` : ''} Nothing that is here changes.`,
  leftOut: (n: number) => `${counted(n, 'line')} would be left out:`,
  more: (n: number) => `and ${n} more.`,
  tableYes: 'Bring it in',
  tableNo: 'Leave everything as it is',
  tableDone: (n: number) => `${counted(n, 'entry', 'entries')} came in.`,
};
