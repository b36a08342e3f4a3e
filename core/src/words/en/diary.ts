/** English for the diary: what can go wrong when it is kept or read. */
import type { KeepingProblem, LineProblem } from '../../diary/index.ts';
import type { Sentences } from '../sentences.ts';

const seconds = (sec: number): string => (sec < 90 ? `${Math.round(sec)} seconds` : `${Math.round(sec / 60)} minutes`);

export const diarySentences: Sentences<KeepingProblem | LineProblem> = {
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
};
