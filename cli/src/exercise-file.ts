/** An exercise from a file, as `evenhand exercises --json` prints it; checked here, trusted afterwards. */
import { type ExerciseContent, readContent } from '@evenhand/core/exercise';
import { readSticking } from '@evenhand/core/sticking';
import { type SaidProblem, sayProblem } from '@evenhand/core/words';
import { readText } from './files.ts';
import { refuse } from './problems.ts';

export interface ReadExercise {
  readonly content: ExerciseContent | null;
  readonly problems: readonly SaidProblem[];
}

/** The content of the exercise in `file`: one exercise, or a shelf that holds exactly one. */
export function readExercise(file: string): ReadExercise {
  const text = readText(file);
  if (text.problem) return { content: null, problems: [text.problem] };
  const written = writtenIn(text.value);
  if (!written) return { content: null, problems: [refuse('exercise-not-read', { file })] };
  const sticking = readSticking(written.sticking);
  if (!sticking.value) return { content: null, problems: sticking.problems.map((problem) => sayProblem(problem)) };
  const { perBeat, surfaces, meter } = written;
  const content = readContent(sticking.value, { perBeat, surfaces: surfaces.join(' '), meter });
  return { content: content.value, problems: [...sticking.problems, ...content.problems].map((problem) => sayProblem(problem)) };
}

/** The fields that an exercise is made of, when the text holds them. */
function writtenIn(text: string): ExerciseContent | null {
  try {
    const parsed = JSON.parse(text) as { exercises?: unknown[] } | null;
    const found = Array.isArray(parsed?.exercises) && parsed.exercises.length === 1 ? parsed.exercises[0] : parsed;
    return isWritten(found) ? found : null;
  } catch {
    return null;
  }
}

function isWritten(found: unknown): found is ExerciseContent {
  const { sticking, perBeat, surfaces, meter } = (found ?? {}) as Partial<Record<keyof ExerciseContent, unknown>>;
  const areNames = Array.isArray(surfaces) && surfaces.every((name) => typeof name === 'string');
  return typeof sticking === 'string' && typeof perBeat === 'number' && areNames && isMeter(meter);
}

function isMeter(found: unknown): boolean {
  const { beats, unit } = (found ?? {}) as { beats?: unknown; unit?: unknown };
  return [beats, unit].every((count) => Number.isInteger(count) && (count as number) > 0);
}
