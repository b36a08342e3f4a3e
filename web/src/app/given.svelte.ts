/** An exercise that came with the address, until it is taken as the phrase or put away. */
import type { Exercise } from '@evenhand/core/exercise';
import { exerciseIn } from './takealong.ts';

export interface Given {
  /** null when none came, or it was put away. */
  readonly exercise: Exercise | null;
  /** Takes up what an address holds; true when it holds an exercise. */
  look(hash: string): boolean;
  putAway(): void;
}

export function createGiven(): Given {
  let exercise = $state.raw<Exercise | null>(null);
  return {
    get exercise() {
      return exercise;
    },
    look(hash) {
      const found = exerciseIn(hash);
      exercise = found ?? exercise;
      return found !== null;
    },
    putAway() {
      exercise = null;
    },
  };
}
