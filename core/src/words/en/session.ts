/** English for what a session says. */
import type { SessionStatement } from '../../session/index.ts';
import type { Sentences } from '../sentences.ts';

export const sessionSentences: Sentences<SessionStatement> = {
  'aim-as-wanted': () => 'Eight in a row as you want them: all there, in time, alike in volume.',
  'block-not-heard': () => 'Nothing was heard well enough to tell. The take is kept.',
  'session-hurt': () => 'You stopped because something hurts. Rest; if it lasts or comes back, ask a licensed clinician.',
};
