/** English for the diary: what can go wrong when it is kept or read. */
import type { BackupProblem, ByHandStatement, KeepingProblem, LineProblem } from '../../diary/index.ts';
import type { Sentences } from '../sentences.ts';

const seconds = (sec: number): string => (sec < 90 ? `${Math.round(sec)} seconds` : `${Math.round(sec / 60)} minutes`);

const size = (byteCount: number): string => (byteCount < 1024 ? `${byteCount} bytes` : `${Math.floor(byteCount / 1024)} kB`);

const UNTOUCHED = 'The present diary was not touched.';

const PARTS = {
  records: 'the diary in it',
  take: 'a take in it',
  manifest: 'its list of contents',
  wrapping: 'the ZIP around its contents',
} as const;

export const diarySentences: Sentences<BackupProblem | ByHandStatement | KeepingProblem | LineProblem> = {
  'store-unavailable': () =>
    'This browser keeps nothing here, as in a private window, so nothing will be in the diary. Open Evenhand in an ordinary window to keep your practice.',
  'store-full': () =>
    'The device is full, so no more sound can be stored. Figures and notes are small: free some space, and they can be saved again.',
  'store-newer': () => 'This diary was written by a newer version of Evenhand. Load the page again to get that version; nothing was changed.',
  'store-blocked': () => 'Evenhand is open in another tab with an older version. Close that tab, then load this page again.',
  'store-closed': () => 'Another tab has brought the diary to a newer version. Load this page again to go on; everything saved is there.',
  'store-failed': ({ reason }) => `The browser could not save (${reason}). Try again; what was saved before is still there.`,
  'take-not-stored': () => 'The sound of this take is not on this device any more. Its strokes are kept.',
  'take-cut-off': ({ durationSec }) =>
    `A recording was cut off when the browser closed. What had been stored, ${seconds(durationSec)}, was kept and heard.`,
  'diary-line-not-json': ({ line }) => `Line ${line} is not readable and was left out.`,
  'diary-line-not-record': ({ line }) => `Line ${line} is not an entry of a diary and was left out.`,
  'session-by-hand': () => 'Written down by hand.',
  'backup-not-one': () => `This file is not a backup of Evenhand. Choose the file that Evenhand saved; its name ends in .zip. ${UNTOUCHED}`,
  'backup-cut': ({ byteCount }) =>
    `This backup ends early: only its first ${size(byteCount)} are there, as when copying was interrupted. Copy it again from where it was saved. ${UNTOUCHED}`,
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
