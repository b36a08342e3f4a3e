/** Labels of keeping the diary, of the settings and of the demo; labels.ts takes them into its one table. */

import { counted } from './counted.ts';
import type { Side } from './settings.ts';

const entries = (n: number): string => counted(n, 'entry', 'entries');
const takes = (n: number): string => (n === 0 ? 'no sound' : `the sound of ${counted(n, 'take')}`);

/** How much of something is done, in words. */
const percent = (share: number): string => `${Math.round(share * 100)} of 100`;

export const keepingLabels = {
  title: 'Keep it safe',
  what: 'The diary lives in this browser, on this device. One file takes all of it along: what was played, said and heard, with the sound of every take.',
  save: 'Save everything to one file',
  bring: 'Bring a file back',
  bringHint: 'A file that Evenhand saved; its name ends in .zip. It is checked first, and you are asked before anything changes.',
  never: 'Not saved to a file yet.',
  last: (when: string) => `Last saved to a file: ${when}.`,
  remind: 'This browser may clear the diary when the device runs out of space. Save it to a file today.',
  saveNow: 'Save it now',
  persistence: {
    kept: 'This browser has promised to keep the diary when space runs out.',
    mayBeCleared: 'This browser has not promised to keep the diary when space runs out. A saved file is safe from that.',
    notAsked: 'After the next session this browser is asked to keep the diary when space runs out.',
    cannotTell: 'This browser does not say whether it keeps the diary when space runs out. A saved file is safe from that.',
  },
  working: {
    sound: (share: number) => `Working on the sound of the takes, ${percent(share)} …`,
    reading: (share: number) => `Checking every bit of the file, ${percent(share)} …`,
    entries: (share: number) => `Bringing the entries in, ${percent(share)} …`,
    readying: (share: number) => `Getting the diary ready to read, ${percent(share)} …`,
    aside: (share: number) => `Keeping aside what is here now, ${percent(share)} …`,
  },
  saved: (name: string, recordCount: number, takeCount: number) =>
    `${name} holds ${entries(recordCount)} and ${takes(takeCount)}. Put it somewhere that is not this device.`,
  askTitle: 'Bring this file back?',
  holds: (recordCount: number, takeCount: number) => `The file is whole. It holds ${entries(recordCount)} and ${takes(takeCount)}.`,
  span: (first: string, last: string) => (first === last ? `It is from ${first}.` : `It goes from ${first} to ${last}.`),
  merge: 'Put it beside what is here',
  mergeWhat: (added: number, known: number) =>
    added === 0
      ? 'All of it is here already; nothing would change.'
      : `${entries(added)} would come in${known > 0 ? `, ${known} are here already` : ''}. Nothing goes.`,
  whole: 'Put it in the place of what is here',
  wholeWhat: (removed: number) =>
    removed === 0
      ? 'The diary would be exactly as the file has it.'
      : `The diary would be exactly as the file has it. ${entries(removed)} of today’s diary would go; all of it is kept aside, and you can bring it back.`,
  differing: (n: number) =>
    `${entries(n)} in the file ${n === 1 ? 'says' : 'say'} something else than here. Beside: the later one stays. In its place: the file’s.`,
  no: 'Leave everything as it is',
  broughtMerge: (added: number) => (added === 0 ? 'Nothing was new.' : `${entries(added)} came in.`),
  broughtWhole: (recordCount: number) => `The diary is as in the file: ${entries(recordCount)}.`,
  keptAside: 'What was here before is kept aside, below.',
  openAgain: 'Open it',
  fine: 'Good',
  asideTitle: 'Kept aside',
  aside: (when: string, recordCount: number) => `The diary until ${when}, ${entries(recordCount)}`,
  asideSave: 'Save it to a file',
  asideBring: 'Bring it back',
  asideLetGo: 'Let it go',
  asideSure: 'Let it go for ever',
  notInDemo: 'This is the diary of the demo. Your own is kept from your own diary page.',
} as const;

const sides: Readonly<Record<Side, string>> = { R: 'right', L: 'left' };

export const settingsLabels = {
  title: 'Settings',
  hand: 'Leading hand',
  foot: 'Foot on the kick',
  sides,
  openHanded: 'Open-handed: the hand beside the hi-hat plays it',
  atHand: {
    title: 'Drums at hand',
    kit: 'A kit',
    quietKit: 'A quiet kit (mesh, mutes, electronic)',
    pad: 'A pad',
    own: 'My own list',
    list: 'Drums, with commas between',
    example: 'snare, kick, floor tom, hi-hat',
    hint: 'A new phrase begins on these, and exercises keep to them and to the drums of the phrase.',
  },
  atStand: {
    title: 'While a session runs, show',
    fitting: 'notes, or letters where notes are too small to read from the stool',
    notes: 'always notes',
    letters: 'always letters',
  },
  countRow: { title: 'Counting under the notes', none: 'none', en: '1 e & a', de: '1 e + e' },
  strokeTypes: 'Full, down, tap and up strokes under the notes',
  largeType: 'Large notes',
  paper: { title: 'Paper', a4: 'A4', letter: 'Letter (US)' },
  noteNames: { title: 'Note values', american: '8ths, 16ths', british: 'quavers, semiquavers' },
  tolerance: {
    title: 'What counts as in time',
    wide: 'wide',
    medium: 'medium',
    narrow: 'narrow',
    hint: 'Four, three or two times what can just be heard. It decides which runs are clean, and so the next tempo.',
  },
  cutOverHour: 'A new practice day begins at',
  hour: (hour: number) => (hour === 0 ? 'midnight' : hour === 12 ? 'noon' : `${hour} in the morning`),
  hourHint: 'After a late show, what you play before this hour still belongs to the evening.',
  daysAwayFine: 'Days away that need no word',
  saved: 'Kept in the diary.',
  about: 'About',
  version: (version: string) => `Evenhand ${version}`,
  offline: 'It opens without a network.',
  again: 'What Evenhand does, and the cautions',
  players: 'Players on this device',
} as const;

export const demoLabels = {
  see: 'See it with a pit drummer’s five weeks',
  seeWhat:
    'An invented drummer, ten sessions behind her: her diary, her takes and today’s session, to read and to play. It is kept apart from yours.',
  line: 'This is the demo: an invented drummer’s diary. Nothing here touches yours.',
  back: 'To my own diary',
  making: 'Ten sessions are being played for the demo …',
  anew: 'Begin the demo anew',
  toSession: 'To today’s session',
} as const;
