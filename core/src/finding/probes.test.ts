import { describe, expect, test } from 'vitest';
import { type ExerciseContent, expectedCycle, readContent } from '../exercise/index.ts';
import { type Measurement, measure } from '../measurement/index.ts';
import { play } from '../measurement/play.case.ts';
import { normal, seededRandom } from '../random.ts';
import { readSticking } from '../sticking/index.ts';
import { findingsOf } from './findings.ts';
import { proposeProbes, ruledOut } from './probes.ts';
import { type ProbeTake, stickingProbes } from './probetake.ts';

const contentOf = (text: string): ExerciseContent => readContent(readSticking(text).value!, { perBeat: 4 }).value!;

/** A take in which strokes vary by 5 ms and some come early. */
function takeOf(content: ExerciseContent, early: (index: number) => boolean, { seed = 3, cycles = 24, tempoBpm = 96 } = {}): Measurement {
  const random = seededRandom(seed);
  const cycle = expectedCycle(content);
  const stroke = (_: number, index: number) => ({ offMs: 5 * normal(random) - (early(index) ? 20 : 0), db: 0.5 * normal(random) });
  const candidates = play(cycle, { cycles, tempoBpm, stroke });
  return measure(candidates, cycle, { tempoBpm, durationSec: candidates.at(-1)!.timeSec + 2 }).value!;
}

/** Who is early in a probe, by the true cause: written here apart from the explanations. */
const isSecondKick = ({ sticking }: ExerciseContent) => {
  const letters = readSticking(sticking).value!.strokes.map(({ limb }) => limb);
  return (index: number) => letters[index] === 'K' && letters.at(index - 1) === 'K';
};

describe('the second kick of RLRLKK is early: this stroke of this phrase, or the second of kick doubles?', () => {
  const content = contentOf('RLRLKK');
  const cycle = expectedCycle(content);
  const measurement = takeOf(content, (index) => index === 5);

  test('one take cannot tell, and says so', () => {
    const [finding] = findingsOf(measurement, { cycle });
    expect([finding!.cause, ...finding!.ties!.map(({ params }) => params.what)]).toEqual(['second-of-double', 'place:5']);
  });

  test('probes that would part them are proposed first, two of them', () => {
    const probes = proposeProbes(measurement, { cycle, content });
    expect(probes).toHaveLength(2);
    expect(probes[0]!.gain).toBeGreaterThan(0.9);
  });

  test.each([
    { truth: 'second-of-double', early: isSecondKick, out: 'place:5' },
    {
      truth: 'place',
      early:
        (_: ExerciseContent, { standsFor }: ProbeTake) =>
        (index: number) =>
          standsFor[index] === 5,
      out: 'second-of-double:K',
    },
  ])('when it is the $truth, the best probe rules the other out (closed form: the fault is what was planted)', ({ truth, early, out }) => {
    const [probe] = proposeProbes(measurement, { cycle, content });
    const played = takeOf(probe!.content, early(probe!.content, probe!), { seed: 4 });
    const before = findingsOf(measurement, { cycle });
    const after = findingsOf(measurement, { cycle }, [{ measurement: played, cycle: expectedCycle(probe!.content), standsFor: probe!.standsFor }]);
    expect(after[0]!.cause).toBe(truth);
    expect(ruledOut(before[0]!, after[0]!).map(({ params }) => params.what)).toContain(out);
  });
});

test.each([
  { kind: 'other-hand', sticking: 'LRLRKK', stands: [0, 1, 2, 3, 4, 5] },
  { kind: 'hands-for-feet', sticking: 'RLRLRR', stands: [0, 1, 2, 3, 4, 5] },
  { kind: 'pair-alone', sticking: 'KK--KK--', stands: [null, null, null, null] },
  { kind: 'threes', sticking: 'RLRLKKK', stands: [0, 1, 2, 3, 4, 5, null] },
  { kind: 'accent-second', sticking: 'RLRLK>K', stands: [0, 1, 2, 3, 4, 5] },
  { kind: 'begun-elsewhere', sticking: 'LRLKKR', stands: [1, 2, 3, 4, 5, 0] },
])('RLRLKK as $kind is $sticking (written by hand)', ({ kind, sticking, stands }) => {
  const probe = stickingProbes(contentOf('RLRLKK'), { first: 4, second: 5 }).find((one) => one.kind === kind)!;
  expect(probe.content.sticking.replaceAll(' ', '')).toBe(sticking);
  expect(probe.standsFor).toEqual(stands);
});

test('nothing found, nothing to probe', () => {
  const content = contentOf('RLRRLRLL');
  expect(
    proposeProbes(
      takeOf(content, () => false),
      { cycle: expectedCycle(content), content },
    ),
  ).toEqual([]);
});
