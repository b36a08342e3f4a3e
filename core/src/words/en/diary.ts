/** English for the diary: what can go wrong when it is kept or read. */
import type { BackupProblem, ByHandStatement, KeepingProblem, LineProblem, TableProblem } from '../../diary/index.ts';
import { minutesOfSec } from '../../units.ts';
import type { Sentences } from '../sentences.ts';
import { sizeName } from './size.ts';

const seconds = (sec: number): string => (sec < 90 ? `${Math.round(sec)} seconds` : `${Math.round(minutesOfSec(sec))} minutes`);

/** What stands in a cell, so long that it is recognised. */
const shown = (given: string): string => `“${given.length > 40 ? `${given.slice(0, 40)}…` : given}”`;

const cameBack = (count: number): string =>
  `${count === 1 ? 'One entry was' : `${count} entries were`} brought back from the second copy that is kept beside it.`;

const UNTOUCHED = 'The present diary was not touched.';

const PARTS = {
  records: 'the diary in it',
  take: 'a take in it',
  manifest: 'its list of contents',
  wrapping: 'the ZIP around its contents',
} as const;

export const diarySentences: Sentences<BackupProblem | ByHandStatement | KeepingProblem | LineProblem | TableProblem> = {
  'store-unavailable': () =>
    'This browser keeps nothing here, as in a private window, so nothing will be in the diary. Open Evenhand in an ordinary window to keep your practice.',
  'store-full': () =>
    'The device is full, so no more sound can be stored. Figures and notes are small: free some space, and they can be saved again.',
  'store-newer': () => 'This diary was written by a newer version of Evenhand. Load the page again to get that version; nothing was changed.',
  'store-blocked': () => 'Evenhand is open in another tab with an older version. Close that tab, then load this page again.',
  'store-closed': () => 'Another tab has brought the diary to a newer version. Load this page again to go on; everything saved is there.',
  'store-failed': ({ reason }) => `The browser could not save (${reason}). Try again; what was saved before is still there.`,
  'store-brought-back': ({ recordCount, isAll }) =>
    isAll
      ? `The browser had lost the diary that it kept here. ${cameBack(recordCount)} The sound of takes was lost with it: it comes back only from a file that you saved.`
      : `The browser had not kept everything that was written. ${cameBack(recordCount)}`,
  'take-not-stored': () => 'The sound of this take is not on this device any more. Its strokes are kept.',
  'take-cut-off': ({ durationSec }) =>
    `A recording was cut off when the browser closed. What had been stored, ${seconds(durationSec)}, was kept and heard.`,
  'diary-line-not-json': ({ line }) => `Line ${line} is not readable and was left out.`,
  'diary-line-not-record': ({ line }) => `Line ${line} is not an entry of a diary and was left out.`,
  'table-no-day': () =>
    `This table has no column called day, so nothing can be told from it. Its first line names the columns; day, minutes and text are enough. ${UNTOUCHED}`,
  'table-quote-open': ({ line }) => `The quotes that open on line ${line} are never closed, so that line and all after it were left out.`,
  'table-day': ({ line, given }) => `Line ${line}: ${shown(given)} is no day. Write it as 2026-02-04.`,
  'table-at': ({ line, given }) => `Line ${line}: ${shown(given)} is no moment. Write it as 2026-02-04T18:30:00Z, or leave it empty.`,
  'table-number': ({ line, column, given }) =>
    given === ''
      ? `Line ${line}: the column ${column} is empty; a number belongs there.`
      : `Line ${line}: ${shown(given)} is no number that can stand for ${column}.`,
  'table-clean-more': ({ line, clean, runs }) => `Line ${line}: ${clean} runs cannot be clean of ${runs}.`,
  'table-choice': ({ line, column, given, choices }) =>
    `Line ${line}: ${shown(given)} cannot stand for ${column}. Write one of ${choices}, or leave it empty.`,
  'table-id': ({ line, column, given }) => `Line ${line}: ${shown(given)} is no ${column} of an entry. Leave it empty for a new one.`,
  'table-twice': ({ line, first }) => `Line ${line} has the same id as line ${first}. Leave its id empty for an entry of its own.`,
  'table-sticking': ({ line, given }) => `Line ${line}: ${shown(given)} does not read as a sticking, such as RLRLKK.`,
  'table-drums': ({ line, given }) =>
    `Line ${line}: ${shown(given)} does not name a drum for each stroke. Name one for each, or leave the cell empty.`,
  'table-nothing': ({ line }) => `Line ${line} tells neither minutes nor text. Fill one of them in.`,
  'session-by-hand': () => 'Written down by hand.',
  'backup-not-one': () => `This file is not a backup of Evenhand. Choose the file that Evenhand saved; its name ends in .zip. ${UNTOUCHED}`,
  'backup-cut': ({ byteCount }) =>
    `This backup ends early: only its first ${sizeName(byteCount)} are there, as when copying was interrupted. Copy it again from where it was saved. ${UNTOUCHED}`,
  'backup-changed': ({ part }) =>
    `This backup is not as it was written: ${PARTS[part]} was changed or damaged. Use another copy of it, or an earlier backup. ${UNTOUCHED}`,
  'backup-checksum': ({ name }) =>
    `This backup is damaged: ${name} in it does not match its checksum. Use another copy of it, or an earlier backup. ${UNTOUCHED}`,
  'backup-take-missing': ({ takeId }) =>
    `This backup lists the sound of take ${takeId}, but does not hold it. Use another copy of it, or an earlier backup. ${UNTOUCHED}`,
  'backup-newer': ({ format }) =>
    `This backup was written by a newer version of Evenhand (${format}), and this version cannot read it. Bring Evenhand up to date, then try again. ${UNTOUCHED}`,
  'backup-unreadable': () =>
    `This file cannot be read any more: it was moved or changed, or what it lies on was taken out. Choose it again. ${UNTOUCHED}`,
  'backup-too-large': () =>
    'The diary and its takes are more than one backup can hold (4 GB). Let go of the sound of old takes, then save it again; figures and notes stay.',
};
