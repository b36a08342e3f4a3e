/** A sentence out of a table of sentences: what is said of a statement, by whichever table is there. */
import type { Statement } from '../problem.ts';
import type { NoteNames } from './sentences.ts';

/** Languages there are sentences for: `en-GB` is English with the British names of note values. */
export type Language = 'en' | 'en-GB';

/** A sentence for each code it knows. */
export type SentenceTable = Readonly<Record<string, (params: never, noteNames: NoteNames) => string>>;

/** What a language calls note values. */
export const noteNamesOf = (language: Language): NoteNames => (language === 'en-GB' ? 'british' : 'american');

/**
 * The sentence for a statement.
 * @param sentences all that can be said; a code that is not among them gives the code itself.
 * @param statement anything the core says.
 */
export function sayFrom(sentences: SentenceTable, statement: Statement, language: Language): string {
  const sentence = sentences[statement.code];
  return sentence ? sentence(statement.params as never, noteNamesOf(language)) : statement.code;
}
