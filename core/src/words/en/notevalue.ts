/** Tempi as drummers say them: never without the note value. */
import type { NoteNames } from '../sentences.ts';

/** Names by slots per beat, a beat being a quarter or crotchet. */
const NAMES: Readonly<Record<NoteNames, Readonly<Record<number, string>>>> = {
  american: { 1: 'quarters', 2: '8ths', 3: 'triplets', 4: '16ths', 5: 'quintuplets', 6: 'sextuplets', 7: 'septuplets', 8: '32nds' },
  british: {
    1: 'crotchets',
    2: 'quavers',
    3: 'triplets',
    4: 'semiquavers',
    5: 'quintuplets',
    6: 'sextuplets',
    7: 'septuplets',
    8: 'demisemiquavers',
  },
};

/** Name of a subdivision: 4 per beat are 16ths, or semiquavers. */
export const noteValue = (perBeat: number, noteNames: NoteNames = 'american'): string => NAMES[noteNames][perBeat] ?? `${perBeat} to the beat`;

/** A tempo with its note value: "16ths at 96". */
export const tempoName = (tempoBpm: number, perBeat: number, noteNames: NoteNames = 'american'): string =>
  `${noteValue(perBeat, noteNames)} at ${Number(tempoBpm.toFixed(1))}`;
