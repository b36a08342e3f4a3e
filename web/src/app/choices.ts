/** What the drummer kept, dropped and wrote, out of the diary, and what a shelf becomes by it. */
import type { ChoiceBody, DiaryView } from '@evenhand/core/diary';
import { contentId, type Exercise, ownExercise, readContent, stickingOfContent } from '@evenhand/core/exercise';
import type { Problem } from '@evenhand/core/problem';
import { readSticking } from '@evenhand/core/sticking';
import { contentOf, type Phrase, readingOf } from './phrase.ts';
import { say } from './said.ts';
import { exerciseOfSaved } from './savedplan.ts';

/** How an exercise stands with the drummer. */
export type Stands = ChoiceBody['is'];

/** What was said of the exercises of a phrase, each list in the order in which it was said. */
export interface Choices {
  /** Ids of all that were kept or dropped, on whichever shelf. */
  readonly stands: ReadonlyMap<string, Stands>;
  /** Those that come first on this shelf: kept ones, then the drummer's own. */
  readonly first: readonly Exercise[];
  /** Dropped from this shelf. */
  readonly dropped: readonly Exercise[];
  /** Ids of the drummer's own. */
  readonly own: ReadonlySet<string>;
}

export const NO_CHOICES: Choices = { stands: new Map(), first: [], dropped: [], own: new Set() };

/** The choices of a diary for the shelf of a phrase; null: of no phrase. */
export function choicesOf({ choices }: Pick<DiaryView, 'choices'>, phraseId: string | null): Choices {
  const all = choices.map(({ body }) => body);
  const here = all.filter((body) => body.phraseId === phraseId);
  const those = (wanted: (body: ChoiceBody) => boolean) => here.filter(wanted).map(({ exercise }) => exerciseOfSaved(exercise));
  return {
    stands: new Map(all.map(({ exercise, is }) => [exercise.id, is])),
    first: [...those(({ is }) => is === 'kept'), ...those(({ is, own }) => own && is === 'open')],
    dropped: those(({ is }) => is === 'dropped'),
    own: new Set(all.filter(({ own }) => own).map(({ exercise }) => exercise.id)),
  };
}

/** A shelf by what was said: what was kept comes first, then what the drummer wrote; what was dropped does not come. Else the order stays. */
export function arranged(exercises: readonly Exercise[], { stands, first }: Choices): readonly Exercise[] {
  const ahead = new Set(first.map(({ id }) => id));
  const rest = exercises.filter(({ id }) => !ahead.has(id));
  const keptElsewhere = rest.filter(({ id }) => stands.get(id) === 'kept');
  return [...first, ...keptElsewhere, ...rest.filter(({ id }) => (stands.get(id) ?? 'open') === 'open')];
}

/** The id under which a phrase has its shelf; null while it does not read. */
export function shelfIdOf(phrase: Phrase): string | null {
  const sticking = readingOf(phrase).value;
  return sticking && contentId(contentOf(phrase, sticking));
}

/** An exercise as it is being written. */
export interface Writing {
  readonly title: string;
  readonly sticking: string;
  readonly perBeat: number;
  /** One name per stroke, or one per limb as `R=ride`. */
  readonly drums: string;
}

/** Where writing begins: with an exercise that is to be changed. */
export const writingOf = (exercise: Exercise): Writing => ({
  title: '',
  sticking: exercise.sticking,
  perBeat: exercise.perBeat,
  drums: drumsOf(exercise),
});

/** Drums as they are typed: one per limb where each limb stays on its drum, so that strokes can be added; else one per stroke. */
function drumsOf({ surfaces, ...content }: Exercise): string {
  const { strokes } = stickingOfContent({ surfaces, ...content });
  const byLimb = new Map(strokes.map(({ limb, index }) => [limb, surfaces[index]!]));
  const stays = strokes.every(({ limb, index }) => byLimb.get(limb) === surfaces[index]);
  return stays ? [...byLimb].map(([limb, drum]) => `${limb}=${drum}`).join(' ') : surfaces.join(' ');
}

/**
 * The exercise that was written; `problems` are of its drums and its subdivision, the field of the sticking shows its own.
 * @param from what it was made of; its kind and its meter stay.
 */
export function written(
  { title, sticking, perBeat, drums }: Writing,
  from: Exercise | null,
): { readonly value: Exercise | null; readonly problems: readonly Problem[] } {
  const read = readSticking(sticking).value;
  if (!read) return { value: null, problems: [] };
  const { value, problems } = readContent(read, { perBeat, surfaces: drums, ...(from && { meter: from.meter }) });
  if (!value) return { value: null, problems };
  return { value: ownExercise(value, title, from ? { family: from.family, from: say(from.title) } : {}), problems };
}
