/** All verbs, in the order in which a drummer meets them. */
import type { Verb } from '../verb.ts';
import { diaryAdd } from './diary-add.ts';
import { diaryCheck } from './diary-check.ts';
import { diaryExport } from './diary-export.ts';
import { diaryImport } from './diary-import.ts';
import { diaryList } from './diary-list.ts';
import { diaryThin } from './diary-thin.ts';
import { exercises } from './exercises.ts';
import { listen } from './listen.ts';
import { plan } from './plan.ts';
import { report } from './report.ts';
import { serve } from './serve.ts';
import { sheet } from './sheet.ts';
import { strokes } from './strokes.ts';
import { tempo } from './tempo.ts';

export const verbs: readonly Verb[] = [
  listen,
  strokes,
  exercises,
  sheet,
  plan,
  tempo,
  diaryAdd,
  diaryList,
  diaryExport,
  diaryImport,
  diaryCheck,
  diaryThin,
  report,
  serve,
];
