/** Sentences and tempi as this player calls note values. It is set when the diary is read, and the frame draws all screens anew when it changes. */
import type { Statement } from '@evenhand/core/problem';
import {
  firstEnglish,
  type Language,
  type NoteNames,
  noteNamesOf,
  noteValue,
  type SentenceTable,
  sayFrom,
  tempoName as tempoIn,
} from '@evenhand/core/words';

let language: Language = 'en';
/** Those of the first screens, until all of them are fetched with the whole desk. */
let sentences: SentenceTable = firstEnglish;

/** From now on note values go by these names. */
export function speakAs(noteNames: NoteNames): void {
  language = noteNames === 'british' ? 'en-GB' : 'en';
}

/** From now on these sentences are there to be said. */
export function speakFrom(table: SentenceTable): void {
  sentences = table;
}

/** For pictures, which say things themselves. */
export const spoken = (): Language => language;

/** The sentence for a statement. */
export const say = (statement: Statement): string => sayFrom(sentences, statement, language);

/** Name of a subdivision as this player says it: "16ths", "semiquavers". */
export const subdivisionName = (perBeat: number): string => noteValue(perBeat, noteNamesOf(language));

/** A tempo with its note value: "16ths at 96". */
export const tempoName = (tempoBpm: number, perBeat: number): string => tempoIn(tempoBpm, perBeat, noteNamesOf(language));
