/** All English sentences in one table; each file beside this one holds those of a stage. */

import { deviceSentences } from './device.ts';
import { diarySentences } from './diary.ts';
import { exerciseSentences } from './exercise.ts';
import { sessionSentences } from './session.ts';
import { stickingSentences } from './sticking.ts';
import { takeSentences } from './take.ts';

export const english = { ...exerciseSentences, ...deviceSentences, ...diarySentences, ...sessionSentences, ...stickingSentences, ...takeSentences };
