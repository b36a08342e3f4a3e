/** English for what a session says. */
import type { SessionStatement } from '../../session/index.ts';
import type { Sentences } from '../sentences.ts';

export const sessionSentences: Sentences<SessionStatement> = {
  'aim-as-wanted': () => 'Eight in a row as you want them: all there, in time, alike in volume.',
  'block-chosen': () => 'You chose it.',
  'block-repeats': () => 'Once more, at the tempo that came out of the first time.',
  'block-not-heard': () => 'Nothing was heard well enough to tell. The take is kept.',
  'block-without-microphone': () => 'Played without a microphone, so nothing was heard.',
  'block-too-short': ({ strokeCount }) => `Only ${strokeCount} strokes were heard: too few to tell. The take is kept.`,
  'tempo-stays': ({ tempoBpm }) => `Stay at ${tempoBpm}.`,
  'session-hurt': () => 'You stopped because something hurts. Rest; if it lasts or comes back, ask a licensed clinician.',
};
