/** An exercise that came with the address, until it is taken as the phrase or put away. */
import type { Exercise } from '@evenhand/core/exercise';
import { exerciseIn, tempoIn } from './takealong.ts';

export interface Given {
  /** null when none came, or it was put away. */
  readonly exercise: Exercise | null;
  /** The tempo that came with it; null when none did. */
  readonly tempoBpm: number | null;
  /** Takes up what an address holds; true when it holds an exercise. */
  look(hash: string): boolean;
  putAway(): void;
}

export function createGiven(): Given {
  let exercise = $state.raw<Exercise | null>(null);
  let tempoBpm = $state<number | null>(null);
  return {
    get exercise() {
      return exercise;
    },
    get tempoBpm() {
      return tempoBpm;
    },
    look(hash) {
      const found = exerciseIn(hash);
      if (found) [exercise, tempoBpm] = [found, tempoIn(hash)];
      return found !== null;
    },
    putAway() {
      exercise = null;
    },
  };
}
