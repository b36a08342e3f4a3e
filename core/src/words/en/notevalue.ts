/** Tempi as drummers say them: never without the note value. */

const NAMES: Readonly<Record<number, string>> = {
  1: 'quarters',
  2: '8ths',
  3: 'triplets',
  4: '16ths',
  5: 'quintuplets',
  6: 'sextuplets',
  7: 'septuplets',
  8: '32nds',
};

/** Name of a subdivision: 4 per beat are 16ths. */
export const noteValue = (perBeat: number): string => NAMES[perBeat] ?? `${perBeat} to the beat`;

/** A tempo with its note value: "16ths at 96". */
export const tempoName = (tempoBpm: number, perBeat: number): string => `${noteValue(perBeat)} at ${Number(tempoBpm.toFixed(1))}`;
