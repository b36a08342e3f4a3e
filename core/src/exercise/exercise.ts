/** An exercise as data, and the strokes it expects in musical time. */
import type { Problem } from '../problem.ts';
import type { Rational } from '../rational.ts';
import type { Limb } from '../sticking/index.ts';
import type { ExerciseReason } from './reason.ts';
import type { ExerciseTitle } from './title.ts';

/** Kinds of exercise. */
export const FAMILIES = ['rudiment', 'pad', 'groove', 'fill', 'kit', 'dynamics', 'inversion', 'use'] as const;
export type Family = (typeof FAMILIES)[number];

/** A bar: `beats` beats, of which a whole note holds `unit`. 4/4 is { beats: 4, unit: 4 }. */
export interface Meter {
  readonly beats: number;
  readonly unit: number;
}

/** What is played: the part of an exercise that its id is made from. */
export interface ExerciseContent {
  /** Canonical sticking text. */
  readonly sticking: string;
  /** Drum of each main stroke, by index. */
  readonly surfaces: readonly string[];
  /** Slots per beat: 4 for sixteenths. */
  readonly perBeat: number;
  readonly meter: Meter;
}

/** An exercise: its content, where it belongs and why it is there. */
export interface Exercise extends ExerciseContent {
  /** Hash of the canonical content; the same content has the same id whatever its title, reason or maker. */
  readonly id: string;
  readonly family: Family;
  /** Bars until the cycle meets the bar line again. */
  readonly bars: number;
  readonly title: ExerciseTitle;
  readonly reason: ExerciseReason;
}

/** Exercises, best first, and how many there are in all. */
export interface Shelf {
  readonly total: number;
  readonly exercises: readonly Exercise[];
}

/** What an exercise is asked to work on; apps make it from findings, which this stage never sees. */
export interface Focus {
  /** First and last main stroke of the cell, from 0; it may wrap around the end of the cycle. */
  readonly cell: { readonly first: number; readonly last: number };
  /** How much each main stroke needs work, 0 to 1, by index. */
  readonly weights: readonly number[];
}

/** What is being rehearsed or played now: the piece of the week. */
export interface Piece {
  /** As the player wrote it. */
  readonly title: string;
  /** Where in it: `bridge`, `bar 17`; '' for anywhere. */
  readonly place: string;
  /** Its beats a minute. */
  readonly tempoBpm: number;
  /** Bars of the place, as of a loop; default eight, the usual part of a song. */
  readonly bars?: number;
  /** Whether there is a recording of it to play over; default false. */
  readonly recorded?: boolean;
}

/** One main stroke that a player is expected to play in a cycle. */
export interface ExpectedStroke {
  readonly index: number;
  readonly limb: Limb;
  readonly surface: string;
  /** Onset in beats from the start of the cycle. */
  readonly beat: Rational;
  readonly accent: boolean;
  readonly ghost: boolean;
  readonly buzz: boolean;
  readonly graceCount: number;
}

/** A cycle in musical time: what measurement matches a take against. */
export interface ExpectedCycle {
  readonly lengthBeats: Rational;
  readonly strokes: readonly ExpectedStroke[];
}

/** What can be wrong with an exercise that was asked for. Cells are counted from 0 here and from 1 in the sentence. */
export type ExerciseProblem =
  | Problem<'surfaces-count', { readonly strokeCount: number; readonly surfaceCount: number }>
  | Problem<'surfaces-limb', { readonly limb: string }>
  | Problem<'cell-outside', { readonly first: number; readonly last: number; readonly strokeCount: number }>
  | Problem<'per-beat-range', { readonly perBeat: number; readonly limit: number }>;
