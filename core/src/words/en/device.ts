/** English for the device: microphone, permission, and sound that stops. */
import type { DeviceProblem } from '../../take/index.ts';
import type { Sentences } from '../sentences.ts';

export const deviceSentences: Sentences<DeviceProblem> = {
  'device-not-secure': () =>
    'Browsers give a microphone only to pages on https or on this very machine. Open Evenhand at an https address, or at localhost. Opening a recording works here too.',
  'device-no-audio': () => 'This browser cannot make or hear sound in the way a session needs. A current version of Firefox, Chrome or Safari can.',
  'device-audio-waiting': () => 'The browser waits for you before it makes a sound: press any key, or tap the page once.',
  'device-audio-interrupted': () => 'The device has interrupted the sound, as a call does. The session waits; go on when it is free again.',
  'microphone-denied': () =>
    'The browser may not use the microphone. Allow it beside the address of the page, then try again. The click works without it, and your own word counts.',
  'microphone-none': () => 'No microphone was found. Plug one in and try again. The click works without it, and your own word counts.',
  'microphone-busy': () => 'Another program holds the microphone. Close it there, then try again.',
  'microphone-lost': () =>
    'The microphone is gone. The click goes on, and what was played is kept. Until it is plugged in again your own word counts.',
  'microphone-processed': ({ processing }) =>
    `The device works on the microphone's sound (${processing.join(', ')}) and would not stop. Soft strokes may be lost; another microphone hears them better.`,
  'click-not-heard': () =>
    'The microphone did not hear the click, as with headphones. Nothing is lost: how even you play needs no click, only “ahead of the click” or “behind it” stays unsaid.',
  'click-unsteady': ({ spreadMs }) =>
    `The click came back at uneven times (${spreadMs.toFixed(1)} ms apart), so its way is not kept. Close other programs, or leave a wireless loudspeaker aside, and check again.`,
  'ear-stopped': () => 'Listening stopped and was started again. What was recorded until then is kept; a moment in between is missing.',
  'ear-failed': ({ reason }) => `This could not be heard (${reason}). The recording is kept.`,
};
