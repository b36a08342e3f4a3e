/** From written text to a sticking, with problems that point at the character; the grammar is docs/formats/sticking.md. */
import type { Reading, Severity } from '../problem.ts';
import { meantAsSoft, problemsOfGraces } from './graces.ts';
import { SLOT_LIMIT } from './parameters.ts';
import type { Hand, Limb, Sticking, StickingProblem } from './sticking.ts';
import { isKnown, suggestionFor, type Token, tokensOf } from './tokens.ts';
import { type Core, type Event, type Part, slotCountOf, type Tree } from './tree.ts';
import { stickingOf } from './write.ts';

/**
 * Reads a sticking. Never throws.
 * @param text e.g. `RLRLKK`, `l>RLR r>LRL`, `{2:RLR} R+K -`; spaces only group.
 * @returns the sticking, or null with at least one refused problem; `at` is the offset of the character in the text.
 * @example readSticking('RLRRK').value.strokes.length // 5
 */
export function readSticking(text: string): Reading<Sticking, StickingProblem> {
  const { tree, problems } = parse(text);
  const refused = problems.some((problem) => problem.severity === 'refused');
  const value = refused ? null : stickingOf(tree);
  if (value?.text === text) TREES.set(value, tree);
  return { value, problems };
}

/** The tree of a text, and everything wrong with it. The tree holds what could be read. */
export function parse(text: string): { readonly tree: Tree; readonly problems: readonly StickingProblem[] } {
  const soft = meantAsSoft(text);
  if (soft?.severity === 'refused') return { tree: [], problems: [soft] };
  const reader = readerOf(text);
  const tree: Part[] = [];
  while (reader.next < reader.tokens.length) tree.push(...readPart(reader));
  const found = [...reader.problems, ...problemsOfWhole(text, tree, reader.problems.length > 0), ...(soft ? [soft] : [])];
  return { tree, problems: found.sort((a, b) => (a.at ?? 0) - (b.at ?? 0)) };
}

/** Trees looked at so far: a shelf begins the same phrase on every stroke, and its text says the same each time. */
const TREES = new WeakMap<Sticking, Tree>();

/** The tree a sticking was read from. */
export function treeOf(sticking: Sticking): Tree {
  const known = TREES.get(sticking);
  if (known) return known;
  const { tree } = parse(sticking.text);
  TREES.set(sticking, tree);
  return tree;
}

interface Reader {
  readonly tokens: readonly Token[];
  next: number;
  readonly problems: StickingProblem[];
}

/** A reader over the known characters; each unknown one is already told. */
function readerOf(text: string): Reader {
  const tokens = tokensOf(text);
  const known = tokens.filter(({ character }) => isKnown(character));
  const unknown = known.length === tokens.length ? [] : tokens.filter(({ character }) => !isKnown(character));
  const problems = unknown.map(({ character, at }): StickingProblem => {
    return { code: 'sticking-unknown-character', severity: 'refused', at, params: { character, suggestion: suggestionFor(character) } };
  });
  return { tokens: known, next: 0, problems };
}

const peek = (reader: Reader): string => reader.tokens[reader.next]?.character ?? '';

/** Takes the next character when it is this one. */
function accept(reader: Reader, character: string): Token | null {
  const token = reader.tokens[reader.next];
  if (token?.character !== character) return null;
  reader.next += 1;
  return token;
}

const stray = (token: Token): StickingProblem => ({
  code: 'sticking-stray',
  severity: 'refused',
  at: token.at,
  params: { character: token.character },
});

function unfinished(token: Token, missing: string): StickingProblem {
  return { code: 'sticking-unfinished', severity: 'refused', at: token.at, params: { found: token.character, missing } };
}

function readPart(reader: Reader): readonly Part[] {
  const open = accept(reader, '{');
  if (open) return [readGroup(reader, open)];
  return readEvent(reader).map((event): Part => ({ kind: 'event', slotCount: 1, events: [event], at: event.at }));
}

function readGroup(reader: Reader, open: Token): Part {
  const slotCount = readCount(reader, open);
  const events: Event[] = [];
  while (reader.next < reader.tokens.length && peek(reader) !== '}') events.push(...readEvent(reader));
  if (!accept(reader, '}')) reader.problems.push(unfinished(open, '}'));
  else if (events.length === 0) reader.problems.push({ code: 'sticking-group-empty', severity: 'refused', at: open.at, params: {} });
  return { kind: 'group', slotCount, events, at: open.at };
}

/** The count of a group and its colon. */
function readCount(reader: Reader, open: Token): number {
  let digits = '';
  while (/^\d$/.test(peek(reader))) digits += reader.tokens[reader.next++]?.character;
  const count = Number(digits);
  if (count < 1) {
    const found = digits || peek(reader);
    reader.problems.push({ code: 'sticking-group-count', severity: 'refused', at: open.at, params: { found } });
    accept(reader, ':');
  } else if (!accept(reader, ':')) {
    reader.problems.push(unfinished(open, ':'));
  }
  return Math.max(1, count);
}

/** One event, or none when a character had to be skipped. */
function readEvent(reader: Reader): readonly Event[] {
  const first = reader.tokens[reader.next]!;
  if (accept(reader, '-')) return [{ strokes: [], at: first.at }];
  const strokes = readStroke(reader);
  if (strokes.length === 0) return [];
  let plus = accept(reader, '+');
  while (plus) {
    strokes.push(...readStroke(reader, plus));
    plus = accept(reader, '+');
  }
  reader.problems.push(...sameLimbTwice(strokes));
  return [{ strokes, at: first.at }];
}

function sameLimbTwice(strokes: readonly Core[]): readonly StickingProblem[] {
  const twice = strokes.filter((stroke, i) => strokes.findIndex((other) => other.limb === stroke.limb) < i);
  return twice.map(({ limb, at }) => ({ code: 'sticking-same-limb-together', severity: 'refused', at, params: { limb } }));
}

/** Accent and graces in any order, then the letter. `sign` is the `+` that asks for it. */
function readStroke(reader: Reader, sign: Token | null = null): Core[] {
  const graces: Hand[] = [];
  let accent = false;
  let last = sign;
  while (isBeforeLetter(peek(reader))) {
    last = reader.tokens[reader.next++]!;
    if (last.character !== '>') graces.push(last.character === 'r' ? 'R' : 'L');
    else if (accent) reader.problems.push(stray(last));
    else accent = true;
  }
  const core = readCore(reader, last);
  return core.map((found) => ({ ...found, accent, graces }));
}

const isBeforeLetter = (character: string): boolean => character === '>' || character === 'r' || character === 'l';

type Bare = Omit<Core, 'accent' | 'graces'>;

function readCore(reader: Reader, sign: Token | null): readonly Bare[] {
  const open = accept(reader, '(');
  if (open) return readGhost(reader, open);
  const letter = readLimb(reader);
  if (!letter) return noLetter(reader, sign);
  const roll = accept(reader, '/') ? 'diddle' : accept(reader, 'z') ? 'buzz' : 'none';
  return [{ limb: letter.limb, at: letter.at, ghost: false, roll }];
}

function readGhost(reader: Reader, open: Token): readonly Bare[] {
  const letter = readLimb(reader);
  if (!letter) return noLetter(reader, open);
  if (!accept(reader, ')')) reader.problems.push(unfinished(open, ')'));
  return [{ ...letter, ghost: true, roll: 'none' }];
}

function readLimb(reader: Reader): { readonly limb: Limb; readonly at: number } | null {
  const token = reader.tokens[reader.next];
  if (!token || !isLimb(token.character)) return null;
  reader.next += 1;
  return { limb: token.character as Limb, at: token.at };
}

const isLimb = (character: string): boolean => character === 'R' || character === 'L' || character === 'K' || character === 'H';

/** A sign without its letter is unfinished; a character that begins nothing is stray and skipped. */
function noLetter(reader: Reader, sign: Token | null): readonly Bare[] {
  if (sign) reader.problems.push(unfinished(sign, 'stroke'));
  const token = reader.tokens[reader.next];
  if (token && !sign) {
    reader.problems.push(stray(token));
    reader.next += 1;
  }
  return [];
}

/** What only the whole sticking shows. */
function problemsOfWhole(text: string, tree: Tree, broken: boolean): readonly StickingProblem[] {
  const refused: Severity = 'refused';
  if (text.trim() === '') return [{ code: 'sticking-empty', severity: refused, at: 0, params: {} }];
  const slotCount = slotCountOf(tree);
  if (slotCount > SLOT_LIMIT) {
    return [{ code: 'sticking-too-long', severity: refused, at: placeOfSlot(tree, SLOT_LIMIT), params: { slotCount, limit: SLOT_LIMIT } }];
  }
  const silent = tree.every((part) => part.events.every((event) => event.strokes.length === 0));
  if (silent && !broken) return [{ code: 'sticking-no-stroke', severity: refused, at: 0, params: {} }];
  return problemsOfGraces(tree);
}

/** Offset of the part that crosses this slot. */
function placeOfSlot(tree: Tree, slot: number): number {
  let sum = 0;
  for (const part of tree) {
    sum += part.slotCount;
    if (sum > slot) return part.at;
  }
  return 0;
}
