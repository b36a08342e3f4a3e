/** Any exercises for a phrase in an order: within reach before beyond it, one new thing before two, as they came otherwise. */
import type { Sticking } from '../sticking/index.ts';
import { stickingOfContent } from './content.ts';
import type { ExerciseContent } from './exercise.ts';
import { loopOf, type PlayedAt, reachFor } from './playable.ts';

/** Who plays, on what. */
export interface RankedFor extends PlayedAt {
  /** Side of the floor tom; default right. */
  readonly side?: 'R' | 'L';
}

/** Exercises ranked for a phrase. @param all in an order that is kept among equals. */
export function ranked<Each extends ExerciseContent>(phrase: ExerciseContent, all: readonly Each[], options: RankedFor): readonly Each[] {
  const { tempoBpm, reach, side } = options;
  const own = lookOf(phrase, stickingOfContent(phrase));
  const reaches = reachFor(loopOf(phrase, stickingOfContent(phrase), tempoBpm), reach, side);
  // Many candidates are one sticking on other drums: each is read once.
  const known = new Map<string, Sticking>();
  const rows = all.map((each) => {
    const sticking = known.get(each.sticking) ?? stickingOfContent(each);
    known.set(each.sticking, sticking);
    const { strokes, lengthSec } = loopOf(each, sticking, tempoBpm);
    return { each, cost: newBeside(own, lookOf(each, sticking)) + (reaches(strokes, lengthSec) ? 0 : BEYOND) };
  });
  return rows.sort((a, b) => a.cost - b.cost).map(({ each }) => each);
}

/** More than there can be new things. */
const BEYOND = 16;

/**
 * How many things a content has that the phrase has not: drums, limbs, accents or ghosts in other places, another note value, another meter,
 * another length, other strokes in the same length (begun elsewhere, or the other hand).
 */
export const newThings = (phrase: ExerciseContent, other: ExerciseContent): number =>
  newBeside(lookOf(phrase, stickingOfContent(phrase)), lookOf(other, stickingOfContent(other)));

/** What can be new in a content. */
interface Look {
  readonly content: ExerciseContent;
  readonly slotCount: number;
  readonly letters: string;
  /** Accents and ghosts, '' where there are none. */
  readonly volumes: string;
}

function lookOf(content: ExerciseContent, { strokes, slotCount }: Sticking): Look {
  const volumes = strokes.map(({ accent, ghost }) => (accent ? '>' : ghost ? '(' : '-')).join('');
  return { content, slotCount, letters: strokes.map(({ limb }) => limb).join(''), volumes: /[>(]/.test(volumes) ? volumes : '' };
}

function newBeside(own: Look, its: Look): number {
  const { surfaces, perBeat, meter } = own.content;
  const news = [
    its.content.surfaces.some((drum) => !surfaces.includes(drum)),
    Array.from(its.letters).some((limb) => !own.letters.includes(limb)),
    own.volumes !== its.volumes,
    its.content.perBeat !== perBeat,
    its.content.meter.beats !== meter.beats || its.content.meter.unit !== meter.unit,
    its.slotCount !== own.slotCount,
    its.slotCount === own.slotCount && own.letters !== its.letters,
  ];
  return news.filter(Boolean).length;
}
