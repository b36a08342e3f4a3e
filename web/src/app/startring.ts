/** Where the way round begins when the app opens. */
import type { DiaryView } from '@evenhand/core/diary';
import { emptyPhrase, phraseOf } from './phrase.ts';
import { newRing, type Ring, type Screen, turnRing } from './ring.ts';
import { firstDrums, type Settings } from './settings.ts';

const SCREENS: readonly Screen[] = ['welcome', 'phrase', 'heard', 'shelf', 'plan', 'session', 'diary', 'progress'];

/** The screen an address names. */
export const screenIn = (hash: string): Screen | null => SCREENS.find((screen) => `#${screen}` === hash) ?? null;

/** First visit: the cautions. Later: where the address says, on the last phrase; today's session when there are strokes to work on. */
export function startRing(diary: DiaryView, settings: Settings, hash: string): Ring {
  const last = diary.stickingPoints.at(-1)?.body;
  const screen = diary.settings.cautionsRead === true ? (screenIn(hash) ?? (last?.cell ? 'session' : 'phrase')) : 'welcome';
  if (!last) return newRing(screen, { ...emptyPhrase, drums: firstDrums(settings) });
  return turnRing(newRing(screen), { kind: 'pointTakenUp', phrase: phraseOf(last), cell: last.cell });
}
