/** An exercise as data, and the strokes it expects in musical time. */
import type { Problem, Statement } from '../problem.ts';
import type { Rational } from '../rational.ts';
import type { Limb } from '../sticking/index.ts';

/** Kinds of exercise. */
export type Family = 'rudiment' | 'pad' | 'groove' | 'fill' | 'kit' | 'dynamics' | 'inversion' | 'use';

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

/** What an exercise is called. Stickings are always printed; strokes are counted from 1. */
export type ExerciseTitle =
  | Statement<'title-whole', { readonly sticking: string }>
  | Statement<'title-cell-alone', { readonly sticking: string }>
  | Statement<'title-cell-space', { readonly sticking: string }>
  | Statement<'title-cell-beat', { readonly sticking: string }>
  | Statement<'title-cell-bar', { readonly cell: string; readonly bars: number }>
  | Statement<'title-inversion', { readonly sticking: string; readonly stroke: number }>;

/** Where the cell comes to stand in an inversion; 'inside' also when the cell is the whole phrase. */
export type CellPlace = 'first' | 'last' | 'across' | 'inside';

/** Why an exercise is there. */
export type ExerciseReason =
  | Statement<'reason-whole', { readonly cell: string }>
  /** The phrase itself, when the cell is all of it. */
  | Statement<'reason-phrase', Record<string, never>>
  | Statement<'reason-cell-alone', { readonly cell: string; readonly strokeCount: number }>
  | Statement<'reason-cell-space', { readonly cell: string }>
  | Statement<'reason-cell-beat', { readonly cell: string; readonly beats: number }>
  | Statement<'reason-cell-bar', { readonly cell: string; readonly bars: number }>
  | Statement<
      'reason-inversion',
      {
        readonly cell: string;
        readonly place: CellPlace;
        readonly perBeat: number;
        /** Places in the beat where the cell begins, in slots from the beat, ascending: here, and in the sticking as it was given. */
        readonly beginsOn: readonly number[];
        readonly beganOn: readonly number[];
        /** The sticking as it was given, which the player may come from. */
        readonly from: string;
        /** Strokes of one limb in a row where the given sticking runs into this one, or 0 when the join makes no longer run than is in it anyway. */
        readonly joinRun: number;
        /** The limb of that run, or ''. */
        readonly joinLimb: string;
      }
    >;

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
