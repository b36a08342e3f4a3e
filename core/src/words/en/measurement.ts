/** English for why a measurement is doubtful or cannot be given. */
import type { MeasurementProblem } from '../../measurement/index.ts';
import type { Sentences } from '../sentences.ts';

const percent = (share: number): string => `${Math.round(100 * share)} %`;

export const measurementSentences: Sentences<MeasurementProblem> = {
  'nothing-to-match': ({ strokeCount }) =>
    `Too few strokes are heard to find a tempo in (${strokeCount}). Move the microphone nearer or play louder, and record at least two cycles.`,
  'tempo-not-found': ({ tempoBpm }) =>
    `No steady tempo near ${Math.round(tempoBpm)} is heard in this take. Check the tempo and the subdivision you gave.`,
  'tempo-far-from-told': ({ tempoBpm, trackedBpm }) =>
    `You said ${Math.round(tempoBpm)}; this take is nearer to ${Math.round(trackedBpm)}. It was measured at the tempo heard. Check the tempo and the subdivision.`,
  'sticking-does-not-fit': ({ matchedShare, extraShare }) =>
    `This take does not fit the sticking well: ${percent(matchedShare)} of its strokes were found, and ${percent(extraShare)} of what is heard belongs to none of them. Check the sticking, and take the figures with care.`,
  'sticking-drums-elsewhere': () =>
    'The kick is heard in other places than the sticking says. Check the sticking and where it begins, and take the figures with care.',
  'sticking-repeats-otherwise': ({ slotCount }) =>
    `What is heard repeats every ${slotCount} slots, not as the sticking does. Check the sticking and the subdivision, and take the figures with care.`,
  'too-few-cycles': ({ cycleCount }) =>
    cycleCount === 1
      ? 'Only one cycle is heard, too little to judge by. Play it a dozen times.'
      : `Only ${cycleCount} cycles are heard, too few to judge by. Play it a dozen times or more.`,
};
