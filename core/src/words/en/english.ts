/** All English sentences in one table; each file beside this one holds those of a stage. */

import { courseSentences } from './course.ts';
import { deviceSentences } from './device.ts';
import { diarySentences } from './diary.ts';
import { exerciseSentences } from './exercise.ts';
import { findingSentences } from './finding.ts';
import { kitSentences } from './kit.ts';
import { measurementSentences } from './measurement.ts';
import { pictureSentences } from './picture.ts';
import { planSentences } from './plan.ts';
import { progressSentences } from './progress.ts';
import { reportSentences } from './report.ts';
import { sessionSentences } from './session.ts';
import { sheetSentences } from './sheet.ts';
import { songSentences } from './song.ts';
import { stickingSentences } from './sticking.ts';
import { takeSentences } from './take.ts';
import { tempoSentences } from './tempo.ts';
import { thenNowSentences } from './thennow.ts';
import { weeksSentences } from './weeks.ts';

export const english = {
  ...courseSentences,
  ...exerciseSentences,
  ...findingSentences,
  ...deviceSentences,
  ...diarySentences,
  ...kitSentences,
  ...measurementSentences,
  ...pictureSentences,
  ...planSentences,
  ...progressSentences,
  ...reportSentences,
  ...sessionSentences,
  ...sheetSentences,
  ...songSentences,
  ...stickingSentences,
  ...takeSentences,
  ...tempoSentences,
  ...thenNowSentences,
  ...weeksSentences,
};
