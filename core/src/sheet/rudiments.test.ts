import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { readContent } from '../exercise/index.ts';
import { mirror, readSticking } from '../sticking/index.ts';
import { engrave } from './engrave.ts';
import { headsIn } from './heads.case.ts';

const file = new URL('../../../../shared/reference/rudiments/rudiments.json', import.meta.url);
const present = existsSync(file);
if (!present) process.stderr.write('sheet/rudiments.test.ts skipped: ../shared/reference/rudiments is not here\n');
/** Numbers whose sticking stands in published descriptions (of 15 the length), by the reference's ORIGIN.md; the others are from memory of the standard list. */
const CONFIRMED = [1, 7, 14, 15, 16, 20, 24, 27, 29, 35, 36, 37, 38];
const read: readonly { readonly no: number; readonly cycle: string }[] = present ? JSON.parse(readFileSync(file, 'utf8')) : [];
const rudiments = read.map((each) => ({ ...each, says: CONFIRMED.includes(each.no) ? 'confirmed on published descriptions' : 'from memory' }));

describe.skipIf(!present)('the 40 rudiments engraved (stickings: FACTS.md 9)', () => {
  test('arithmetic: 13 confirmed, 27 from memory', () => {
    expect(rudiments.filter(({ says }) => says !== 'from memory')).toHaveLength(13);
    expect(rudiments).toHaveLength(40);
  });

  test.each(rudiments)('number $no, both leads: the main strokes of the source read back from the first cycle ($says)', ({ cycle }) => {
    const written = readSticking(cycle.replaceAll('^', '>')).value!;
    const mainStrokes = cycle.replaceAll(/[^RL]/g, '');
    for (const lead of [written, mirror(written)]) {
      const { svg, strokes } = engrave(readContent(lead, { perBeat: 4 }).value!);
      const heads = headsIn(svg).filter((head) => head.cycle === 0);
      expect(heads.map(({ index }) => index)).toEqual(Array.from(mainStrokes, (_, index) => index));
      expect(strokes.filter((stroke) => stroke.cycle === 0)).toHaveLength(mainStrokes.length);
      const letters = [...svg.matchAll(/<g data-cycle="0" data-index="\d+">\s*<text [^>]*>([RL])</g)].map(([, letter]) => letter).join('');
      expect(letters).toBe(lead === written ? mainStrokes : mirrored(mainStrokes));
    }
  });
});

const mirrored = (letters: string): string => Array.from(letters, (letter) => (letter === 'R' ? 'L' : 'R')).join('');
