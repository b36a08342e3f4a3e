/** What a call says beside the phrase itself: the shape that is wanted, and which strokes are the fill. */
import { SHAPES, type Shape } from '@evenhand/core/finding';
import type { SaidProblem } from '@evenhand/core/words';
import { refuseOption } from './problems.ts';
import type { Call, OptionSpec } from './verb.ts';

export interface ReadShape {
  readonly shapes: readonly Shape[];
  /** Main strokes of the fill, from 0; none: those on the toms, if there are such. */
  readonly fill: readonly number[];
  readonly problems: readonly SaidProblem[];
}

const EXAMPLE = '"leaning swing"';
const EVEN = 'even';

/** The options that say what is wanted. */
export const shapeOptions: readonly OptionSpec[] = [
  {
    name: 'shape',
    kind: 'text',
    placeholder: '"W W …"',
    example: EXAMPLE,
    about: `What is meant and so no fault: ${SHAPES.join(', ')}; unless said, ${EVEN}.`,
  },
  {
    name: 'fill',
    kind: 'span',
    placeholder: 'N-N',
    example: '9-14',
    about: 'First and last stroke of the fill, counted from 1; unless said, a row that goes to the toms.',
  },
];

/** Reads them. @param strokeCount main strokes of the phrase, which the fill must lie within. */
export function readShape(call: Call, strokeCount: number): ReadShape {
  const given = (call.text.shape ?? EVEN)
    .toLowerCase()
    .split(/[\s,]+/)
    .filter((word) => word !== '' && word !== EVEN);
  const strange = given.find((word) => !isShape(word));
  const wanted = `one or more of ${[EVEN, ...SHAPES].join(', ')}`;
  const ofShape = strange === undefined ? [] : [refuseOption('--shape', strange, { wanted, example: EXAMPLE })];
  const { fill } = call.span;
  const inside = fill === undefined || (fill.last >= fill.first && fill.last < strokeCount);
  const ofFill = inside
    ? []
    : [
        refuseOption('--fill', `${fill.first + 1}-${fill.last + 1}`, {
          wanted: `strokes from 1 to ${strokeCount}, the first before the last`,
          example: strokeCount > 1 ? `${strokeCount - 1}-${strokeCount}` : '1',
        }),
      ];
  return {
    shapes: given.filter(isShape),
    fill: fill && inside ? Array.from({ length: fill.last - fill.first + 1 }, (_, i) => fill.first + i) : [],
    problems: [...ofShape, ...ofFill],
  };
}

const isShape = (word: string): word is Shape => (SHAPES as readonly string[]).includes(word);
