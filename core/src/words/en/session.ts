/** English for what a session says. */
import type { SessionStatement } from '../../session/index.ts';
import type { Sentences } from '../sentences.ts';
import { tempoName } from './notevalue.ts';

const roundsOf = (count: number): string => (count === 1 ? '1 round' : `${count} rounds`);

export const sessionSentences: Sentences<SessionStatement> = {
  'aim-as-wanted': () => 'Eight in a row as you want them: all there, in time, alike in volume.',
  'block-not-heard': () => 'Nothing was heard well enough to tell. The take is kept.',
  'block-too-short': () => 'Too short to tell one stroke from another.',
  'block-of-else': () => 'What was played is not what is written here, so nothing is judged.',
  'block-by-word': ({ hadIt, again }) =>
    again === 0 ? `By your word: had it, ${roundsOf(hadIt)}.` : `By your word: had it in ${hadIt} of ${roundsOf(hadIt + again)}.`,
  'block-without-word': () => 'Played. You said nothing about it, so nothing follows from it.',
  'idea-kept': ({ tempoBpm, perBeat, sticking }, noteNames) => `Kept from the last bars of ${sticking}, ${tempoName(tempoBpm, perBeat, noteNames)}.`,
  'first-clean-kept': ({ tempoBpm, perBeat, sticking }, noteNames) =>
    `The first clean round of ${sticking} at ${tempoName(tempoBpm, perBeat, noteNames)}, kept to be heard.`,
  'session-hurt': () => 'You stopped because something hurts. Rest; if it lasts or comes back, ask a licensed clinician.',
};
