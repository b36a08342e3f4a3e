/** All sentences of the core, fetched with the whole desk. */
import { english } from '@evenhand/core/words';
import { speakFrom } from './said.ts';

/** From now on everything can be said. */
export const learnAllSentences = (): void => speakFrom(english);
