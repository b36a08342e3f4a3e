/** The shelf: exercises of all families for a cell, best first, each saying why it is there. */
import { plainName } from '../kit/index.ts';
import { SLOT_LIMIT } from '../sticking/index.ts';
import { canonicalOf, contentId } from './content.ts';
import { dynamicsIdeas } from './dynamics.ts';
import type { ExerciseContent, Family, Focus, Piece, Shelf } from './exercise.ts';
import { fillIdeas } from './fill.ts';
import { grooveIdeas } from './groove.ts';
import { type History, withHistory } from './history.ts';
import { type Draft, draftOf, exerciseOf, type Idea } from './idea.ts';
import { inversionIdeas } from './inversion.ts';
import { hitsIn, isFoot, type Line, slotsOf, textOf } from './line.ts';
import { kitIdeas } from './orchestration.ts';
import { inTurn } from './order.ts';
import { padIdeas } from './pad.ts';
import { INNER_WAIT, SOFT_DRUM } from './parameters.ts';
import { type Phrase, phraseOf } from './phrase.ts';
import { burstOf, isPlayable, type PlayedAt, reachAt } from './playable.ts';
import { rudimentIdeas } from './rudiment.ts';
import { useIdeas } from './use.ts';

/** What may narrow the shelf. */
export interface ShelfOptions {
  /** Only these families; default all there are. */
  readonly families?: readonly Family[];
  /** At most so many; default all. `total` counts before the limit. */
  readonly limit?: number;
  /** Names of the drums at hand, pedals too; default any. Without a snare a pad stands for it. */
  readonly drums?: readonly string[];
  /** Hand on the cymbal where time is played around the phrase; default the right. */
  readonly cymbalHand?: 'R' | 'L';
  /** Side of the floor tom; default right. */
  readonly kitSide?: 'R' | 'L';
  /** Whether exercises may ask anything of the feet; default true. */
  readonly feet?: boolean;
  /** At what tempo, and what this player reaches so far; what lies beyond comes last, and is not left out. Default unknown. */
  readonly at?: PlayedAt;
  /** The piece of the week: the family *use* names it, with place and tempo. Default none. */
  readonly piece?: Piece;
  /** What was done lately, kept and dropped. */
  readonly history?: History;
}

/**
 * Exercises for a phrase and what to work on in it, the families interleaved as a teacher would come to them. No content is there twice, none is
 * longer than a sticking may be, and none asks of a limb what it cannot do.
 * @param content the phrase as it stands.
 * @param focus of `readFocus` or `defaultFocus`, or made from findings.
 */
export function exercisesFor(content: ExerciseContent, focus: Focus, options: ShelfOptions = {}): Shelf {
  const { families, drums, limit, feet = true, at, history, piece = null } = options;
  const phrase = phraseOf(content, focus, options);
  const asked = inTurn(ideasFor(phrase, piece)).filter(({ family, line }) => (!families || families.includes(family)) && (feet || withoutFeet(line)));
  const made = asked.map((idea) => draftOf(phrase, idea));
  const single = withoutDoubles(drums ? made.flatMap((draft) => onDrums(draft, drums.map(plainName))) : made);
  const known = history ? withHistory(single, ({ content: each }) => contentId(each), history) : single;
  const found = at ? withinReachFirst(phrase, known, { at, limit: limit ?? known.length }) : known;
  return { total: known.length, exercises: found.slice(0, limit).map(exerciseOf) };
}

const withoutFeet = (line: Line): boolean => hitsIn(line).every(({ limb }) => !isFoot(limb));

/** So many in the same order, but what lies beyond the reach at a tempo after all the rest; no more are looked at than have to be. */
function withinReachFirst(
  phrase: Phrase,
  drafts: readonly Draft[],
  { at, limit }: { readonly at: PlayedAt; readonly limit: number },
): readonly Draft[] {
  const { perBeat } = phrase.content;
  const reaches = reachAt({ line: phrase.line, perBeat }, at, phrase.kitSide);
  const [within, beyond]: [Draft[], Draft[]] = [[], []];
  for (const draft of drafts) {
    if (within.length >= limit) break;
    (reaches(draft.idea.line, draft.content.perBeat) ? within : beyond).push(draft);
  }
  return [...within, ...beyond];
}

/** Every idea that can be played, the phrase itself always. */
function ideasFor(phrase: Phrase, piece: Piece | null): readonly Idea[] {
  const inner = innerPhrase(phrase);
  const ofInner = inner ? ideasOf(inner, null).map((idea) => ({ ...idea, turn: idea.turn + INNER_WAIT })) : [];
  const run = burstOf(phrase.line);
  const can = ({ line, perBeat = phrase.content.perBeat }: Idea) => slotsOf(line) <= SLOT_LIMIT && isPlayable(line, perBeat, run);
  return [...ideasOf(phrase, piece), ...ofInner].filter((idea) => can(idea) || textOf(idea.line) === phrase.sticking.text);
}

/** The phrase with the first pair of one limb inside its cell as the cell; null where there is none, or nothing else in it. */
function innerPhrase(phrase: Phrase): Phrase | null {
  const { cell, content, shape, sticking } = phrase;
  const { length } = sticking.strokes;
  const first = cell.sticking.strokes.findIndex(({ limb }, i) => cell.sticking.strokes[i + 1]?.limb === limb);
  if (shape.pair !== null || first < 0) return null;
  const from = (cell.first + first) % length;
  const inner = phraseOf(content, { ...phrase.focus, cell: { first: from, last: (from + 1) % length } }, phrase);
  return inner.shape.pair === null ? null : inner;
}

function ideasOf(phrase: Phrase, piece: Piece | null): readonly Idea[] {
  return [
    ...padIdeas(phrase),
    ...rudimentIdeas(phrase),
    ...dynamicsIdeas(phrase),
    ...inversionIdeas(phrase),
    ...kitIdeas(phrase),
    ...grooveIdeas(phrase),
    ...fillIdeas(phrase),
    ...useIdeas(phrase, piece),
  ];
}

/** The exercise on drums at hand, a pad for the snare; none when one is missing. */
function onDrums(draft: Draft, drums: readonly string[]): readonly Draft[] {
  const padForSnare = !drums.includes('snare') && drums.includes('pad');
  const surfaces = draft.content.surfaces.map((drum) => (padForSnare && drum === 'snare' ? 'pad' : drum));
  if (!surfaces.every((drum) => drums.includes(drum) || drum === SOFT_DRUM)) return [];
  return [{ ...draft, content: { ...draft.content, surfaces } }];
}

/** Each content once, where it first stands. */
function withoutDoubles(drafts: readonly Draft[]): readonly Draft[] {
  const seen = new Set<string>();
  return drafts.filter(({ content }) => {
    const key = canonicalOf(content);
    return !seen.has(key) && seen.add(key);
  });
}
