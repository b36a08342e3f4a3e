/** One musical idea, and the exercise it becomes. */
import { barsUntilMet, contentId } from './content.ts';
import type { Exercise, ExerciseContent, Family, Meter } from './exercise.ts';
import { type Line, slotsOf, surfacesOf, textOf } from './line.ts';
import type { Phrase } from './phrase.ts';
import type { ExerciseReason } from './reason.ts';
import type { ExerciseTitle } from './title.ts';

/** What a family gives for a phrase. */
export interface Idea {
  readonly family: Family;
  readonly line: Line;
  /** Default the phrase's. */
  readonly perBeat?: number;
  /** Default the phrase's. */
  readonly meter?: Meter;
  readonly title: ExerciseTitle;
  readonly reason: ExerciseReason;
  /** When a teacher would come to it: 0 first, 100 for what is only there on asking. */
  readonly turn: number;
}

/** An idea as content, before its id is made. */
export interface Draft {
  readonly content: ExerciseContent;
  readonly slotCount: number;
  readonly idea: Idea;
}

/** The content of an idea. */
export function draftOf({ content }: Phrase, idea: Idea): Draft {
  const { line, perBeat = content.perBeat, meter = content.meter } = idea;
  return { content: { sticking: textOf(line), surfaces: surfacesOf(line), perBeat, meter }, slotCount: slotsOf(line), idea };
}

/** The exercise of a draft. */
export function exerciseOf({ content, slotCount, idea }: Draft): Exercise {
  const { family, title, reason } = idea;
  const bars = barsUntilMet(slotCount, content.perBeat, content.meter);
  return { ...content, id: contentId(content), family, bars, title, reason };
}
