/** What to work on: a cell of neighbouring strokes, as typed or as guessed. */
import type { Reading } from '../problem.ts';
import type { Sticking } from '../sticking/index.ts';
import type { ExerciseProblem, Focus } from './exercise.ts';

/**
 * A cell as typed. Never throws.
 * @param cell first and last main stroke, from 0; `last < first` wraps around the end of the cycle.
 */
export function readFocus(cell: Focus['cell'], sticking: Sticking): Reading<Focus, ExerciseProblem> {
  const strokeCount = sticking.strokes.length;
  const inside = (index: number) => Number.isInteger(index) && index >= 0 && index < strokeCount;
  if (inside(cell.first) && inside(cell.last)) return { value: focusOn(cell, strokeCount), problems: [] };
  return { value: null, problems: [{ code: 'cell-outside', severity: 'refused', params: { ...cell, strokeCount } }] };
}

/**
 * The cell when none is told: the first two neighbouring strokes of one limb, looking across the end of the cycle last;
 * the whole sticking when no limb plays twice in a row.
 */
export function defaultFocus(sticking: Sticking): Focus {
  const { strokes } = sticking;
  const next = (index: number) => (index + 1) % strokes.length;
  const first = strokes.findIndex(({ limb }, index) => strokes.length > 1 && strokes[next(index)]!.limb === limb);
  const cell = first < 0 ? { first: 0, last: strokes.length - 1 } : { first, last: next(first) };
  return focusOn(cell, strokes.length);
}

/** Weight 1 inside the cell, 0 outside. */
function focusOn(cell: Focus['cell'], strokeCount: number): Focus {
  const length = (cell.last - cell.first + strokeCount) % strokeCount;
  const weights = Array.from({ length: strokeCount }, (_, index) => ((index - cell.first + strokeCount) % strokeCount <= length ? 1 : 0));
  return { cell, weights };
}
