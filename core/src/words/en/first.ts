/** The English that a first visit needs before anything is played: what is typed, and whether anything can be kept. The rest is fetched later. */
import { diarySentences } from './diary.ts';
import { stickingSentences } from './sticking.ts';

export const firstEnglish = { ...diarySentences, ...stickingSentences };
