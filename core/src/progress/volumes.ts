/** Mean volumes of two reference takes beside each other: the step inside each double, and each place against the others on its drum. */
import { volumeWord } from '../finding/index.ts';
import type { Limb } from '../sticking/index.ts';
import type { StepStatement } from './said.ts';
import type { ReferenceTake } from './thenandnow.ts';

/** A mean volume then and now, dB; null where there is none. It has no interval, so nothing about chance is claimed. */
export interface MeanVolume {
  readonly thenDb: number | null;
  readonly nowDb: number | null;
}

/** The second stroke of a double against its first; below 0 softer. */
export interface StepVolume extends MeanVolume {
  readonly first: number;
  readonly second: number;
  readonly limb: Limb;
}

/** A place against the mean of all strokes on its drum; null where its drum has no other place. */
export interface PlaceVolume extends MeanVolume {
  readonly index: number;
  readonly limb: Limb;
}

export interface VolumesThenAndNow {
  readonly steps: readonly StepVolume[];
  readonly places: readonly PlaceVolume[];
  /** The steps in words: those that were or are not alike. */
  readonly said: readonly StepStatement[];
}

/** Sets the mean volumes of two takes of the same sticking side by side. Places and doubles that only one of them has are left out. */
export function volumesThenAndNow(then: ReferenceTake, now: ReferenceTake): VolumesThenAndNow {
  const steps = then.measurement.pairs.flatMap(({ first, second, limb, levelStepDb }) => {
    const after = now.measurement.pairs.find((pair) => pair.first === first && pair.second === second);
    return after ? [{ first, second, limb, thenDb: levelStepDb, nowDb: after.levelStepDb }] : [];
  });
  const places = then.measurement.places.flatMap(({ index, limb }) => {
    if (!now.measurement.places.some((place) => place.index === index)) return [];
    return [{ index, limb, thenDb: againstDrum(then, index), nowDb: againstDrum(now, index) }];
  });
  return { steps, places, said: steps.flatMap(sayStep) };
}

function sayStep({ first, second, limb, thenDb, nowDb }: StepVolume): readonly StepStatement[] {
  if (thenDb === null || nowDb === null) return [];
  const [was, is] = [volumeWord(thenDb), volumeWord(nowDb)];
  return was === 'alike' && is === 'alike' ? [] : [{ code: 'progress-step', params: { first, second, limb, was, is } }];
}

function againstDrum({ measurement, drums }: ReferenceTake, index: number): number | null {
  const onDrum = measurement.places.filter((place) => drums[place.index] === drums[index] && place.levelDb !== null && place.count > 0);
  const own = onDrum.find((place) => place.index === index);
  if (!own || onDrum.length < 2) return null;
  const count = onDrum.reduce((sum, place) => sum + place.count, 0);
  return own.levelDb! - onDrum.reduce((sum, place) => sum + place.count * place.levelDb!, 0) / count;
}
