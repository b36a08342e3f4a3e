/** What lies beyond the written shelf: every beginning, accent and drum of a phrase with each other, thousands of them, made one by one when they are asked for. */
import { choices } from './dynamics.ts';
import type { Exercise, ExerciseContent, Focus } from './exercise.ts';
import { draftOf, exerciseOf, type Idea } from './idea.ts';
import { accented, hitsIn, isFoot, type Line, mapHits, slotsOf, textOf, windowOf } from './line.ts';
import { BEYOND_DRUMS } from './parameters.ts';
import { type Phrase, phraseOf, type Sides } from './phrase.ts';

/** One way to vary the phrase. */
interface Way {
  readonly start: number;
  readonly accents: readonly number[];
  readonly right: string;
  readonly left: string;
}

/**
 * Variations of a phrase, one new thing first, then two at once, then three: begun on another stroke, accents on one stroke or more, hands on
 * other drums. No content twice. Nothing is made before it is asked for.
 * @param known ids that are not to come, as those of the shelf.
 */
export function* exercisesBeyond(
  content: ExerciseContent,
  focus: Focus,
  options: Sides & { readonly known?: ReadonlySet<string> } = {},
): Generator<Exercise, void> {
  const phrase = phraseOf(content, focus, options);
  const seen = new Set(options.known);
  for (const way of waysOf(phrase)) {
    const exercise = exerciseOf(draftOf(phrase, ideaOf(phrase, way)));
    if (seen.has(exercise.id)) continue;
    seen.add(exercise.id);
    yield exercise;
  }
}

/** Every way, by how many things are new at once. */
function* waysOf(phrase: Phrase): Generator<Way, void> {
  for (const count of [1, 2, 3]) yield* waysWith(phrase, count);
}

/** Ways with so many new things. */
function* waysWith(phrase: Phrase, count: number): Generator<Way, void> {
  const strokes = hitsIn(phrase.line).length;
  for (const start of phrase.starts) {
    for (const { right, left } of drumPairs(phrase)) {
      const news = Number(start !== 0) + Number(right !== '' || left !== '');
      if (news === count) yield { start, accents: [], right, left };
      if (news !== count - 1) continue;
      for (let size = 1; size < strokes; size++) for (const accents of choices(strokes, size)) yield { start, accents, right, left };
    }
  }
}

/** Drums for the hands, '' where a hand stays on its own. */
function drumPairs(phrase: Phrase): readonly { readonly right: string; readonly left: string }[] {
  const ways = (hand: 'R' | 'L') => (hitsIn(phrase.line).some(({ limb }) => limb === hand) ? ['', ...BEYOND_DRUMS] : ['']);
  return ways('R').flatMap((right) => ways('L').map((left) => ({ right, left })));
}

function ideaOf(phrase: Phrase, { start, accents, right, left }: Way): Idea {
  const turned = windowOf(phrase.line, start, slotsOf(phrase.line));
  const onDrums: Line = mapHits(turned, (each) => {
    const drum = isFoot(each.limb) ? '' : each.limb === 'R' ? right : left;
    return drum === '' ? each : { ...each, drums: each.drums.map(() => drum) };
  });
  const line = accents.length === 0 ? onDrums : mapHits(onDrums, (each, at) => accented(each, accents.includes(at)));
  const params = { sticking: textOf(line), begun: start !== 0, accentCount: accents.length, right, left };
  const family = accents.length > 0 ? 'dynamics' : right + left !== '' ? 'kit' : 'inversion';
  return { family, line, turn: 100, title: { code: 'title-varied', params }, reason: { code: 'reason-varied', params } };
}
