/** One phrase over its tempi, as the diary has it. */
import type { DiaryView } from '@evenhand/core/diary';
import { expectedCycle } from '@evenhand/core/exercise';
import { type TempoZoneStatement, tempoZones } from '@evenhand/core/finding';
import { blocksOf, measurementOfHeard } from '@evenhand/core/progress';
import { SHAPES } from './phrase.ts';

/** So many findings over tempi are told. Assumption: more are not listened to. */
const MOST_ZONES = 2;

/** It takes a third of a second after years, and a view of the diary never changes. */
const known = new WeakMap<DiaryView, readonly TempoZoneStatement[]>();

/** Where in tempo something shows, over all sittings: of the exercise heard last that was played at several tempi, the latest take at each. */
export function zonesOverDays(diary: DiaryView): readonly TempoZoneStatement[] {
  const zones = known.get(diary) ?? zonesOf(diary);
  known.set(diary, zones);
  return zones;
}

function zonesOf(diary: DiaryView): readonly TempoZoneStatement[] {
  const heard = [...blocksOf(diary)].reverse().filter(({ body }) => body.heard !== null);
  const shapes = SHAPES.filter((shape) => diary.stickingPoints.at(-1)?.body.shapes?.includes(shape));
  for (const { body } of heard) {
    const same = heard.filter((other) => other.body.exercise.id === body.exercise.id);
    const atEach = same.filter((one, k) => same.findIndex((other) => other.body.tempoBpm === one.body.tempoBpm) === k);
    if (atEach.length < 2) continue;
    const cycle = expectedCycle(body.exercise);
    const takes = atEach.map((one) => ({ measurement: { ...measurementOfHeard(one.body.heard!, one.body.tempoBpm), strokes: [] }, cycle }));
    return tempoZones(takes, { perBeat: body.exercise.perBeat, shapes }).slice(0, MOST_ZONES);
  }
  return [];
}
