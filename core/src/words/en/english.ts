/** All English sentences in one table; each file beside this one holds those of a stage. */
import { sessionSentences } from './session.ts';
import { stickingSentences } from './sticking.ts';
import { takeSentences } from './take.ts';

export const english = { ...sessionSentences, ...stickingSentences, ...takeSentences };
