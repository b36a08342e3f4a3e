/** The figures behind a finding, as a table for people. */
import { comes, comesOf } from '@evenhand/adapters/report';
import { type ExerciseContent, expectedCycle } from '@evenhand/core/exercise';
import { type Finding, spacesMs } from '@evenhand/core/finding';
import type { Measurement, Place } from '@evenhand/core/measurement';
import type { Statement } from '@evenhand/core/problem';
import { limbNames, say } from '@evenhand/core/words';
import type { Hearing } from './hearing.ts';
import { table } from './table.ts';

/** The sentences, the likeliest first; under it what it cannot be told from, what is not ruled out, and what it fits. */
export function findingLines(findings: readonly Finding[]): string[] {
  const [first, ...others] = findings;
  if (!first) return [];
  const names = (causes: readonly Statement[]) => causes.map((cause) => say(cause)).join('; ');
  const { ties = [], rivals = [], fits = [] } = first;
  return [
    say(first),
    ...(ties.length > 0 ? [`    This take cannot tell it from: ${names(ties)}.`] : []),
    ...(rivals.length > 0 ? [`    Not ruled out: ${names(rivals)}.`] : []),
    ...fits.map((fit) => `    ${say(fit)}`),
    ...others.map((finding) => say(finding)),
  ];
}

/**
 * One row per stroke of the sticking.
 * @param phrase what was to be played.
 * @param levelsFrom what the volumes were read from.
 */
export function placesTable(measurement: Measurement, phrase: ExerciseContent, levelsFrom: Hearing['levelsFrom']): string[] {
  const spaces = spacesMs(measurement, expectedCycle(phrase));
  return table([
    ['stroke', 'limb', 'drum', 'played', 'comes', 'varies', volumeHeading(levelsFrom)],
    ...measurement.places.map((place) => [
      String(place.index + 1),
      limbNames[place.limb],
      phrase.surfaces[place.index] ?? '',
      playedOf(place, measurement),
      say(comes(comesOf(place), spaces[place.index]!)),
      place.spreadMs === null ? '' : `±${place.spreadMs.toFixed(0)} ms`,
      place.levelDb === null ? '' : `${place.levelDb.toFixed(1)} dB`,
    ]),
  ]);
}

/** Volumes that a kit wrote down as velocities are called so. */
export const volumeHeading = (levelsFrom: Hearing['levelsFrom']): string => (levelsFrom === 'sound' ? 'volume' : 'volume, from velocity');

function playedOf({ index, missed, notAudible }: Place, { strokes }: Measurement): string {
  const count = strokes.filter((stroke) => stroke.index === index).length;
  const unheard = [missed > 0 ? `${missed} missed` : '', notAudible > 0 ? `${notAudible} not heard` : ''].filter((words) => words !== '');
  return [`${count - missed - notAudible} of ${count}`, ...unheard].join(', ');
}
