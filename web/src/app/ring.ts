/** Where the drummer is on the way round, as one pure state: phrase, take, what was heard, cell, shelf, session. */
import type { Exercise } from '@evenhand/core/exercise';
import type { Probe } from '@evenhand/core/finding';
import type { Problem } from '@evenhand/core/problem';
import type { Clicking } from './clickchoice.ts';
import type { HeardPhrase } from './heardphrase.ts';
import { emptyPhrase, type Phrase } from './phrase.ts';

export type Screen = 'welcome' | 'phrase' | 'heard' | 'shelf' | 'plan' | 'session' | 'diary' | 'progress';

/** First and last main stroke to work on, from 0; it may wrap around the end of the cycle. */
export interface Cell {
  readonly first: number;
  readonly last: number;
}

/** Whether a stroke lies in a cell; a cell that ends before it begins wraps around. */
export const inCell = (cell: Cell, index: number): boolean =>
  cell.first <= cell.last ? index >= cell.first && index <= cell.last : index >= cell.first || index <= cell.last;

/** What is going on with the take of the phrase. */
export type TakeStage =
  | { readonly at: 'idle' }
  | { readonly at: 'opening' }
  | { readonly at: 'recording'; readonly withClick: boolean }
  | { readonly at: 'listening' }
  | { readonly at: 'reading' };

/** One exercise that was taken from the shelf. */
export interface Chosen {
  readonly id: string;
  readonly minutes: number;
  /** How it is clicked; every beat unless said. */
  readonly clicking?: Clicking;
}

/** Tempi that came out of earlier sessions, by exercise. */
export type KnownTempi = Readonly<Record<string, number>>;

export interface Shelf {
  readonly exercises: readonly Exercise[];
  readonly problems: readonly Problem[];
  readonly chosen: readonly Chosen[];
  /** Where an exercise starts that has no tempo of its own yet. */
  readonly tempoBpm: number;
  readonly knownTempi: KnownTempi;
}

/** What lies on the shelf when it is filled. */
export type ShelfFilling = Pick<Shelf, 'exercises' | 'problems' | 'tempoBpm' | 'knownTempi'>;

/** Tempo at which an exercise starts: the one that came out last time, else the shelf's. */
export const startTempoBpm = (shelf: Shelf, id: string): number => shelf.knownTempi[id] ?? shelf.tempoBpm;

export interface Ring {
  readonly screen: Screen;
  readonly phrase: Phrase;
  readonly take: TakeStage;
  /** Why the last take gave nothing, or what is wrong with the device. */
  readonly takeProblems: readonly Problem[];
  readonly heard: HeardPhrase | null;
  /** The probe that is being played: the next take is held against it and not against the phrase. */
  readonly probe: Probe | null;
  /** Null until there is something to propose. */
  readonly cell: Cell | null;
  readonly shelf: 'filling' | Shelf | null;
}

/** Blocks of a first session. @source [JobBrief] three times three minutes of work. */
export const BLOCKS_AT_MOST = 3;
export const BLOCK_MINUTES = 3;

/** So many takes of a phrase are held against each other. Assumption. */
const MOST_TEMPI = 8;

export type RingEvent =
  | { readonly kind: 'went'; readonly screen: Screen }
  | { readonly kind: 'phraseEdited'; readonly change: Partial<Phrase> }
  | { readonly kind: 'takeMoved'; readonly take: TakeStage }
  | { readonly kind: 'takeFailed'; readonly problems: readonly Problem[] }
  | { readonly kind: 'takeHeard'; readonly heard: HeardPhrase }
  | { readonly kind: 'probeAsked'; readonly probe: Probe | null }
  /** The take with the probe in it, judged anew. */
  | { readonly kind: 'probeHeard'; readonly heard: HeardPhrase }
  /** What was heard, judged against another shape. */
  | { readonly kind: 'judgedAnew'; readonly heard: HeardPhrase }
  | { readonly kind: 'ownWordGiven'; readonly strokeCount: number }
  | { readonly kind: 'cellChosen'; readonly cell: Cell }
  | { readonly kind: 'shelfAsked' }
  | { readonly kind: 'pointTakenUp'; readonly phrase: Phrase; readonly cell: Cell | null }
  | ({ readonly kind: 'shelfFilled' } & ShelfFilling)
  | { readonly kind: 'shelfGrown'; readonly exercises: readonly Exercise[] }
  | { readonly kind: 'exerciseToggled'; readonly id: string }
  /** Beside another one, or at the head; one that lies there stays where it is. */
  | { readonly kind: 'exerciseLaid'; readonly exercise: Exercise; readonly beside: string | null }
  /** It is no more in the session; the shelf shows it as dropped until it is laid out anew. */
  | { readonly kind: 'exerciseDropped'; readonly id: string }
  | { readonly kind: 'tempoChosen'; readonly tempoBpm: number }
  | { readonly kind: 'minutesChosen'; readonly id: string; readonly minutes: number }
  | { readonly kind: 'clickChosen'; readonly id: string; readonly clicking: Clicking };

export const newRing = (screen: Screen, phrase: Phrase = emptyPhrase): Ring => ({
  screen,
  phrase,
  take: { at: 'idle' },
  takeProblems: [],
  heard: null,
  probe: null,
  cell: null,
  shelf: null,
});

/** One event; events that mean nothing now change nothing. */
export function turnRing(ring: Ring, event: RingEvent): Ring {
  switch (event.kind) {
    case 'went':
      return { ...ring, screen: event.screen, probe: ring.take.at === 'idle' ? null : ring.probe };
    case 'phraseEdited':
      return editPhrase(ring, event.change);
    case 'takeMoved':
      return { ...ring, take: event.take, takeProblems: event.take.at === 'opening' || event.take.at === 'reading' ? [] : ring.takeProblems };
    case 'takeFailed':
      return { ...ring, take: { at: 'idle' }, takeProblems: event.problems };
    case 'takeHeard':
      return hear(ring, event.heard);
    case 'probeAsked':
      return { ...ring, probe: event.probe, takeProblems: [] };
    case 'probeHeard':
      return hearProbe(ring, event.heard);
    case 'judgedAnew':
      return { ...ring, heard: event.heard, cell: event.heard.cell, shelf: null };
    case 'ownWordGiven':
      return { ...ring, screen: 'heard', heard: null, shelf: null, cell: ring.cell ?? { first: 0, last: Math.max(0, event.strokeCount - 1) } };
    case 'cellChosen':
      return { ...ring, cell: event.cell, shelf: null };
    case 'shelfAsked':
      return { ...ring, shelf: ring.shelf ?? 'filling' };
    case 'pointTakenUp':
      return { ...newRing(ring.screen, event.phrase), cell: event.cell };
    case 'shelfFilled':
      return { ...ring, shelf: newShelf(event) };
    default:
      return onShelf(ring, event);
  }
}

/** Another sticking, subdivision or drum is another phrase: what was heard of the old one goes; a new tempo changes nothing heard. */
function editPhrase(ring: Ring, change: Partial<Phrase>): Ring {
  const phrase = { ...ring.phrase, ...change };
  const same = phrase.sticking === ring.phrase.sticking && phrase.perBeat === ring.phrase.perBeat && phrase.drums === ring.phrase.drums;
  return same ? { ...ring, phrase } : { ...ring, phrase, heard: null, cell: null, shelf: null, takeProblems: [] };
}

/** Another sticking forgets what was heard, so what is still there is of the same phrase. */
function hear(ring: Ring, taken: HeardPhrase): Ring {
  const heard = ring.heard ? { ...taken, earlier: [...(ring.heard.earlier ?? []), ring.heard.measurement].slice(-MOST_TEMPI) } : taken;
  return { ...ring, screen: 'heard', take: { at: 'idle' }, takeProblems: [], probe: null, heard, cell: heard.cell, shelf: null };
}

/** The sentence is renewed and the cell proposed anew; the drummer stays where they are. */
function hearProbe(ring: Ring, heard: HeardPhrase): Ring {
  if (!ring.heard || !ring.probe) return { ...ring, take: { at: 'idle' }, probe: null };
  return { ...ring, take: { at: 'idle' }, takeProblems: [], probe: null, heard, cell: heard.cell, shelf: null };
}

function newShelf({ exercises, problems, tempoBpm, knownTempi }: ShelfFilling): Shelf {
  const chosen = exercises.slice(0, BLOCKS_AT_MOST).map(({ id }) => ({ id, minutes: BLOCK_MINUTES }));
  return { exercises, problems, chosen, tempoBpm, knownTempi };
}

type ShelfEvent = Extract<
  RingEvent,
  { kind: 'shelfGrown' | 'exerciseToggled' | 'exerciseLaid' | 'exerciseDropped' | 'tempoChosen' | 'minutesChosen' | 'clickChosen' }
>;

function onShelf(ring: Ring, event: ShelfEvent): Ring {
  if (!ring.shelf || ring.shelf === 'filling') return ring;
  const { shelf } = ring;
  switch (event.kind) {
    case 'shelfGrown':
      return { ...ring, shelf: { ...shelf, exercises: [...shelf.exercises, ...event.exercises] } };
    case 'exerciseToggled':
      return { ...ring, shelf: { ...shelf, chosen: toggle(shelf.chosen, event.id) } };
    case 'exerciseLaid':
      return { ...ring, shelf: { ...shelf, exercises: withLaid(shelf.exercises, event) } };
    case 'exerciseDropped':
      return { ...ring, shelf: { ...shelf, chosen: shelf.chosen.filter(({ id }) => id !== event.id) } };
    case 'tempoChosen':
      return { ...ring, shelf: { ...shelf, tempoBpm: event.tempoBpm } };
    case 'minutesChosen':
      return { ...ring, shelf: { ...shelf, chosen: shelf.chosen.map((c) => (c.id === event.id ? { ...c, minutes: event.minutes } : c)) } };
    case 'clickChosen':
      return { ...ring, shelf: { ...shelf, chosen: shelf.chosen.map((c) => (c.id === event.id ? { ...c, clicking: event.clicking } : c)) } };
  }
}

function withLaid(all: readonly Exercise[], { exercise, beside }: Pick<Extract<RingEvent, { kind: 'exerciseLaid' }>, 'exercise' | 'beside'>) {
  if (all.some(({ id }) => id === exercise.id)) return all;
  const at = all.findIndex(({ id }) => id === beside) + 1;
  return [...all.slice(0, at), exercise, ...all.slice(at)];
}

function toggle(chosen: readonly Chosen[], id: string): readonly Chosen[] {
  if (chosen.some((c) => c.id === id)) return chosen.filter((c) => c.id !== id);
  return chosen.length < BLOCKS_AT_MOST ? [...chosen, { id, minutes: BLOCK_MINUTES }] : chosen;
}
