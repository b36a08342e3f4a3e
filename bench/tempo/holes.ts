/** Players of whom some have two ways of playing with a poor zone between: whether both ranges are told, and whether a zone is told where none is. */
import { cleanRangesHz, drawLearner, playRuns } from '../../core/src/player/index.ts';
import { seededRandom } from '../../core/src/random.ts';
import { cleanTempo, type WeighedResult } from '../../core/src/tempo/index.ts';
import { bpmOf, PARTS, PER_BEAT } from './sitting.ts';

export interface Holed {
  /** Whether the player has a poor zone of some width. */
  readonly holed: boolean;
  /** Whether one was told. */
  readonly told: boolean;
  /** Whether both ends of clean playing were told within 5 %, where there are two. */
  readonly bothRight: boolean;
}

/** Eighty runs in a sitting spread over tempi, as takes at fixed tempi and blocks at several give. */
const BLOCKS = 20;
const RUNS = 4;

/** A zone narrower than this share of the tempo is none that could be practised around. */
const NARROW = 0.05;

export function holedPlayer(seed: number): Holed | null {
  const random = seededRandom(seed);
  const learner = drawLearner(random, { holeShare: 0.5 });
  const ranges = cleanRangesHz(learner, PARTS, 0.85).filter(({ fromHz, toHz }) => toHz / fromHz > 1 + NARROW / 2);
  const top = ranges.at(-1)?.toHz;
  if (top === undefined) return null;
  const holed = ranges.length === 2 && ranges[1]!.fromHz / ranges[0]!.toHz > 1 + NARROW;
  // With two techniques but no zone worth the name, or hardly a second range, neither answer is wrong.
  if (learner.traits.second && !holed) return null;
  const low = Math.log(ranges[0]!.toHz * 0.85);
  const high = Math.log(top * 1.1);
  const results: WeighedResult[] = Array.from({ length: BLOCKS }, () => {
    const tempoBpm = Math.round(bpmOf(Math.exp(low + (high - low) * random())));
    const { clean } = playRuns(learner, PARTS, { speedHz: (tempoBpm * PER_BEAT) / 60, runs: RUNS, random });
    return { tempoBpm, runs: RUNS, clean };
  });
  const estimate = cleanTempo(results);
  const told = estimate.known && estimate.shape?.kind === 'hole';
  const near = (bpm: number | undefined, hz: number) => bpm !== undefined && Math.abs(bpm / bpmOf(hz) - 1) <= 0.05;
  const bothRight = holed && estimate.known && told && near(estimate.median, ranges[0]!.toHz) && near(estimate.above?.median, ranges[1]!.toHz);
  return { holed, told, bothRight };
}
