/** One phrase over its tempi, as the diary has it. */
import type { DiaryView, SavedExercise } from '@evenhand/core/diary';
import { type Exercise, expectedCycle } from '@evenhand/core/exercise';
import { type TempoZoneStatement, tempoZones } from '@evenhand/core/finding';
import { blocksOf, isPhraseItself, measurementOfHeard } from '@evenhand/core/progress';
import { SHAPES } from './phrase.ts';

/** So many findings over tempi are told. Assumption: more are not listened to. */
const MOST_ZONES = 2;

/** What one exercise shows over its tempi. */
export interface ZonesOf {
  readonly exercise: SavedExercise;
  /** Likeliest first; empty where nothing shows. */
  readonly zones: readonly TempoZoneStatement[];
}

/** It takes a third of a second after years, and a view of the diary never changes. */
const known = new WeakMap<DiaryView, ZonesOf | null>();

/**
 * Where in tempo something shows, over all sittings: of the phrase heard last that was played at several tempi, else of such an exercise, the latest
 * block at each; null where there is none.
 */
export function zonesOverDays(diary: DiaryView): ZonesOf | null {
  const before = known.get(diary);
  const zones = before === undefined ? zonesOf(diary) : before;
  known.set(diary, zones);
  return zones;
}

function zonesOf(diary: DiaryView): ZonesOf | null {
  const heard = [...blocksOf(diary)].reverse().filter(({ body }) => body.heard !== null);
  const isPhrase = ({ body }: (typeof heard)[number]) => diary.stickingPoints.some((point) => isPhraseItself(body.exercise as Exercise, point.body));
  const phrases = heard.filter(isPhrase);
  const shapes = SHAPES.filter((shape) => diary.stickingPoints.at(-1)?.body.shapes?.includes(shape));
  for (const { body } of [...phrases, ...heard]) {
    const same = heard.filter((other) => other.body.exercise.id === body.exercise.id);
    const atEach = same.filter((one, k) => same.findIndex((other) => other.body.tempoBpm === one.body.tempoBpm) === k);
    if (atEach.length < 2) continue;
    const cycle = expectedCycle(body.exercise);
    const takes = atEach.map((one) => ({ measurement: { ...measurementOfHeard(one.body.heard!, one.body.tempoBpm), strokes: [] }, cycle }));
    return { exercise: body.exercise, zones: tempoZones(takes, { perBeat: body.exercise.perBeat, shapes }).slice(0, MOST_ZONES) };
  }
  return null;
}
