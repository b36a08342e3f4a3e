/** English for what an exercise is called, why it is there, and what can be wrong with one that was asked for. */
import type { ExerciseProblem, ExerciseReason, ExerciseTitle } from '../../exercise/index.ts';
import type { Sentences } from '../sentences.ts';

export const exerciseSentences: Sentences<ExerciseTitle | ExerciseReason | ExerciseProblem> = {
  'title-whole': ({ sticking }) => `The phrase as it stands: ${sticking}`,
  'title-cell-alone': ({ sticking }) => `The cell alone: ${sticking}`,
  'title-cell-space': ({ sticking }) => `The cell with space: ${sticking}`,
  'title-cell-beat': ({ sticking }) => `The cell on the beat: ${sticking}`,
  'title-cell-bar': ({ cell, bars }) => `The cell once ${bars === 1 ? 'a bar' : `every ${bars} bars`}: ${cell}, then rest`,
  'title-inversion': ({ sticking, stroke }) => `Start on stroke ${stroke}: ${sticking}`,

  'reason-whole': ({ cell }) => `Put ${cell} back where it came from and listen whether it now sits in the phrase.`,
  'reason-cell-alone': ({ cell, strokeCount }) =>
    strokeCount === 1
      ? `Only ${cell}, over and over: nothing else to think about, so every stroke can be heard against the one before.`
      : `Only ${cell}, over and over without a rest: if it is uneven here too, the trouble is in these strokes and not in the way into them.`,
  'reason-phrase': () => 'The phrase itself, to hear where it stands now.',
  'reason-cell-space': ({ cell }) => `${cell}, then a rest as long: time to hear what was just played and to set up the next.`,
  'reason-cell-beat': ({ cell, beats }) =>
    beats === 1
      ? `${cell} begins on every beat, so the click tells at once where its first stroke lands.`
      : `${cell} begins on the beat, every ${beats} beats.`,
  'reason-cell-bar': ({ cell, bars }) =>
    `${cell} once ${bars === 1 ? 'a bar' : `every ${bars} bars`}, always on 1, cold: nothing before it helps, and the time until the next is there to get ready.`,
  'reason-inversion': (params) => `${placed(params)}${join(params.from, params.joinRun, params.joinLimb)}`,

  'surfaces-count': ({ strokeCount, surfaceCount }) =>
    `The sticking has ${strokeCount} strokes, but ${surfaceCount} ${surfaceCount === 1 ? 'drum is' : 'drums are'} named. Name one for each stroke, or one per limb: R=ride L=snare.`,
  'surfaces-limb': ({ limb }) => `${limb} does not say which limb plays which drum. Write it as R=ride, with R, L, K or H before the =.`,
  'cell-outside': ({ first, last, strokeCount }) =>
    `The cell ${first + 1}-${last + 1} reaches outside the sticking, which has ${strokeCount} ${strokeCount === 1 ? 'stroke' : 'strokes'}. Choose from 1 to ${strokeCount}.`,
  'per-beat-range': ({ perBeat, limit }) =>
    `${perBeat} slots per beat cannot be counted. Choose a whole number from 1 to ${limit}: 2 for eighths, 3 for triplets, 4 for sixteenths.`,
};

type Inversion = Extract<ExerciseReason, { readonly code: 'reason-inversion' }>['params'];

function placed({ cell, place, perBeat, beginsOn, beganOn }: Inversion): string {
  if (place === 'first') return `${cell} opens the cycle, so it comes without a run-up the first time.`;
  if (place === 'last') return `${cell} closes the cycle and leads straight back into the start.`;
  if (place === 'across') return `${cell} is split: it begins at the end of the cycle and ends at its start, so the repeat falls inside it.`;
  if (beginsOn.join() === beganOn.join()) return 'Another stroke stands on 1, so the phrase is heard, and counted, from another side.';
  return `${cell} now begins on ${listed(beginsOn, perBeat)}; in the phrase as it stands, on ${listed(beganOn, perBeat)}.`;
}

/** Names of the places in a beat, as counted aloud. */
const COUNTED: Readonly<Record<number, readonly string[]>> = {
  2: ['the beat', 'the &'],
  3: ['the beat', 'the second triplet', 'the third triplet'],
  4: ['the beat', 'the e', 'the &', 'the a'],
};

function listed(slots: readonly number[], perBeat: number): string {
  if (slots.length === perBeat) return 'every place of the beat in turn';
  const names = slots.map((slot) => COUNTED[perBeat]?.[slot] ?? (slot === 0 ? 'the beat' : `place ${slot + 1} of the beat`));
  return names.length === 1 ? names[0]! : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

const LIMBS: Readonly<Record<string, string>> = { R: 'rights', L: 'lefts', K: 'kicks', H: 'hi-hat foot strokes' };
const COUNTS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight'];

/** What happens on the way from the phrase as given into this one. */
function join(from: string, run: number, limb: string): string {
  if (run === 0) return '';
  return ` Coming straight from ${from}, the join makes ${COUNTS[run] ?? run} ${LIMBS[limb]} in a row: leave a beat between, or take it on purpose.`;
}
