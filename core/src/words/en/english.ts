/** All English sentences in one table; each file beside this one holds those of a stage. */
import { takeSentences } from './take.ts';

export const english = { ...takeSentences };
